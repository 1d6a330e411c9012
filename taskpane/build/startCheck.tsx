import { useState } from "preact/hooks";
import { logoToTake, type Host } from "../../src/hosts/index.ts";
import { freeSheetName, withLogo } from "../../src/sheet/index.ts";
import { rememberBuilt, type Built } from "../built.ts";
import type { Engine } from "../engine.ts";
import { SheetButton } from "../sheetButton.tsx";
import { useBuild } from "../useBuild.ts";
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
  const [problem, setProblem] = useState("");
  const { step, cancel, run } = useBuild(running);
  const build = (event: Event): void => {
    event.preventDefault();
    void run(
      "reading the numbers",
      async ({ signal, progress }) => {
        setProblem("");
        const { template, answers } = await engine.fromChoice(host, sheet);
        const { plan, marked } = await engine.quickStartSheet(template, await engine.quickStart(template, answers));
        const sheetName = freeSheetName(template.title, await host.sheetNames());
        const { logo, without } = await logoToTake(host, sheet);
        const { sheet: made } = await host.apply(withLogo(marked, logo), { sheetName, progress, signal });
        finished(rememberBuilt(plan, made, without));
      },
      (error) => setProblem(notBuilt("The stress check", `${sheet} is as it was`, error)),
    );
  };
  return (
    <form class="kb-form" noValidate onSubmit={build}>
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
        cancel={cancel}
      />
    </form>
  );
}
