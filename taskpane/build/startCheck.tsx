import { useRef, useState } from "preact/hooks";
import type { Host } from "../../src/hosts/index.ts";
import { freeSheetName, withEntered } from "../../src/sheet/index.ts";
import { rememberBuilt, type Built } from "../built.ts";
import type { Engine } from "../engine.ts";
import { SheetButton, type Step } from "../sheetButton.tsx";
import { notBuilt } from "./outcome.ts";
import type { Running } from "./running.ts";

interface Props {
  readonly host: Host;
  readonly engine: Engine;
  /** The sheet for choosing and sizing. */
  readonly sheet: string;
  readonly running: Running;
  readonly finished: (built: Built) => void;
}

/** Below the result of a sheet for choosing and sizing: its numbers as the inputs of a new stress check. */
export function StartCheck({ host, engine, sheet, running, finished }: Props) {
  const [step, setStep] = useState<Step>();
  const [problem, setProblem] = useState("");
  const abort = useRef<AbortController>();
  const build = async (event: Event): Promise<void> => {
    event.preventDefault();
    if (abort.current || running.isNow()) return;
    const release = running.hold();
    setProblem("");
    setStep({ done: 0, of: 0, what: "reading the numbers" });
    const { signal } = (abort.current = new AbortController());
    try {
      await new Promise((next) => setTimeout(next, 20));
      const { template, answers } = await engine.fromChoice(host, sheet);
      const { inputs, assumed, proposed } = await engine.quickStart(template, answers);
      const plan = await engine.expand(template, inputs);
      const marks = await engine.assumedMarks(plan, assumed, proposed);
      const { sheet: made } = await host.apply(withEntered(plan, marks), {
        sheetName: freeSheetName(template.title, await host.sheetNames()),
        progress: (done, of, what) => setStep({ done, of, what }),
        signal,
      });
      rememberBuilt(plan, made);
      finished({ sheet: made, plan });
    } catch (error) {
      setProblem(notBuilt("The stress check", `${sheet} is as it was`, error));
    } finally {
      abort.current = undefined;
      setStep(undefined);
      release();
    }
  };
  return (
    <form class="kb-form" noValidate onSubmit={(e) => void build(e)}>
      <h3>Stress check</h3>
      <p class="kb-hint">
        The method chosen, span, loads, section, concrete, strands and eccentricity become the inputs of a new sheet.
        What this sheet does not ask is assumed there and marked “assumed”; the strands are marked “proposed”.
      </p>
      <div role="alert">{problem && <p class="kb-problem">{problem}</p>}</div>
      <SheetButton
        id="kb-start-progress"
        label="Start a stress check with these numbers"
        doing="Building the stress check"
        step={step}
        disabled={running.some}
        cancel={() => abort.current?.abort()}
      />
    </form>
  );
}
