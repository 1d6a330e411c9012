import { fnv1a64 } from "./hash.ts";
import type { Cell } from "./read.ts";

/** What a mark begins with once the cells are no longer what was marked. */
export const stale = "STALE";

/**
 * Programs differ in the last bits of what they add up, and a sum that is 0 in one is 1e-15 in another. So ten
 * significant digits count, more than anyone prints, and what is nearer to 0 than `nothing` is 0. An empty cell reaches
 * functions as 0 in some programs, so that both count the same.
 */
const digits = 10;
const nothing = 1e-11;
/** Moves the bounds of rounding off the numbers with few digits: 105.36328125 would round up in one program and down in another. */
const aside = 1 + 2.3e-11;

/** A number as far as programs agree on it. */
export function agreedNumber(value: number): number {
  return Math.abs(value) < nothing ? 0 : Number((value * aside).toPrecision(digits));
}

function sealed(cell: Cell): string {
  if (cell === null || cell === undefined || cell === "") return "";
  if (typeof cell === "number") {
    const agreed = agreedNumber(cell);
    return agreed === 0 ? "" : String(agreed);
  }
  return typeof cell === "boolean" ? String(cell).toUpperCase() : JSON.stringify(cell);
}

/**
 * A hash of what stands in ranges: numbers, texts, truth values and the empty cells among them. Empty rows do not
 * count, so that a row inserted among them changes nothing. Tells what was changed from what was not; no seal against
 * forgery.
 */
export function sealOfValues(ranges: readonly (readonly (readonly Cell[])[])[]): string {
  const texts = ranges.map((range) =>
    range
      .map((row) => row.map(sealed).join("\t"))
      .filter((row) => row.trim() !== "")
      .join("\n"),
  );
  return fnv1a64(texts.join("\n\n"));
}
