import { fnv1a64 } from "./hash.ts";
import type { Cell } from "./read.ts";

/** What a mark begins with once the cells are no longer what was marked. */
export const stale = "STALE";

/** An error in a cell that is sealed: which one, programs say differently. */
export const errorCell: unique symbol = Symbol("error");

export type SealedCell = Cell | typeof errorCell;

/**
 * Programs differ in the last bits of what they add up, and a sum that is 0 in one is 1e-15 in another. So ten significant digits count, more than
 * anyone prints, and what is nearer to 0 than `nothing` is 0.
 */
const digits = 10;
const nothing = 1e-11;

function sealedNumber(value: number): string {
  return Math.abs(value) < nothing ? "0" : String(Number(value.toPrecision(digits)));
}

function sealed(cell: SealedCell): string {
  if (cell === errorCell) return "!";
  if (cell === null || cell === undefined || cell === "") return "";
  if (typeof cell === "number") return Number.isFinite(cell) ? sealedNumber(cell) : "!";
  return typeof cell === "boolean" ? String(cell).toUpperCase() : JSON.stringify(cell);
}

/**
 * A hash of what stands in ranges: numbers, texts, truth values, errors and the cells without anything between them. Empty rows do not count, so that a
 * row inserted among them changes nothing. Tells what was changed from what was not; no seal against forgery.
 */
export function sealOfValues(ranges: readonly (readonly (readonly SealedCell[])[])[]): string {
  const rows = ranges.map((range) => range.map((row) => row.map(sealed).join("\t")).filter((row) => row.trim() !== "").join("\n"));
  return fnv1a64(rows.join("\n\n"));
}
