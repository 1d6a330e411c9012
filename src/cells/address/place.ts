import { parseA1Ref } from "@borgar/fx";
import { areaA1, type Address, type Area } from "./address.ts";

/** A cell of a named sheet. */
export interface Place extends Address {
  readonly sheet: string;
}

/** A block of cells on a sheet. */
export interface PlacedArea extends Area {
  readonly sheet: string;
}

interface ReadReference {
  readonly context?: readonly string[];
  readonly range?: {
    readonly top: number | null;
    readonly left: number | null;
    readonly bottom: number | null;
    readonly right: number | null;
  };
}

/**
 * The cells a reference such as `$D$5`, `A1:C4` or `='My beam'!B2` means, read on `sheet` where it names none itself; undefined for names, whole columns
 * and rows, references that lost their cells (`#REF!`), and those without any sheet.
 */
export function placeOf(reference: string, sheet?: string): PlacedArea | undefined {
  const read = parseA1Ref(reference.replace(/^=/, "")) as ReadReference | undefined;
  const on = read?.context?.at(-1) ?? sheet;
  const { top = null, left = null, bottom = null, right = null } = read?.range ?? {};
  if (on === undefined || top === null || left === null || bottom === null || right === null) return undefined;
  return { sheet: on, row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 };
}

/** What stands before the last `!` of a reference or a name, without quotation marks, and what stands behind it; no sheet where there is no `!`. */
export function splitSheet(text: string): { readonly sheet?: string; readonly rest: string } {
  const at = text.lastIndexOf("!");
  if (at < 0) return { rest: text };
  return {
    sheet: text
      .slice(0, at)
      .replace(/^'(.*)'$/, "$1")
      .replaceAll("''", "'"),
    rest: text.slice(at + 1),
  };
}

/** "D5", "A1:C4"; with the sheet's name where it is not the one at hand. */
export function placeText(place: PlacedArea, from: string): string {
  const cells = areaA1(place, false);
  return place.sheet === from ? cells : `${place.sheet}!${cells}`;
}
