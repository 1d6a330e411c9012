import { type Area, areaA1 } from "../../cells/index.ts";

/** Addresses of several areas in one text, in texts of bounded length. */
const longestAddress = 1_000;

export function addressLists(areas: readonly Area[]): readonly string[] {
  const out: string[] = [];
  for (const area of areas) {
    const address = areaA1(area, false);
    const last = out.at(-1);
    if (last !== undefined && last.length + address.length < longestAddress) out[out.length - 1] = `${last},${address}`;
    else out.push(address);
  }
  return out;
}

export function rangeOf(sheet: Excel.Worksheet, { row, column, rows, columns }: Area): Excel.Range {
  return sheet.getRangeByIndexes(row, column, rows, columns);
}
