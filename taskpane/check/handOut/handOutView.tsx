import { useRef, useState } from "preact/hooks";
import { readHandOut, readPortable, type PortableCounts } from "../../../src/checker/index.ts";
import { NewSheet } from "../newSheet.tsx";
import type { ToolProps } from "../tool.ts";
import { useSheet } from "../useSheet.ts";
import { libraries } from "../../trace/libraries.ts";
import { now } from "../../when.ts";

/** What the copy is to do. */
type Way = "values" | "computes";

interface Made {
  readonly way: Way;
  readonly sheet: string;
  readonly of: string;
  /** The template's title; undefined where no template built the original. */
  readonly template: string | undefined;
  /** Of a copy that computes. */
  readonly counts?: PortableCounts;
}

const words: Readonly<Record<Way, string>> = { values: "Hand-out", computes: "Computing" };

function saidOf({ counts, template }: Made): string {
  if (counts)
    return `${counts.computing} formulas compute, ${counts.staying} cells stay values (${counts.warnings} of them warnings and marks).`;
  return template === undefined
    ? "No template built the original: its values and number formats were copied, its formulas as they stand."
    : `As “${template}” looks; its formulas in symbols and row numbers.`;
}

/** A copy of the sheet looked at, for people without the worksheet functions. */
export function HandOutView({ host, go }: ToolProps) {
  const { sheet, problem } = useSheet(host);
  const [made, setMade] = useState<Made>();
  const [way, setWay] = useState<Way>("values");
  const isCopy = sheet !== undefined && sheet === made?.sheet;
  const copying = useRef<Omit<Made, "sheet">>({ way, of: "", template: undefined });
  return (
    <>
      <p>Copies the sheet that is looked at, for people without the worksheet functions. The copy says what it is.</p>
      <fieldset class="kb-ways">
        <legend>The copy</legend>
        <label>
          <input type="radio" name="kb-copy" checked={way === "values"} onChange={() => setWay("values")} />
          <span>holds values only, with its formulas as readable text beside them</span>
        </label>
        <label>
          <input type="radio" name="kb-copy" checked={way === "computes"} onChange={() => setWay("computes")} />
          <span>computes without the add-in</span>
        </label>
      </fieldset>
      {way === "computes" && (
        <p class="kb-hint">
          Functions of equations and tables become named formulas (LAMBDA) of the workbook. What integrates or searches
          stays a value, marked; once an input behind it is changed it shows #N/A. Trust the verdict of the original.
          The program needs LAMBDA: not yet tried in the program itself.
        </p>
      )}
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
        wanted={sheet === undefined || isCopy ? words[way] : `${words[way]} ${sheet}`}
        button={way === "values" ? "Make the hand-out copy" : "Make the computing copy"}
        what={way === "values" ? "the hand-out copy" : "the computing copy"}
        disabled={sheet === undefined || isCopy}
        make={async () => {
          if (way === "computes") {
            const { math } = await libraries();
            const copy = await readPortable(host, sheet!, { when: now(), host: host.name }, math);
            copying.current = { way, of: sheet!, template: copy.template, counts: copy.counts };
            return copy.plan;
          }
          const { plan, recognised } = await readHandOut(host, sheet!, { when: now(), host: host.name });
          copying.current = { way, of: sheet!, template: recognised?.template.title };
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
            <p class="kb-hint">{saidOf(made)} To hand it out, move the copy into a workbook of its own.</p>
          </div>
        )}
      </div>
    </>
  );
}
