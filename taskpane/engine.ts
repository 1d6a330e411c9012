import type { Conflict } from "../src/checker/index.ts";
import type { Host } from "../src/hosts/index.ts";
import type { InputValue, Plan, Template } from "../src/sheet/index.ts";

/** What the panel asks of the sheet engine. */
export interface Engine {
  readonly templates: readonly Template[];
  /** Throws where the inputs must not become a sheet; the message says why. */
  readonly expand: (template: Template, inputs: Readonly<Record<string, InputValue>>) => Plan;
  /** Inputs of a plan that contradict each other. */
  readonly conflictsIn: (plan: Plan) => Promise<readonly Conflict[]>;
  readonly linkedTemplates: readonly Template[];
  /** The sheets that a linked template can take its values from. */
  readonly sourcesFor: (host: Host, template: Template) => Promise<readonly string[]>;
  readonly linkedPlan: (host: Host, template: Template, source: string) => Promise<Plan>;
  /** Gives how many cells were linked. */
  readonly linkAgain: (host: Host, linkedSheet: string, source: string) => Promise<number>;
}
