import { parseA1Ref } from "@borgar/fx";
import type { Area } from "../sheet/index.ts";
import { a1 } from "../sheet/index.ts";

/** A block of cells on a sheet. */
export interface PlacedArea extends Area {
  readonly sheet: string;
}

/** The cells an address such as `$D$5`, `A1:C4` or `'My beam'!B2` means on a sheet; undefined for names and whole columns. */
export function placeOf(reference: string, sheet: string): PlacedArea | undefined {
  const read = parseA1Ref(reference.replace(/^=/, "")) as { context?: readonly string[]; range?: { top: number | null; left: number | null; bottom: number | null; right: number | null } } | undefined;
  const range = read?.range;
  if (!range || range.top === null || range.left === null || range.bottom === null || range.right === null) return undefined;
  return { sheet: read.context?.at(-1) ?? sheet, row: range.top, column: range.left, rows: range.bottom - range.top + 1, columns: range.right - range.left + 1 };
}

/** "D5", "A1:C4"; with the sheet's name where it is not the one at hand. */
export function placeText(place: PlacedArea, from: string): string {
  const corner = a1(place);
  const opposite = a1({ row: place.row + place.rows - 1, column: place.column + place.columns - 1 });
  const cells = corner === opposite ? corner : `${corner}:${opposite}`;
  return place.sheet === from ? cells : `${place.sheet}!${cells}`;
}

export function holds(area: Area, { row, column }: { readonly row: number; readonly column: number }): boolean {
  return row >= area.row && row < area.row + area.rows && column >= area.column && column < area.column + area.columns;
}
