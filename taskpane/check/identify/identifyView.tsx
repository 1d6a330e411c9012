import { useEffect, useRef, useState } from "preact/hooks";
import { areaA1 } from "../../../src/cells/index.ts";
import {
  countsOfIdentifiedText,
  identifiedPaper,
  identifiedPlan,
  identifyOn,
  limitsOfIdentifying,
  verdictsInOrder,
  type IdentifiedList,
} from "../../../src/checker/index.ts";
import type { Selection } from "../../../src/hosts/index.ts";
import { whyNot } from "../../loading.ts";
import { Paper } from "../../paper/paper.tsx";
import { now } from "../../when.ts";
import { WorkButton } from "../../workButton.tsx";
import { ListOnSheet } from "../listOnSheet.tsx";
import type { ToolProps } from "../tool.ts";
import { goneText, useStillThere } from "../useStillThere.ts";
import { VerdictList } from "./verdictList.tsx";

interface Outcome {
  readonly list: IdentifiedList;
  /** The cells looked at; undefined for the whole sheet. */
  readonly cells: string | undefined;
  readonly date: string;
}

interface Progress {
  readonly done: number;
  readonly of: number;
}

/** What the hand-typed formulas of the selected cells, or of the whole sheet, compute. */
export function IdentifyView(props: ToolProps) {
  const { host, go } = props;
  const { selection, problem: unread } = useSelection(host);
  const [progress, setProgress] = useState<Progress>();
  const [problem, setProblem] = useState("");
  const [outcome, setOutcome] = useState<Outcome>();
  const abort = useRef<AbortController>();
  useEffect(() => () => abort.current?.abort(), []);

  const run = async (within: Selection | undefined): Promise<void> => {
    if (!selection || abort.current) return;
    const { signal } = (abort.current = new AbortController());
    setProblem("");
    setProgress({ done: 0, of: 0 });
    try {
      const list = await identifyOn(host, selection.sheet, {
        ...(within && { within }),
        progress: (done, of) => setProgress({ done, of }),
        signal,
      });
      setOutcome({ list, cells: within && areaA1(within, false), date: now() });
    } catch (error) {
      const cancelled = error instanceof Error && error.name === "AbortError";
      setProblem(cancelled ? "Cancelled." : `The formulas could not be looked at: ${whyNot(error)}.`);
    } finally {
      abort.current = undefined;
      setProgress(undefined);
    }
  };

  const busy = progress !== undefined;
  const isThere = useStillThere(host, outcome?.list.sheet, outcome);
  return (
    <>
      <p>
        Says which rule a hand-typed formula computes: function, standard, units, and which cell is which argument. It
        changes nothing on the sheet.
      </p>
      {unread && (
        <p class="kb-problem" role="alert">
          {unread}
        </p>
      )}
      <div class="kb-pick">
        <WorkButton class="kb-primary" busy={busy} disabled={selection === undefined} act={() => void run(selection)}>
          {selection ? `Identify ${areaA1(selection, false)}` : "Select cells with formulas"}
        </WorkButton>
        <WorkButton busy={busy} disabled={selection === undefined} act={() => void run(undefined)}>
          Identify the whole sheet
        </WorkButton>
      </div>
      {progress && (
        <div class="kb-progress">
          <label for="kb-identify-progress">
            {progress.of > 0 ? `Formula ${progress.done} of ${progress.of}` : "Reading the sheet"}
          </label>
          <progress id="kb-identify-progress" {...(progress.of > 0 && { value: progress.done, max: progress.of })} />
          <button type="button" onClick={() => abort.current?.abort()}>
            Cancel
          </button>
        </div>
      )}
      <div role="alert">{problem && <p class="kb-problem">{problem}</p>}</div>
      <p class="kb-hidden" role="status">
        {outcome && isThere && !busy ? countsOfIdentifiedText(outcome.list) : ""}
      </p>
      <div role="status">{outcome && !isThere && <p class="kb-hint">{goneText(outcome.list.sheet)}</p>}</div>
      {outcome && isThere && (
        <section aria-label="Formulas" class="kb-identified">
          <h3>
            {outcome.list.sheet}
            {outcome.cells !== undefined && `, ${outcome.cells}`}
          </h3>
          <p>{countsOfIdentifiedText(outcome.list)}</p>
          {verdictsInOrder.map((verdict) => (
            <VerdictList
              key={`${verdict} ${outcome.date}`}
              verdict={verdict}
              findings={outcome.list.findings.filter((f) => f.verdict === verdict)}
              {...props}
            />
          ))}
          <p class="kb-hint">{limitsOfIdentifying}</p>
          <Paper
            title="The list on paper"
            fileName={`Formulas ${outcome.list.sheet}.html`}
            make={() => Promise.resolve(identifiedPaper(outcome.list, { date: outcome.date, host: host.name }))}
          />
          <ListOnSheet
            key={outcome.date}
            host={host}
            go={go}
            wanted={`Formulas ${outcome.list.sheet}`}
            plan={() => identifiedPlan(outcome.list, { date: outcome.date, host: host.name })}
          />
        </section>
      )}
    </>
  );
}

/** What is selected, as it changes. */
function useSelection(host: ToolProps["host"]) {
  const [selection, setSelection] = useState<Selection>();
  const [problem, setProblem] = useState("");
  useEffect(() => {
    let live = true;
    const follow = (at: Selection | undefined): void => {
      if (!live || !at) return;
      setProblem("");
      setSelection(at);
    };
    host.selection().then(follow, (error: unknown) => {
      if (live) setProblem(`The selection could not be read: ${whyNot(error)}. Select a cell.`);
    });
    const end = host.onSelection(follow);
    return () => {
      live = false;
      end();
    };
  }, [host]);
  return { selection, problem };
}
