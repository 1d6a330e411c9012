import { areaA1, type Address, type Area } from "./address.ts";
import { areaOf, readCells } from "./readCells.ts";

/** A cell of a named sheet. */
export interface Place extends Address {
  readonly sheet: string;
}

/** A block of cells on a sheet. */
export interface PlacedArea extends Area {
  readonly sheet: string;
}

/**
 * The cells a reference such as `$D$5`, `A1:C4` or `='My beam'!B2` means, read on `sheet` where it names none itself;
 * undefined for names, whole columns
 * and rows, references that lost their cells (`#REF!`), and those without any sheet.
 */
export function placeOf(reference: string, sheet?: string): PlacedArea | undefined {
  const read = readCells(reference.startsWith("=") ? reference.slice(1) : reference);
  const on = read?.sheet ?? sheet;
  const area = read && areaOf(read);
  return area && on !== undefined ? { sheet: on, ...area } : undefined;
}

/** "D5", "A1:C4"; with the sheet's name where it is not the one at hand. */
export function placeText(place: PlacedArea, from: string): string {
  const cells = areaA1(place, false);
  return place.sheet === from ? cells : `${place.sheet}!${cells}`;
}
