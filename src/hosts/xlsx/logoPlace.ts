import { logoLimits, printScale, type PlacedLogo } from "../../sheet/index.ts";
import { defaultRowHeight } from "../look/measures.ts";
import type { BookSheet } from "../workbook/workbook.ts";

/** Programs count in units of their own and move a picture by less than a pixel or two. In millimetres. */
const moved = 0.5;
/** Of a column about which a file says nothing, in characters. */
const plainColumn = 8.43;
/** No column is wider, and no row higher. In millimetres. */
const widestCell = 500;

const onSheet = (paper: number): number => (paper * 100) / printScale + moved;
const within = (value: number, from: number, to: number): boolean => value >= from && value <= to;
const whole = (value: number): boolean => Number.isInteger(value) && value >= 0;

/** Whether a file says sizes and a place for the logo that a sheet can have. */
export function isPlace({ at, across, down, width, height }: Omit<PlacedLogo, "image">): boolean {
  const { max } = logoLimits.width;
  return (
    whole(at.row) &&
    whole(at.column) &&
    within(across, 0, widestCell) &&
    within(down, 0, widestCell) &&
    within(width, moved, onSheet(max)) &&
    within(height, moved, onSheet(logoLimits.height))
  );
}

/** How many lines of cells a length reaches into from one on. */
function reach(from: number, length: number, sizeOf: (line: number) => number): number {
  let lines = 1;
  for (let left = length - moved - sizeOf(from); left > 0; left -= sizeOf(from + lines++));
  return lines;
}

/** Whether the picture lies over cells that hold nothing, as beside the verdict: it hides no text and no number. */
export function hidesNothing(
  { at, across, down, width, height }: Omit<PlacedLogo, "image">,
  { cells, spans, widths, heights }: Pick<BookSheet, "cells" | "spans" | "widths" | "heights">,
): boolean {
  const wide = (column: number): number => (((widths.get(column)?.width ?? plainColumn) * 7 + 5) / 96) * 25.4;
  const high = (row: number): number => ((heights.get(row) ?? defaultRowHeight) / 72) * 25.4;
  const columns = reach(at.column, across + width, wide);
  const rows = reach(at.row, down + height, high);
  const under = (row: number, column: number): boolean =>
    within(row, at.row, at.row + rows - 1) && within(column, at.column, at.column + columns - 1);
  return !cells.some(({ row, column, value, formula }) => {
    if ((value === null || value === undefined || value === "") && formula === undefined) return false;
    const span = spans.find((one) => one.row === row && one.column === column) ?? { rows: 1, columns: 1 };
    for (let r = 0; r < span.rows; r++)
      for (let c = 0; c < span.columns; c++) if (under(row + r, column + c)) return true;
    return false;
  });
}
