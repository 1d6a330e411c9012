import { agrees } from "../values/agreement.ts";
import type { CellContent } from "../values/content.ts";
import type { Whereabouts } from "../values/frame.ts";
import { keyOf, type FormulaCell, type Formulas } from "./formulas.ts";
import { Block, CannotCompute, type Scalar } from "../values/values.ts";

/** Formulas that fill several cells: the size of each block by its first cell, and the first cell of each other one. */
export interface FilledBlocks {
  readonly sizes: ReadonlyMap<number, { readonly rows: number; readonly columns: number }>;
  readonly first: ReadonlyMap<number, number>;
}

/** Sheets with their formulas, and what the host says of their cells. */
interface Sheets extends Whereabouts {
  readonly formulas: Formulas;
  content(sheet: number, row: number, column: number): CellContent;
  hostValue(sheet: number, row: number, column: number): Scalar;
}

/** What a formula gives on the host's own values; undefined where that cannot be computed. */
function onHostValues(book: Sheets, { sheet, row, column, compiled }: FormulaCell): unknown {
  try {
    return compiled.run({
      reader: { where: book, read: (s, r, c) => book.hostValue(s, r, c) },
      sheet,
      row,
      column,
      locals: [],
    });
  } catch (error) {
    if (error instanceof CannotCompute) return undefined;
    throw error;
  }
}

/** A cell that holds something without a formula of its own. */
function bare(book: Sheets, sheet: number, row: number, column: number): boolean {
  const { formula, value, error } = book.content(sheet, row, column);
  return formula === undefined && (value !== null || error !== undefined);
}

/** Finds the filled blocks: a host says only of a block's first cell that it has a formula. */
export function blocksOf(book: Sheets): FilledBlocks {
  const sizes = new Map<number, { readonly rows: number; readonly columns: number }>();
  const first = new Map<number, number>();
  for (const cell of book.formulas.cells.values()) {
    const { key, sheet, row, column, compiled } = cell;
    if (!compiled.fills || !(bare(book, sheet, row, column + 1) || bare(book, sheet, row + 1, column))) continue;
    const value = onHostValues(book, cell);
    if (!(value instanceof Block) || (value.rows === 1 && value.columns === 1)) continue;
    const others = Array.from({ length: value.rows * value.columns - 1 }, (_, i) => ({
      r: Math.floor((i + 1) / value.columns),
      c: (i + 1) % value.columns,
    }));
    const stands = others.every(({ r, c }) => {
      const { formula } = book.content(sheet, row + r, column + c);
      const element = value.at(r, c);
      return (
        formula === undefined && agrees(element === null ? 0 : element, book.hostValue(sheet, row + r, column + c))
      );
    });
    if (!stands) continue;
    sizes.set(key, { rows: value.rows, columns: value.columns });
    for (const { r, c } of others) first.set(keyOf(sheet, row + r, column + c), key);
  }
  return { sizes, first };
}
