import { useState } from "preact/hooks";
import {
  compare,
  findingsPaper,
  findingsPlan,
  gradesInOrder,
  comparedWith,
  limitsOfComparing,
  outcomeOf,
  type Comparison,
} from "../../../src/checker/index.ts";
import { whyNot } from "../../loading.ts";
import { Paper } from "../../paper/paper.tsx";
import { now } from "../../when.ts";
import { WorkButton } from "../../workButton.tsx";
import { ListOnSheet } from "../listOnSheet.tsx";
import type { ToolProps } from "../tool.ts";
import { NotATemplates } from "../../templates/notATemplates.tsx";
import { useSheet } from "../useSheet.ts";
import { goneText, useStillThere } from "../useStillThere.ts";
import { GradeList } from "./gradeList.tsx";

interface Outcome {
  readonly sheet: string;
  /** Undefined where no template built the sheet. */
  readonly comparison: Comparison | undefined;
  readonly date: string;
}

const wordOf = ({ clean, counts }: Comparison): string =>
  clean ? "AS ITS TEMPLATE" : counts.serious > 0 ? "DIFFERS" : "TO LOOK AT";

/** The sheet against what its template would build from its inputs. */
export function CompareView({ host, go, trace }: ToolProps) {
  const { sheet, problem: selection } = useSheet(host);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState("");
  const [outcome, setOutcome] = useState<Outcome>();
  const run = async (name: string): Promise<void> => {
    setBusy(true);
    setProblem("");
    try {
      setOutcome({ sheet: name, comparison: await compare(host, name), date: now() });
    } catch (error) {
      setOutcome(undefined);
      setProblem(`The sheet could not be compared: ${whyNot(error)}.`);
    }
    setBusy(false);
  };
  const isThere = useStillThere(host, outcome?.sheet, outcome);
  const comparison = isThere ? outcome?.comparison : undefined;
  return (
    <>
      <p>Recalculates, then compares every cell with what the template builds today from this sheet's own inputs.</p>
      {selection && (
        <p class="kb-problem" role="alert">
          {selection}
        </p>
      )}
      <WorkButton
        class="kb-primary"
        busy={busy}
        disabled={sheet === undefined}
        act={() => void (sheet !== undefined && run(sheet))}
      >
        {sheet === undefined ? "Select a cell of the sheet" : `Compare “${sheet}”`}
      </WorkButton>
      <div role="alert">{problem && <p class="kb-problem">{problem}</p>}</div>
      <div role="status">
        {busy ? (
          <p>Recalculating and comparing …</p>
        ) : (
          comparison && (
            <p class="kb-hidden">
              Compared “{comparison.sheet}”: {outcomeOf(comparison)}
            </p>
          )
        )}
      </div>
      <div role="status">{outcome && !isThere && <p class="kb-hint">{goneText(outcome.sheet)}</p>}</div>
      {outcome && isThere && !comparison && (
        <NotATemplates id="compare" host={host} sheet={outcome.sheet} again={() => void run(outcome.sheet)} />
      )}
      {outcome && comparison && (
        <section aria-label="Findings" class="kb-compared">
          <h3>{outcome.sheet}</h3>
          <p class="kb-overall">
            <span
              class={`kb-tag ${comparison.clean ? "kb-tag-good" : comparison.counts.serious > 0 ? "kb-tag-bad" : "kb-tag-open"}`}
            >
              {wordOf(comparison)}
            </span>
          </p>
          <p>{outcomeOf(comparison)}</p>
          <dl class="kb-facts">
            {comparedWith(comparison).map(([what, text]) => (
              <div key={what}>
                <dt>{what}</dt>
                <dd>{text}</dd>
              </div>
            ))}
            <div>
              <dt>date</dt>
              <dd>{outcome.date}</dd>
            </div>
          </dl>
          {gradesInOrder.map((grade) => (
            <GradeList
              key={grade}
              grade={grade}
              findings={comparison.findings.filter((f) => f.grade === grade)}
              sheet={outcome.sheet}
              go={go}
              trace={trace}
            />
          ))}
          <p class="kb-hint">{limitsOfComparing}</p>
          <Paper
            title="The findings on paper"
            fileName={`Findings ${outcome.sheet}.html`}
            make={() => Promise.resolve(findingsPaper(comparison, { date: outcome.date, host: host.name }))}
          />
          <ListOnSheet
            key={outcome.date}
            host={host}
            go={go}
            wanted={`Findings ${comparison.sheet}`}
            plan={() => findingsPlan(comparison, { date: outcome.date, host: host.name })}
          />
        </section>
      )}
    </>
  );
}
