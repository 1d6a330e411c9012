import type {
  Answers,
  ChangeOfSheet,
  Conflict,
  EnteredCell,
  Parked,
  QuickStart,
  Recognised,
} from "../src/checker/index.ts";
import type { Host } from "../src/hosts/index.ts";
import type { Inputs, InputValue, Plan, Template } from "../src/sheet/index.ts";

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
  /** A sheet in its present state; undefined where no template of this version built it. */
  readonly recognise: (host: Host, sheet: string) => Promise<Recognised | undefined>;
  /** All inputs of a sheet from a few answers. */
  readonly quickStart: (template: Template, answers: Answers) => Promise<QuickStart>;
  /** Makes ready for it while the questions are being answered. */
  readonly prepareQuickStart: (template: Template, product: string) => Promise<void>;
  /** The cells that say which inputs are assumed. */
  readonly assumedMarks: (
    plan: Plan,
    assumed: ReadonlySet<string>,
    proposed: ReadonlySet<string>,
  ) => Promise<readonly EnteredCell[]>;
  /** What a sheet becomes in another configuration, version or standard; nothing is built. */
  readonly changeOfSheet: (
    from: Recognised,
    template: Template,
    shape: Inputs,
    parked: Parked,
  ) => Promise<ChangeOfSheet>;
}
