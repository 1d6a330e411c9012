import type { Cell } from "../core/index.ts";

/**
 * How the printed result was established: read in the work, in another work that quotes it, or recalled. Only
 * `published` counts as published.
 */
type CaseBasis = "published" | "published, second-hand" | "published, from memory";

/** What people read beside a result that does not count. */
export const uncounted: Readonly<Record<Exclude<CaseBasis, "published">, string>> = {
  "published, second-hand": "second-hand, not counted",
  "published, from memory": "from memory, not counted",
};

/** A cell's value, or a number in the source's own unit, converted to the argument's. */
export type CaseCell = Cell | { readonly value: number; readonly unit: string };
export type CaseInput = CaseCell | readonly (readonly CaseCell[])[];

/** One printed value and the arguments that must give it. */
export interface CaseRow {
  /** In the function's worksheet order. */
  readonly inputs: readonly CaseInput[];
  /** The text as published, digits included. */
  readonly printed: string;
  /** What the source prints, where it is not the result itself: result × times + plus. */
  readonly then?: {
    /** Unit the result is taken in before it is multiplied; the case's unit unless said otherwise. */
    readonly unit?: string;
    readonly times?: number;
    readonly plus?: number;
    readonly text: string;
  };
  /** For this value alone: as `tolerance` and `because` of the case. */
  readonly tolerance?: number;
  readonly because?: string;
  /** In a case that must differ: the table in force prints the same value here. */
  readonly coincides?: true;
}

/** A result that stands at one place of a work outside the project. The rows of a printed table are one case. */
export interface PublishedCase {
  readonly id: string;
  /** Id of the worksheet function. */
  readonly function: string;
  /** Full citation. */
  readonly source: string;
  /** Page, table, example or equation. */
  readonly where: string;
  readonly basis: CaseBasis;
  /** A named intermediate step instead of the result. */
  readonly step?: string;
  /** Unit of the printed values. */
  readonly unit: string;
  readonly rows: readonly CaseRow[];
  /** Wider than half a unit of the last printed digit; only with its reason. */
  readonly tolerance?: number;
  readonly because?: string;
  /** What else a checker should know: errors found in the source, what is left out. */
  readonly note?: string;
  /**
   * The source is known to be superseded or wrong: the function must not give its values, except in rows that coincide.
   * Never counted as a check that agrees.
   */
  readonly mustDiffer?: true;
}
