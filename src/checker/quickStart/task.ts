import type { Inputs, Template } from "../../sheet/index.ts";
import type { Answers } from "./answers.ts";
import { Trials } from "./trial.ts";

/** Everything that is the same for every layout of the tendons. */
export interface Task {
  readonly template: Template;
  readonly trials: Trials;
  readonly answers: Answers;
  readonly dimensions: Inputs;
  readonly sigj: number;
}

/** Trial sheets of a template, which its later quick starts use again. */
const trialsKept = new WeakMap<Template, Trials>();

export function trialsOf(template: Template): Trials {
  const kept = trialsKept.get(template) ?? new Trials(template);
  trialsKept.set(template, kept);
  return kept;
}
