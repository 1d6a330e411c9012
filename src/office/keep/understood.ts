import type { Address } from "../../cells/index.ts";

/** What became of a part of the sheet: `not understood` is left as the template has it, and says why. */
export type Kind = "kept" | "changed" | "moved" | "added" | "left out" | "not understood";

/** A line of the list that shows what was understood of a sheet. */
export interface Understood {
  readonly kind: Kind;
  /** Where it stands now. */
  readonly at?: Address;
  /** Its id in the template, where it has one. */
  readonly id?: string;
  /** Number and description. */
  readonly label: string;
  /** What changed, or why it was not understood. */
  readonly what: string;
  readonly before?: string;
  readonly after?: string;
}

export const kinds: readonly Kind[] = ["not understood", "changed", "moved", "added", "left out", "kept"];

/** Why no template is made: a cell and the reason. */
export interface Refusal {
  readonly at?: Address;
  readonly what: string;
}
