import { a1 } from "../../../src/cells/index.ts";
import { useEffect, useState } from "preact/hooks";
import { worksheetFunctions } from "../../../functions/index.ts";
import {
  loadCases,
  failWord,
  goodWords,
  readValidation,
  validationPlan,
  type AsBuilt,
  type ReadValidation,
} from "../../../src/checker/index.ts";
import type { Plan } from "../../../src/sheet/index.ts";
import { whyNot } from "../../loading.ts";
import { now } from "../../when.ts";
import { NewSheet } from "../newSheet.tsx";
import type { ToolProps } from "../tool.ts";
import { useSheet } from "../useSheet.ts";
import { useCalculations } from "../../useCalculations.ts";

/** What a sheet with that date and host is built as; the last one is kept, since a sheet is read after every calculation. */
function builder(cases: Parameters<typeof validationPlan>[0]): AsBuilt {
  let last: { readonly key: string; readonly plan: Plan } | undefined;
  return (made) => {
    const key = JSON.stringify(made);
    if (last?.key !== key) last = { key, plan: validationPlan(cases, worksheetFunctions, made).plan };
    return last.plan;
  };
}
let building: Promise<AsBuilt> | undefined;
const asBuilt = (): Promise<AsBuilt> => (building ??= loadCases().then(builder));

/** "0 FAIL, 330 PASS, 67 BY TRACE": what fails always, the rest where there is any. */
function countsText(by: readonly number[]): string {
  const words = [...goodWords, failWord].map((word, i) => ({ word, n: by[i] ?? 0 }));
  return [words.at(-1)!, ...words.slice(0, -1).filter(({ n }) => n > 0)]
    .map(({ word, n }) => `${n} ${word}`)
    .join(", ");
}

const tone = (overall: string): string =>
  overall === "PASS" ? "kb-tag-good" : overall === failWord ? "kb-tag-bad" : "kb-tag-open";

/** A validation sheet for the files of an office, and what it says. */
export function ProveView({ host, go }: ToolProps) {
  const { sheet: selected } = useSheet(host);
  const [sheet, setSheet] = useState<string>();
  const [read, setRead] = useState<ReadValidation>();
  const [problem, setProblem] = useState("");
  const [calculation, another] = useCalculations(host);
  // A validation sheet that is selected is the one looked at; the last one stays while other sheets are.
  useEffect(() => {
    let live = true;
    const look = async (): Promise<void> => {
      const names = await host.sheetNames();
      for (const name of new Set([selected, sheet])) {
        if (name === undefined || !names.includes(name)) continue;
        const found = await readValidation(host, name, await asBuilt());
        if (!live) return;
        if (!found) continue;
        setSheet(name);
        setRead(found);
        setProblem("");
        return;
      }
      if (!live) return;
      setRead(undefined);
    };
    look().catch((error: unknown) => {
      if (live) setProblem(`The validation sheet could not be read: ${whyNot(error)}`);
    });
    return () => {
      live = false;
    };
  }, [host, selected, sheet, calculation]);
  return (
    <>
      <p>
        Puts every published check on a new sheet as a live formula, with its inputs, the printed value, the tolerance,
        the source and a verdict computed on the sheet. An office files it as proof that this installation gives the
        printed numbers; it says nothing of the fitness of a design.
      </p>
      <NewSheet
        id="kb-prove-name"
        host={host}
        wanted="Validation"
        button="Make the validation sheet"
        what="the validation sheet"
        make={async () => validationPlan(await loadCases(), worksheetFunctions, { when: now(), host: host.name }).plan}
        done={(made) => {
          setSheet(made);
          another();
        }}
      />
      <div role="alert">{problem && <p class="kb-problem">{problem}</p>}</div>
      {read && sheet !== undefined && (
        <section aria-label="Validation">
          <h3>
            <button type="button" class="kb-link" onClick={() => go({ sheet, row: 0, column: 0 })}>
              {sheet}
            </button>
          </h3>
          <p class="kb-overall" aria-live="polite">
            Overall{" "}
            {read.computing ? (
              <span class="kb-tag kb-tag-open">calculating …</span>
            ) : (
              <span class={`kb-tag ${tone(read.overall)}`}>{read.overall}</span>
            )}
          </p>
          <dl class="kb-facts">
            <div>
              <dt>functions now</dt>
              <dd>{read.versionNow}</dd>
            </div>
            <div>
              <dt>sheet built by</dt>
              <dd>{read.versionBuilt}</dd>
            </div>
            {read.counts.map(({ basis, values, by }) => (
              <div key={basis}>
                <dt>{basis}</dt>
                <dd>
                  {read.computing
                    ? "calculating …"
                    : `${values} ${values === 1 ? "value" : "values"}: ${countsText(by)}`}
                </dd>
              </div>
            ))}
          </dl>
          <p class="kb-hint">
            BY TRACE: an intermediate step that no cell can show; its value was computed when the sheet was made.
            DIFFERS: a superseded value, which the function rightly does not give. REFUSED: an input out of range,
            refused as it must be.
          </p>
          {!read.computing && read.changed.length > 0 && (
            <>
              <h3>Changed since it was built: {read.changed.length}</h3>
              <p class="kb-problem">
                Printed numbers, tolerances, inputs or formulas of this sheet are not those of the checks: it proves
                nothing. Make a new one.
              </p>
              <p>
                {read.changed.slice(0, 20).map((at) => (
                  <button key={a1(at)} type="button" class="kb-link" onClick={() => go({ sheet, ...at })}>
                    {a1(at)}
                  </button>
                ))}
              </p>
            </>
          )}
          {!read.computing && read.failing.length > 0 && (
            <>
              <h3>To be looked at: {read.failing.length}</h3>
              <ol class="kb-findings">
                {read.failing.slice(0, 50).map((row) => (
                  <li key={row.row} class="kb-grade-serious">
                    <p>
                      <button type="button" class="kb-link" onClick={() => go({ sheet, row: row.row, column: 13 })}>
                        {row.no}
                      </button>{" "}
                      {row.what}
                    </p>
                    <p>
                      printed {row.printed}, here {row.compared || "nothing"}: <strong>{row.verdict}</strong>
                    </p>
                  </li>
                ))}
              </ol>
              {read.failing.length > 50 && <p class="kb-hint">and {read.failing.length - 50} more on the sheet</p>}
            </>
          )}
        </section>
      )}
    </>
  );
}
