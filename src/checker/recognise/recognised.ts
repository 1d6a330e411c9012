import type { Address, Snapshot } from "../../cells/index.ts";
import type { InputCell, Inputs, Meaning, Plan, Template } from "../../sheet/index.ts";

/** What a sheet says of itself at its head. */
export interface SaidAtHead {
  readonly templateId: string;
  readonly templateVersion: string;
  readonly hash: string;
  /** The version of the worksheet functions as the sheet was built. */
  readonly functionsVersion: string;
  /** Who answers for its template, where that is one of an office. */
  readonly office?: string;
}

/** An input of the sheet whose present value no template would take. */
export interface InputFault {
  readonly id: string;
  /** Where it stands now. */
  readonly at: Address;
  /** "= 7 MPa is below 12; allowed: 12 to 120 MPa" */
  readonly fault: string;
}

/**
 * A sheet known as one that a template built: what its template builds today from the inputs the sheet holds, and
 * where each planned row and column
 * stands now. Works after rows were inserted or deleted, and after the sheet was renamed or copied.
 */
export interface Recognised {
  readonly snapshot: Snapshot;
  readonly head: SaidAtHead;
  readonly template: Template;
  readonly plan: Plan;
  /** The sheet's own inputs by id, as `expand` took them; faulty ones left out. */
  readonly inputs: Inputs;
  /** Every cell of the plan that takes an input. */
  readonly inputCells: readonly InputCell[];
  readonly faults: readonly InputFault[];
  /** Where a row of the plan stands now; undefined where it is gone. */
  readonly rowNow: (planned: number) => number | undefined;
  /** The row of the plan that stands in a row of the sheet; undefined for a row that was inserted. */
  readonly rowPlanned: (now: number) => number | undefined;
  readonly columnNow: (planned: number) => number | undefined;
  readonly columnPlanned: (now: number) => number | undefined;
  /** What a cell of the sheet means, by its place now. */
  readonly meaningAt: (now: Address) => Meaning | undefined;
}
