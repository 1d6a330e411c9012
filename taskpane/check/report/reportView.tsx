import { useEffect, useRef, useState } from "preact/hooks";
import { isBuilt, readMember, reportOf, reportSheetPlan } from "../../../src/checker/index.ts";
import type { Host } from "../../../src/hosts/index.ts";
import { whyNot } from "../../loading.ts";
import { Paper } from "../../paper/paper.tsx";
import { libraries } from "../../trace/libraries.ts";
import { now } from "../../when.ts";
import { NewSheet } from "../newSheet.tsx";
import type { ToolProps } from "../tool.ts";
import { useSheet } from "../useSheet.ts";
import { pictureWith } from "./picture.ts";

/**
 * The sheet last selected of those that a template built, while it is in the workbook. A report's own summary, which is
 * selected as soon as it is made, is no member.
 */
function useMemberSheet(host: Host): ReturnType<typeof useSheet> {
  const { sheet: selected, problem } = useSheet(host);
  const [sheet, setSheet] = useState<string>();
  const [unread, setUnread] = useState("");
  useEffect(() => {
    if (selected === undefined) return undefined;
    let live = true;
    const look = async (): Promise<void> => {
      const isMember = await isBuilt(host, selected);
      const names = await host.sheetNames();
      if (!live) return;
      setUnread("");
      setSheet((last) => (isMember ? selected : names.find((name) => name === last)));
    };
    look().catch((error: unknown) => {
      if (live) setUnread(`“${selected}” could not be read: ${whyNot(error)}. Select a cell again.`);
    });
    return () => {
      live = false;
    };
  }, [host, selected]);
  return { sheet, problem: problem || unread };
}

/** The member that is looked at, with all its linked sheets, as one document or as a sheet. */
export function ReportView({ host, go }: ToolProps) {
  const { sheet, problem } = useMemberSheet(host);
  const [share, setShare] = useState<number>();
  const [made, setMade] = useState<string>();
  const [appendix, setAppendix] = useState(false);
  const shown = useRef(-1);
  const abort = useRef<AbortController>();
  const facts = () => ({ date: now() });
  const make = async (): Promise<string> => {
    shown.current = -1;
    const { signal } = (abort.current = new AbortController());
    try {
      const [{ math, mathml }, Plot] = await Promise.all([libraries(), import("@observablehq/plot")]);
      return await reportOf(host, sheet!, facts(), {
        setting: { math, mathml },
        picture: pictureWith(Plot),
        appendix,
        signal,
        progress: (done) => {
          const percent = Math.floor(done * 20) * 5;
          if (percent === shown.current) return;
          shown.current = percent;
          setShare(percent);
        },
      });
    } finally {
      setShare(undefined);
    }
  };
  return (
    <>
      <p>
        The whole member in one document: the stress check with every sheet linked to it, what fails or is still open,
        inputs, values and how they come about, of long tables the rows that decide, each equation once with its
        numbers, pictures, sources and revisions. It says what the sheets say now and is no independent check.
      </p>
      {problem && (
        <p class="kb-problem" role="alert">
          {problem}
        </p>
      )}
      {sheet === undefined ? (
        <p>Select a cell of the member's stress check or of a sheet linked to it.</p>
      ) : (
        <>
          <p>
            Report on the member of <strong>{sheet}</strong>.
          </p>
          <label class="kb-check">
            <input type="checkbox" checked={appendix} onChange={(event) => setAppendix(event.currentTarget.checked)} />{" "}
            With an appendix of all workings: every value with its equation and numbers, every row. Some hundred pages
            more.
          </label>
          <Paper title="The report on paper" fileName={`Report ${sheet}.html`} make={make} />
          {share !== undefined && (
            <p class="kb-hint">
              <progress max={100} value={share} aria-label="The report is being written" /> {share} %{" "}
              <button type="button" onClick={() => abort.current?.abort(new Error("it was cancelled"))}>
                Cancel
              </button>
            </p>
          )}
          <h3>Its summary as a sheet</h3>
          <NewSheet
            id="kb-report-name"
            host={host}
            wanted={`Report ${sheet}`}
            button="Make the summary sheet"
            what="the summary sheet"
            disabled={false}
            make={async () => reportSheetPlan(await readMember(host, sheet), facts())}
            done={setMade}
          />
          <div role="status">
            {made !== undefined && (
              <p>
                The summary is on{" "}
                <button type="button" class="kb-link" onClick={() => go({ sheet: made, row: 0, column: 0 })}>
                  {made}
                </button>
                . It holds values only: make it anew after a change.
              </p>
            )}
          </div>
        </>
      )}
    </>
  );
}
