import { useState } from "preact/hooks";
import { freeSheetName, type Plan } from "../../src/sheet/index.ts";
import { whyNot } from "../loading.ts";
import { WorkButton } from "../workButton.tsx";
import type { ToolProps } from "./tool.ts";

interface Props extends Pick<ToolProps, "host" | "go"> {
  /** The sheet's name, without regard to those in use. */
  readonly wanted: string;
  readonly plan: () => Plan;
}

/** Puts a tool's list on a new sheet, and says where it is. */
export function ListOnSheet({ host, go, wanted, plan }: Props) {
  const [writing, setWriting] = useState(false);
  const [written, setWritten] = useState("");
  const [problem, setProblem] = useState("");
  const write = async (): Promise<void> => {
    setProblem("");
    setWritten("");
    setWriting(true);
    try {
      const sheetName = freeSheetName(wanted, await host.sheetNames());
      await host.apply(plan(), { sheetName, progress: () => undefined });
      setWritten(sheetName);
    } catch (error) {
      setProblem(`The list was not put on a sheet: ${whyNot(error)}.`);
    }
    setWriting(false);
  };
  return (
    <>
      <p>
        <WorkButton busy={writing} act={() => void write()}>
          Put the list on a new sheet
        </WorkButton>
      </p>
      <div role="alert">{problem && <p class="kb-problem">{problem}</p>}</div>
      <div role="status">
        {writing && <p class="kb-hint">Writing …</p>}
        {written && (
          <p>
            The list is on{" "}
            <button type="button" class="kb-link" onClick={() => go({ sheet: written, row: 0, column: 0 })}>
              {written}
            </button>
            .
          </p>
        )}
      </div>
    </>
  );
}
