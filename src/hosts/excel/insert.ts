import { a1 } from "../../cells/index.ts";
import { CellsNotEmpty, type InsertedCell } from "../host/host.ts";
import { styles } from "../look/styles.ts";
import { typed } from "./contents.ts";
import { keepLook } from "./keep.ts";
import { drawLook } from "./looks.ts";
import { sheetNamed } from "./sheets.ts";

interface Target {
  readonly cell: InsertedCell;
  readonly range: Excel.Range;
  readonly remember: ReturnType<typeof keepLook>;
}

function refuse(sheet: Excel.Worksheet, targets: readonly Target[]): void {
  const filled = targets.filter(
    ({ range }) => (range.valueTypes[0]![0] as string) !== "Empty" || range.formulas[0]![0] !== "",
  );
  if (filled.length > 0)
    throw new CellsNotEmpty(
      sheet.name,
      filled.map(({ cell }) => cell),
    );
  if (!sheet.protection.protected) return;
  const locked = targets.find(({ range }) => range.format.protection.locked !== false);
  if (locked) throw new Error(`The cell ${a1(locked.cell)} of “${sheet.name}” is protected; nothing was written.`);
  if (targets.some(({ cell }) => cell.role !== undefined || cell.format !== undefined))
    throw new Error(
      `“${sheet.name}” is protected, so that its cells cannot be given a look; nothing was written. Remove ` +
        "its protection or insert on another sheet.",
    );
}

/** Puts cells onto a sheet of the user's own: all or nothing. */
export async function insertCells(
  context: Excel.RequestContext,
  sheetName: string,
  cells: readonly InsertedCell[],
): Promise<void> {
  const sheet = await sheetNamed(context, sheetName);
  if (cells.length === 0) return;
  sheet.protection.load("protected");
  const targets = cells.map((cell): Target => {
    const range = sheet.getRangeByIndexes(cell.row, cell.column, 1, 1);
    range.load("valueTypes,formulas");
    range.format.protection.load("locked");
    return { cell, range, remember: keepLook(range) };
  });
  await context.sync();
  refuse(sheet, targets);
  const restore = targets.map(({ remember }) => remember());
  try {
    for (const { cell, range } of targets) {
      if (cell.format !== undefined) range.numberFormat = [[cell.format]];
      if (cell.role !== undefined) drawLook(range.format, styles[cell.role]);
      if (cell.value !== undefined || cell.formula !== undefined) range.formulas = [[typed(cell)]];
    }
    await context.sync();
  } catch (error) {
    for (const { range } of targets) range.clear("Contents");
    for (const look of restore) look();
    try {
      await context.sync();
    } catch (second) {
      throw new AggregateError(
        [error, second],
        `The cells could not be completed (${(error as Error).message}), nor could they be emptied again (${(second as Error).message}): ` +
          `look at ${a1(cells[0]!)} and the cells after it on “${sheetName}”.`,
        { cause: error },
      );
    }
    throw error;
  }
}
