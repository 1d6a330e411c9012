import type { Area } from "../../cells/index.ts";
import type { CellContent, CellValue } from "../host/host.ts";
import { rangeOf } from "./areas.ts";

/** Far below the 5 MB the program gives in one answer. */
const mostCells = 10_000;
/** Fewer where what is asked of each cell, a colour or whether it is locked, comes as an object of its own. */
export const mostCellObjects = 4_000;

/**
 * A text that begins with `=` stands among the formulas as it is among the values; a formula's value is something else,
 * unless it gives its own text, which no formula of numbers does.
 */
function content(value: unknown, formula: unknown, text: string, type: string): CellContent {
  const own = typeof formula === "string" && formula.startsWith("=") && formula !== value ? { formula } : {};
  // The program gives the code only: a function's message is shown at the cell and cannot be asked for.
  if (type === "Error") return { value: null, ...own, text, error: { code: String(value) } };
  return { value: type === "Empty" && !own.formula ? null : (value as CellValue), ...own, text };
}

export function contentsOf(range: Excel.Range): readonly (readonly CellContent[])[] {
  const { values, formulas, text, valueTypes } = range;
  return (values as readonly (readonly unknown[])[]).map((row, r) =>
    row.map((value, c) =>
      content(value, (formulas as readonly (readonly unknown[])[])[r]![c], text[r]![c]!, valueTypes[r]![c]!),
    ),
  );
}

export const contentProperties = "values,formulas,text,valueTypes";

/** An area in parts that one answer holds, some rows at a time. */
export function* rowSteps({ row, column, rows, columns }: Area, most = mostCells): Generator<Area> {
  const step = Math.max(1, Math.floor(most / Math.max(1, columns)));
  for (let from = 0; from < rows; from += step)
    yield { row: row + from, column, rows: Math.min(step, rows - from), columns };
}

/** Reads cells at full precision, some rows at a time. */
export async function readCells(sheet: Excel.Worksheet, area: Area): Promise<readonly (readonly CellContent[])[]> {
  const out: (readonly CellContent[])[] = [];
  for (const part of rowSteps(area)) {
    const range = rangeOf(sheet, part);
    range.load(contentProperties);
    await sheet.context.sync();
    out.push(...contentsOf(range));
  }
  return out;
}
