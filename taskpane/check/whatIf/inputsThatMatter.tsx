import type { Address } from "../../../src/cells/index.ts";
import { useEffect, useId, useRef, useState } from "preact/hooks";
import {
  sensitivities,
  usualSensitivity,
  type Questioned,
  type Sensitivity,
  type SensitivityOptions,
} from "../../../src/checker/index.ts";
import { useFocusBack } from "../../focusBack.ts";
import { whyNot } from "../../loading.ts";
import { Bars } from "./bars.tsx";
import { typedNumber } from "./words.ts";

/** Lets the page draw and hear before the next piece of work. */
const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

interface Found {
  readonly of: Questioned;
  readonly options: SensitivityOptions;
  readonly all: readonly Sensitivity[];
  readonly whole: boolean;
}

/** How the governing utilisation answers to every numeric input. */
export function InputsThatMatter({
  read,
  go,
}: {
  readonly read: () => Promise<Questioned | undefined>;
  readonly go: (at: Address) => void;
}) {
  const id = useId();
  const [typed, setTyped] = useState(String(usualSensitivity.percent));
  const [tables, setTables] = useState<SensitivityOptions["tables"]>(usualSensitivity.tables);
  const [progress, setProgress] = useState<{ readonly done: number; readonly of: number }>();
  const [found, setFound] = useState<Found>();
  const [check, setCheck] = useState<string>();
  const [problem, setProblem] = useState("");
  const run = useRef(0);
  const place = useRef<HTMLDivElement>(null);
  useFocusBack(place, progress !== undefined);
  useEffect(
    () => () => {
      run.current++;
    },
    [],
  );
  const percent = typedNumber(typed);
  const allowed = percent !== undefined && percent >= 0.01 && percent <= 20;

  const start = async (): Promise<void> => {
    const mine = ++run.current;
    const options = { percent: percent!, tables };
    setProblem("");
    setFound(undefined);
    setProgress({ done: 0, of: 1 });
    try {
      const of = await read();
      const all: Sensitivity[] = [];
      for (const step of of ? sensitivities(of, options) : []) {
        if (step.found) all.push(step.found);
        if (mine === run.current) setProgress({ done: step.done, of: step.of });
        await pause();
        if (mine !== run.current) break;
      }
      if (of && (mine === run.current || all.length > 0)) setFound({ of, options, all, whole: mine === run.current });
    } catch (error) {
      setProblem(`${whyNot(error)}.`);
    }
    setProgress(undefined);
  };
  const checks = found?.of.checks ?? [];
  const chosen = checks.find((c) => c.id === check);
  return (
    <section aria-label="Which inputs matter">
      <h3>Which inputs matter</h3>
      <p class="kb-hint">
        Moves each numeric input a little, one at a time and all else unchanged. The sheet is not touched. First order,
        near the present design: the effects of several inputs, or of larger changes, are not their sum. Ask above for
        those.
      </p>
      <div class="kb-amount">
        <div>
          <label for={`${id}-percent`}>Step in per cent</label>
          <input
            id={`${id}-percent`}
            type="text"
            inputMode="decimal"
            value={typed}
            aria-invalid={!allowed}
            aria-describedby={`${id}-allowed`}
            onInput={(e) => setTyped(e.currentTarget.value)}
          />
        </div>
        <div>
          <label for={`${id}-tables`}>Inputs in tables</label>
          <select
            id={`${id}-tables`}
            value={tables}
            onChange={(e) => setTables(e.currentTarget.value as SensitivityOptions["tables"])}
          >
            <option value="columns">a column together</option>
            <option value="cells">each cell by itself</option>
          </select>
        </div>
      </div>
      <p class="kb-hint" id={`${id}-allowed`}>
        {allowed ? "Whole numbers move by 1." : "The step: 0.01 to 20 per cent."}
      </p>
      <div ref={place}>
        {progress ? (
          <div class="kb-progress">
            <progress max={progress.of} value={progress.done} aria-label="Inputs moved" />
            <button
              type="button"
              onClick={() => {
                run.current++;
              }}
            >
              Stop
            </button>
          </div>
        ) : (
          <button type="button" class="kb-primary" disabled={!allowed} onClick={() => void start()}>
            Show which inputs matter
          </button>
        )}
      </div>
      <div role="alert">{problem && <p class="kb-problem">{problem}</p>}</div>
      <div role="status">
        {progress && <p class="kb-hidden">Moving inputs</p>}
        {found && (
          <p>
            {found.whole ? `${found.all.length} inputs moved` : `Stopped after ${found.all.length} inputs`} on “
            {found.of.sheet}”.
          </p>
        )}
      </div>
      {found && (
        <>
          <label for={`${id}-of`}>Effect on</label>
          <select id={`${id}-of`} value={check ?? ""} onChange={(e) => setCheck(e.currentTarget.value || undefined)}>
            <option value="">the governing utilisation (the largest)</option>
            {checks.map((c) => (
              <option key={c.id} value={c.id}>
                {c.description}
              </option>
            ))}
          </select>
          <Bars
            all={found.all}
            check={chosen?.id}
            go={go}
            now={
              chosen ? `the utilisation “${chosen.description}”` : "the governing utilisation (a ratio; 1 is the limit)"
            }
          />
        </>
      )}
    </section>
  );
}
