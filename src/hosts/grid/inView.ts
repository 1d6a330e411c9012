import type { GridSheet } from "./runtime.ts";

/** The leftmost column to show so that a column is in view: the first, with the rows' numbers and texts, if the width allows. */
export function firstColumnFor(sheet: GridSheet, column: number): number {
  const seen = sheet.getVisibleRange();
  if (!seen) return 0;
  const width = (from: number, to: number): number => {
    let sum = 0;
    for (let c = from; c <= to; c++) sum += sheet.getColumnWidth(c);
    return sum;
  };
  // The last column in view may stand there only in part.
  const room = width(seen.startColumn, Math.max(seen.startColumn, seen.endColumn - 1));
  let first = 0;
  while (first < column && width(first, column) > room) first++;
  return first;
}
