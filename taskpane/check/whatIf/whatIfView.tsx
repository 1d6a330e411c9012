import { a1, type Address } from "../../../src/cells/index.ts";
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import {
  NotAllowed,
  questioned,
  whatIf,
  type InputChange,
  type Questioned,
  type WhatIf,
} from "../../../src/checker/index.ts";
import { whyNot } from "../../loading.ts";
import { WorkButton } from "../../workButton.tsx";
import { focusBack } from "../../focusBack.ts";
import type { ToolProps } from "../tool.ts";
import { NotATemplates } from "../../templates/notATemplates.tsx";
import { useSheet } from "../useSheet.ts";
import { ChangeForm, changeOf, changeText, noDraft, type Draft } from "./changeForm.tsx";
import { InputsThatMatter } from "./inputsThatMatter.tsx";
import { Outcome } from "./outcome.tsx";

/** What the checks would say with other inputs, worked out beside the sheet. */
export function WhatIfView({ host, go }: ToolProps) {
  const { sheet, problem: selection } = useSheet(host);
  const [of, setOf] = useState<Questioned>();
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<readonly string[]>([]);
  /** A sheet that no template known here built. */
  const [unknown, setUnknown] = useState<string>();
  const [draft, setDraft] = useState<Draft>(noDraft);
  const [kept, setKept] = useState<readonly InputChange[]>([]);
  const [outcome, setOutcome] = useState<WhatIf>();
  const calculations = useRef(0);
  const readAt = useRef(-1);
  const heading = useRef<HTMLHeadingElement>(null);
  const form = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    if (of) focusBack(heading.current);
  }, [of?.sheet]);
  // The button that was pressed is gone or has nothing to do any more: on with the next input.
  useLayoutEffect(() => focusBack(form.current?.querySelector("input")), [kept]);
  useEffect(
    () =>
      host.onCalculated(() => {
        calculations.current++;
      }),
    [host],
  );

  const open = async (name: string): Promise<void> => {
    setBusy(true);
    setProblem([]);
    setUnknown(undefined);
    setOutcome(undefined);
    setDraft(noDraft);
    setKept([]);
    try {
      // Where a workbook computes by hand only, what the cells show may be old.
      await host.recalculate();
      readAt.current = calculations.current;
      const next = await questioned(host, name);
      setOf(next);
      if (!next) setUnknown(name);
    } catch (error) {
      setOf(undefined);
      setProblem([`The sheet could not be read: ${whyNot(error)}.`]);
    }
    setBusy(false);
  };
  /** The sheet as it is now: read again where it was computed anew since. */
  const current = async (): Promise<Questioned | undefined> => {
    if (!of || readAt.current === calculations.current) return of;
    readAt.current = calculations.current;
    const next = await questioned(host, of.sheet);
    setOf(next);
    if (!next) setUnknown(of.sheet);
    return next;
  };
  /** The same change of the sheet as it is now. */
  const again = (now: Questioned, change: InputChange): InputChange[] => {
    const input = now.inputs.find(({ id }) => id === change.input.id);
    return input ? [{ ...change, input }] : [];
  };
  const ask = async (changes: readonly InputChange[]): Promise<void> => {
    setBusy(true);
    setProblem([]);
    setOutcome(undefined);
    try {
      const now = await current();
      if (now)
        setOutcome(
          whatIf(
            now,
            changes.flatMap((change) => again(now, change)),
          ),
        );
    } catch (error) {
      setProblem(error instanceof NotAllowed ? error.messages : [`It could not be worked out: ${whyNot(error)}.`]);
    }
    setBusy(false);
  };
  const takeSelected = async (): Promise<void> => {
    setProblem([]);
    try {
      const at = await host.selection();
      const input = of?.inputs.find(
        ({ cells }) => at?.sheet === of.sheet && cells.some((c) => c.at.row === at.row && c.at.column === at.column),
      );
      if (!input)
        return setProblem([
          "The selected cell is no numeric input or choice of this sheet. Inputs have a frame and a tint.",
        ]);
      const cell = input.cells.findIndex((c) => c.at.row === at!.row && c.at.column === at!.column);
      const { value } = input.cells[cell]!;
      setDraft({
        input,
        cell: input.cells.length > 1 ? cell : undefined,
        kind: typeof value === "number" && value !== 0 ? "percent" : "to",
        typed: "",
      });
    } catch (error) {
      setProblem([`The selection could not be read: ${whyNot(error)}.`]);
    }
  };
  const change = changeOf(draft);
  const ready = typeof change !== "string";
  const changes = ready ? [...kept, change] : kept;
  const goTo = (at: Address): void => {
    if (of) go({ sheet: of.sheet, row: at.row, column: at.column });
  };
  const wrong = (
    <div role="alert">
      {problem.map((text) => (
        <p key={text} class="kb-problem">
          {text}
        </p>
      ))}
    </div>
  );
  return (
    <>
      <p>
        Calculates the checks with other inputs. <strong>The sheet does not change</strong>: to change the design, type
        into its input cells.
      </p>
      {selection && (
        <p class="kb-problem" role="alert">
          {selection}
        </p>
      )}
      {(!of || (sheet !== undefined && sheet !== of.sheet)) && (
        <WorkButton
          class={of ? "" : "kb-primary"}
          busy={busy}
          disabled={sheet === undefined}
          act={() => void open(sheet!)}
        >
          {sheet === undefined ? "Select a cell of the sheet" : `Load inputs of “${sheet}”`}
        </WorkButton>
      )}
      {!of && wrong}
      {unknown !== undefined && !of && (
        <NotATemplates id="what-if" host={host} sheet={unknown} again={() => void open(unknown)} />
      )}
      <div role="status">{busy && <p>Reading and computing …</p>}</div>
      {of && (
        <>
          <h3 ref={heading} tabIndex={-1}>
            If an input of “{of.sheet}” were another
          </h3>
          {of.lost.length > 0 && <p class="kb-problem">The sheet has lost {of.lost.join(", ")}; Compare says more.</p>}
          {of.stuck.length > 0 && (
            <p class="kb-problem">
              {of.stuck
                .slice(0, 5)
                .map((at) => a1(at))
                .join(", ")}
              {of.stuck.length > 5 && ` and ${of.stuck.length - 5} more cells`}{" "}
              {of.stuck.length === 1 ? "holds a value" : "hold values"} typed over a formula: what reaches the checks
              only through {of.stuck.length === 1 ? "it" : "them"} seems to have no effect. Compare says more.
            </p>
          )}
          <div ref={form}>
            <ChangeForm inputs={of.inputs} draft={draft} set={setDraft} takeSelected={() => void takeSelected()} />
          </div>
          {kept.length > 0 && (
            <ul class="kb-plain" aria-label="Further changes">
              {kept.map((c, i) => (
                <li key={i}>
                  {changeText(c)}{" "}
                  <button type="button" class="kb-link" onClick={() => setKept(kept.filter((_, k) => k !== i))}>
                    leave out
                  </button>
                </li>
              ))}
            </ul>
          )}
          <p>
            <button
              type="button"
              disabled={!ready}
              onClick={() => {
                if (ready) {
                  setKept([...kept, change]);
                  setDraft(noDraft);
                }
              }}
            >
              Keep this and add another
            </button>
          </p>
          <WorkButton class="kb-primary" busy={busy} disabled={changes.length === 0} act={() => void ask(changes)}>
            Calculate
          </WorkButton>
          {wrong}
          {!ready && draft.input && draft.typed !== "" && <p class="kb-hint">{change}</p>}
          {outcome && <Outcome of={outcome} go={goTo} />}
          <InputsThatMatter read={current} go={goTo} />
        </>
      )}
    </>
  );
}
