import type { Conflict } from "../src/checker/index.ts";
import type { InputValue, Plan, Template } from "../src/sheet/index.ts";

/** What the panel asks of the sheet engine. */
export interface Engine {
  readonly templates: readonly Template[];
  /** Throws where the inputs must not become a sheet; the message says why. */
  readonly expand: (template: Template, inputs: Readonly<Record<string, InputValue>>) => Plan;
  /** Inputs of a plan that contradict each other. */
  readonly conflictsIn: (plan: Plan) => Promise<readonly Conflict[]>;
}
