import { a1 } from "../../cells/index.ts";
import type { CellContent, InsertedCell } from "../host/host.ts";
import { typed, type Typed } from "./contents.ts";
import { contentProperties, contentsOf } from "./read.ts";
import { computedSheet } from "./recalculate.ts";
import type { ExcelDependencies } from "./runs.ts";
import { sheetNamed } from "./sheets.ts";

/** A cell to type into. */
export type EnteredCell = Pick<InsertedCell, "row" | "column" | "value" | "formula">;

interface Target {
  readonly cell: EnteredCell;
  readonly range: Excel.Range;
}

/** What to type to have again what stood there. */
function again({ value, formula, error }: CellContent): Typed {
  if (formula === undefined && error) return error.code;
  return typed({ ...(value !== null && { value }), ...(formula !== undefined && { formula }) });
}

function write(range: Excel.Range, entry: Typed, format: readonly (readonly string[])[] | undefined): void {
  range.formulas = [[entry]];
  // A formula may bring the number format of the cells it speaks of.
  if (format) range.numberFormat = format as string[][];
}

/** Writes into cells that may be typed in, over what they hold: all or nothing. */
export async function enterCells(
  context: Excel.RequestContext,
  sheetName: string,
  cells: readonly EnteredCell[],
  dependencies: Pick<ExcelDependencies, "pause">,
): Promise<void> {
  const sheet = await sheetNamed(context, sheetName);
  if (cells.length === 0) return;
  sheet.protection.load("protected");
  const targets = cells.map((cell): Target => {
    const range = sheet.getRangeByIndexes(cell.row, cell.column, 1, 1);
    range.load(`${contentProperties},numberFormat`);
    range.format.protection.load("locked");
    return { cell, range };
  });
  await context.sync();
  const guarded = sheet.protection.protected;
  const locked = guarded && targets.find(({ range }) => range.format.protection.locked !== false);
  if (locked) throw new Error(`The cell ${a1(locked.cell)} of “${sheet.name}” is protected; nothing was written.`);
  const before = targets.map(({ range }) => ({
    entry: again(contentsOf(range)[0]![0]!),
    format: guarded ? undefined : (range.numberFormat as string[][]),
  }));
  try {
    targets.forEach(({ cell, range }, i) => write(range, typed(cell), before[i]!.format));
    await context.sync();
    await computedSheet(sheet, sheet.name, dependencies);
  } catch (error) {
    targets.forEach(({ range }, i) => write(range, before[i]!.entry, before[i]!.format));
    try {
      await context.sync();
    } catch (second) {
      throw new AggregateError(
        [error, second],
        `The entries could not be completed (${(error as Error).message}), nor could what stood there be put ` +
          `back (${(second as Error).message}): look at ${a1(cells[0]!)} and the other cells that were to be ` +
          `typed into on “${sheetName}”.`,
        { cause: error },
      );
    }
    throw error;
  }
}
