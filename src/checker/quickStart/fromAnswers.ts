import type { Inputs, Template } from "../../sheet/index.ts";
import { assembled } from "./allInputs.ts";
import type { Answers } from "./answers.ts";
import { found, loosening } from "./search.ts";
import { propertiesOf, usualSection } from "./sections.ts";
import type { Steps } from "./steps.ts";
import { sizedSteel, steelOf } from "./steel.ts";
import { isBar, refuseSteel } from "./steelKind.ts";
import { trialsOf, type Task } from "./task.ts";
import { jackingStress } from "./usualInputs.ts";

export interface QuickStart {
  readonly inputs: Inputs;
  /** Inputs that nobody answered: taken as said. */
  readonly assumed: ReadonlySet<string>;
  /** Inputs that the program found itself. */
  readonly proposed: ReadonlySet<string>;
  /** What "find it" proposes, in words; absent where tendons and strands were given. */
  readonly proposal?: string;
  /** What kept the search from proposing less, with the input behind it and where it stands; absent where nothing passes. */
  readonly sizedBy?: string;
  /** Which checks of the sheet the proposal fails, with the section assumed; absent where it fails none. */
  readonly unmet?: string;
}

/** "bf = 1650, tf = 250, bw = 410 mm": the section that was assumed. */
const sectionWords = (dimensions: Inputs): string =>
  `${Object.entries(dimensions)
    .map(([id, value]) => `${id} = ${String(value)}`)
    .join(", ")} mm`;

/** What was typed and bound the search; empty where nothing was. */
function typedWords({ tendons, strands }: Answers): string {
  if (tendons === undefined && strands === undefined) return "";
  const count = tendons === undefined ? "" : `${tendons} of them`;
  const each = strands === undefined ? "" : `${strands} in each`;
  return ` and ${[count, each].filter(Boolean).join(", ")}`;
}

/** From a few answers to all inputs of a sheet: the rest is assumed, and said to be. */
export function* fromAnswers(template: Template, answers: Answers): Steps<QuickStart> {
  refuseSteel(template, answers);
  const { sizing } = answers;
  const dimensions = sizing?.dimensions ?? usualSection(answers.section, answers.h);
  const sigj = sizing?.sigj ?? jackingStress(template, answers.product);
  const task: Task = { template, trials: trialsOf(template), answers, dimensions, sigj };
  if (sizing) {
    const { inputs, words } = sizedSteel(task, sizing);
    return { ...assembled(task, inputs), proposed: new Set(["strands"]), proposal: words };
  }
  if (answers.tendons !== undefined && answers.strands !== undefined && !isBar(answers)) {
    const { yb } = propertiesOf(answers.section, dimensions);
    const layout = { count: answers.tendons, strands: answers.strands };
    const steel = steelOf(task, layout, yb - 0.12 * answers.h);
    return { ...assembled(task, steel.inputs), proposed: new Set() };
  }
  const { steel, failing, tries, usedUp, sizedBy: reason } = yield* found(task);
  const { inputs, assumed } = assembled(task, steel.inputs);
  return {
    inputs,
    assumed,
    proposed: new Set(["strands"]),
    proposal: steel.words,
    ...(reason !== undefined && { sizedBy: reason }),
    ...(failing.length > 0 && {
      unmet:
        `No ${isBar(answers) ? "straight bars" : "tendons"} were found that keep all limits with the section assumed ` +
        `(${sectionWords(dimensions)})${typedWords(answers)}: ` +
        `${tries === 1 ? "one arrangement was" : `${tries} arrangements were`} computed on the sheet, and ` +
        `${tries === 1 ? "it fails" : "this one fails least"}: ` +
        `${failing.map(({ description, where }) => `${description} (${where})`).join("; ")}. ` +
        (usedUp ? `No other comes within ${loosening.at(-1)} MPa of all limits. ` : "") +
        "Change the section, the concrete or the loads there, or answer with another depth.",
    }),
  };
}
