import { rangeOf } from "./areas.ts";
import { computedValues } from "./probe.ts";
import { rowSteps } from "./read.ts";
import type { ExcelDependencies } from "./runs.ts";

/** Waits until no cell of the sheet is still being computed. */
export async function computedSheet(
  sheet: Excel.Worksheet,
  name: string,
  dependencies: Pick<ExcelDependencies, "pause">,
): Promise<void> {
  const used = sheet.getUsedRangeOrNullObject(true);
  used.load("rowIndex,columnIndex,rowCount,columnCount");
  await sheet.context.sync();
  if (used.isNullObject) return;
  const { rowIndex: row, columnIndex: column, rowCount: rows, columnCount: columns } = used;
  for (const part of rowSteps({ row, column, rows, columns }))
    await computedValues(rangeOf(sheet, part), dependencies, `“${name}”`);
}

/**
 * Computes everything anew, in every open workbook, and waits for the sheets of this one. The program says a
 * calculation is done while functions of add-ins still answer, so the cells themselves are looked at: once where they
 * are done.
 */
export async function recalculateAll(
  context: Excel.RequestContext,
  dependencies: Pick<ExcelDependencies, "pause">,
): Promise<void> {
  const { application, worksheets } = context.workbook;
  application.calculate("Full");
  worksheets.load("items/name");
  await context.sync();
  for (const sheet of worksheets.items) await computedSheet(sheet, sheet.name, dependencies);
}
