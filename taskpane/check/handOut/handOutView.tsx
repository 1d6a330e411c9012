import { useRef, useState } from "preact/hooks";
import { readHandOut } from "../../../src/checker/index.ts";
import { NewSheet } from "../newSheet.tsx";
import type { ToolProps } from "../tool.ts";
import { useSheet } from "../useSheet.ts";
import { now } from "../../when.ts";

interface Made {
  readonly sheet: string;
  readonly of: string;
  /** The template's title; undefined where no template built the original. */
  readonly template: string | undefined;
}

/** A copy of the sheet looked at, for people without the worksheet functions. */
export function HandOutView({ host, go }: ToolProps) {
  const { sheet, problem } = useSheet(host);
  const [made, setMade] = useState<Made>();
  const isCopy = sheet !== undefined && sheet === made?.sheet;
  const copying = useRef<Omit<Made, "sheet">>({ of: "", template: undefined });
  return (
    <>
      <p>
        Copies the sheet that is looked at, with values only and its formulas as readable text beside them, for people
        without the worksheet functions. Nothing on the copy recalculates, and it says so.
      </p>
      {problem && (
        <p class="kb-problem" role="alert">
          {problem}
        </p>
      )}
      <p>
        {sheet === undefined ? (
          "Select a cell of the sheet to copy."
        ) : isCopy ? (
          <>
            <strong>{sheet}</strong> is the copy just made. Select a cell of another sheet to copy that.
          </>
        ) : (
          <>
            Copies <strong>{sheet}</strong>.
          </>
        )}
      </p>
      <NewSheet
        id="kb-handout-name"
        host={host}
        wanted={sheet === undefined || isCopy ? "Hand-out" : `Hand-out ${sheet}`}
        button="Make the hand-out copy"
        what="the hand-out copy"
        disabled={sheet === undefined || isCopy}
        make={async () => {
          const { plan, recognised } = await readHandOut(host, sheet!, { when: now(), host: host.name });
          copying.current = { of: sheet!, template: recognised?.template.title };
          return plan;
        }}
        done={(copy) => setMade({ sheet: copy, ...copying.current })}
      />
      <div role="status">
        {made && (
          <div class="kb-done">
            <p>
              The copy of {made.of} stands on{" "}
              <button type="button" class="kb-link" onClick={() => go({ sheet: made.sheet, row: 0, column: 0 })}>
                {made.sheet}
              </button>
              .
            </p>
            <p class="kb-hint">
              {made.template === undefined
                ? "No template built the original: its values and number formats were copied, its formulas as they stand."
                : `As “${made.template}” looks; its formulas in symbols and row numbers.`}{" "}
              To hand it out, move the copy into a workbook of its own.
            </p>
          </div>
        )}
      </div>
    </>
  );
}
