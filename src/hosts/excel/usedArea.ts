import type { Area } from "../../cells/index.ts";
import { rangeOf } from "./areas.ts";
import { rowSteps } from "./read.ts";

/** Beyond this a sheet is formatted by whole rows or columns, and its formulas are not looked through. */
const mostLookedThrough = 100_000;
const extent = "rowIndex,columnIndex,rowCount,columnCount";

const toFirstCell = ({ rowIndex, columnIndex, rowCount, columnCount }: Excel.Range): Area => ({
  row: 0,
  column: 0,
  rows: rowIndex + rowCount,
  columns: columnIndex + columnCount,
});

/**
 * From the sheet's first cell to the last that holds something: formulas that show nothing too, which the program's own
 * answer may leave out.
 */
export async function usedArea(sheet: Excel.Worksheet): Promise<Area> {
  const withLooks = sheet.getUsedRangeOrNullObject(false);
  const withValues = sheet.getUsedRangeOrNullObject(true);
  withLooks.load(extent);
  withValues.load(extent);
  await sheet.context.sync();
  const least = withValues.isNullObject ? { row: 0, column: 0, rows: 0, columns: 0 } : toFirstCell(withValues);
  if (withLooks.isNullObject) return least;
  const most = toFirstCell(withLooks);
  if (most.rows * most.columns > mostLookedThrough) return least;
  let { rows, columns } = least;
  for (const part of rowSteps(most)) {
    const range = rangeOf(sheet, part);
    range.load("formulas");
    await sheet.context.sync();
    (range.formulas as readonly (readonly unknown[])[]).forEach((cells, r) =>
      cells.forEach((formula, c) => {
        if (formula === "") return;
        rows = Math.max(rows, part.row + r + 1);
        columns = Math.max(columns, c + 1);
      }),
    );
  }
  return { row: 0, column: 0, rows, columns: rows === 0 ? 0 : columns };
}
