import { fitsOver } from "./columns.ts";
import type { Role } from "./plan.ts";

/** A text of a line, with the column it would begin in. */
export interface Piece {
  readonly role: Role;
  readonly text: string;
  readonly wanted: number;
}

export interface PlacedText {
  readonly role: Role;
  readonly text: string;
  /** Counted from the first line. */
  readonly line: number;
  readonly from: number;
  /** Of a text longer than a line: it wraps over the columns up to this one. */
  readonly to?: number;
}

/** The first column behind a text that begins in one. */
function behind(text: string, from: number, last: number): number {
  let to = from;
  while (to < last && !fitsOver(text, from, to)) to++;
  return to + 1;
}

/**
 * Puts texts side by side while there is room, each in the column it wants or where the one before ends; what no longer
 * fits begins a further line. `first` is where further lines begin, `start` where the first one does.
 */
export function placeTexts(
  pieces: readonly Piece[],
  { first, start = first, last }: { readonly first: number; readonly start?: number; readonly last: number },
): readonly PlacedText[] {
  const out: PlacedText[] = [];
  let line = 0;
  let next = start;
  for (const { role, text, wanted } of pieces) {
    if (text === "") continue;
    const fitsFrom = [Math.max(next, wanted), next].find((from) => from <= last && fitsOver(text, from, last));
    if (fitsFrom !== undefined) {
      out.push({ role, text, line, from: fitsFrom });
      next = behind(text, fitsFrom, last);
      continue;
    }
    if (next > first || line === 0) line++;
    const from = [wanted, first].find((column) => fitsOver(text, column, last)) ?? first;
    const whole = fitsOver(text, from, last);
    out.push({ role, text, line, from, ...(!whole && { to: last }) });
    next = whole ? behind(text, from, last) : last + 1;
  }
  return out;
}

/** How many lines they take; one at least. */
export function linesOf(placed: readonly PlacedText[]): number {
  return Math.max(0, ...placed.map(({ line }) => line)) + 1;
}
