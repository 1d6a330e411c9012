import type {
  Answers,
  ChangeOfSheet,
  Conflict,
  FromChoice,
  Parked,
  QuickStart,
  QuickStartSheet,
  Recognised,
  SaidAtHead,
  SectionType,
} from "../src/checker/index.ts";
import type { Host } from "../src/hosts/index.ts";
import type { TemplateEntry } from "../src/templates/catalogue.ts";
import type { Inputs, InputValue, Plan, Template } from "../src/sheet/index.ts";

/** What the panel asks of the sheet engine. */
export interface Engine {
  /** The stress checks; like the lists below shipped ones first, then those of offices that are loaded now. */
  readonly templates: readonly TemplateEntry[];
  /** Those that take from a stress check. */
  readonly linkedTemplates: readonly TemplateEntry[];
  /** A template with all that is in it, by its id. */
  readonly template: (id: string) => Promise<Template>;
  /** Sheets before a stress check. */
  readonly choosingTemplates: readonly TemplateEntry[];
  /** The stress check that a sheet for choosing and sizing leads to. */
  readonly fromChoice: (host: Host, sheet: string) => Promise<FromChoice>;
  /** Throws where the inputs must not become a sheet; the message says why. */
  readonly expand: (template: Template, inputs: Readonly<Record<string, InputValue>>) => Promise<Plan>;
  /** Inputs of a plan that contradict each other. */
  readonly conflictsIn: (plan: Plan) => Promise<readonly Conflict[]>;
  /** The sheets of the workbook that the template of this id built. */
  readonly sheetsOf: (host: Host, template: string) => Promise<readonly string[]>;
  readonly linkedPlan: (host: Host, template: string, source: string) => Promise<Plan>;
  /** Gives how many cells were linked. */
  readonly linkAgain: (host: Host, linkedSheet: string, source: string) => Promise<number>;
  /** A sheet in its present state; undefined where no template of this version built it. */
  readonly recognise: (host: Host, sheet: string) => Promise<Recognised | undefined>;
  /** What a sheet says of its template where that is not known here; undefined for any other sheet. */
  readonly missingTemplate: (host: Host, sheet: string) => Promise<SaidAtHead | undefined>;
  /** Whether a template asks what the few answers are for. */
  readonly hasQuickStart: (template: Template) => Promise<boolean>;
  /** All inputs of a sheet from a few answers. */
  readonly quickStart: (template: Template, answers: Answers) => Promise<QuickStart>;
  /** Makes ready for it while the questions are being answered: all of them, or the section alone. */
  readonly prepareQuickStart: (
    template: Template,
    answered: SectionType | Answers,
    signal: AbortSignal,
  ) => Promise<void>;
  /** The sheet it is for, with the cells that say which inputs are assumed. */
  readonly quickStartSheet: (template: Template, of: QuickStart) => Promise<QuickStartSheet>;
  /** What a sheet becomes in another configuration, version or standard; nothing is built. */
  readonly changeOfSheet: (
    from: Recognised,
    template: Template,
    shape: Inputs,
    parked: Parked,
  ) => Promise<ChangeOfSheet>;
}
