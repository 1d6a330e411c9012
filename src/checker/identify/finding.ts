import type { Place } from "../../cells/index.ts";

/** How an argument of the rule is found on the sheet. */
export interface FoundArgument {
  readonly name: string;
  readonly symbol: string;
  readonly text: string;
  /** The cell, the number as typed, or the part of the formula. */
  readonly from: string;
  readonly kind: "cell" | "typed" | "part" | "choice";
  /** The unit in which the formula takes it. */
  readonly unit: string;
  /** The sign is the other way round than in the library. */
  readonly turned?: true;
}

/** What was tried. */
interface Evidence {
  /** Drawn inputs at which formula and function were compared, and at how many they agree. */
  readonly points: number;
  readonly agreeing: number;
  /** The largest relative difference where they agree. */
  readonly largest: number;
  /** Other cells with formulas that were followed. */
  readonly followed: readonly string[];
}

/** In what a formula differs from a rule. */
export interface Difference {
  readonly kind: string;
  readonly says: string;
  /** What the formula gives beside the rule with the sheet's numbers: 0.012 is 1.2 % too high. */
  readonly effect?: number;
}

/** What a formula was found to compute. */
export interface Rulefound {
  readonly id: string;
  readonly summary: string;
  /** "EN 1992-1-1:2004 3.1.4 (text read)" */
  readonly source: string;
  readonly arguments: readonly FoundArgument[];
  readonly resultUnit: string;
  readonly resultTurned: boolean;
  readonly evidence: Evidence;
  readonly differences: readonly Difference[];
  /** The function linked to the same cells. */
  readonly offered: string;
  /** Functions that give the same numbers. */
  readonly others: readonly string[];
  /** What cannot be told, such as which of two inputs is which. */
  readonly open: readonly string[];
}

/** "failed": an error ended the search, so that nothing is known of the formula. */
export type Verdict = "identified" | "nearly" | "failed" | "unknown";

/** What was found of one formula. */
export interface Finding {
  readonly place: Place;
  readonly formula: string;
  /** As the texts beside it call it. */
  readonly label: string;
  readonly value: number | string | boolean | null;
  readonly verdict: Verdict;
  readonly found?: Rulefound;
  /** Why nothing was found, or what it may be. */
  readonly because?: string;
  /** Functions that it may be although too many other formulas look so. */
  readonly possibly?: readonly string[];
}
