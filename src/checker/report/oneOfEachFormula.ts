import { isReference, piecesOf } from "../../cells/index.ts";
import type { ReadCell, ReadColumn } from "./read.ts";

/** A formula whatever cells it refers to: those of the other rows of its part of a table have the same. */
function shapeOf({ content: { formula } }: ReadCell): string {
  return formula === undefined
    ? ""
    : piecesOf(formula)
        .map((piece) => (isReference(piece) ? "\u0001" : piece.text))
        .join("");
}

const isNumber = ({ content }: ReadCell): boolean => typeof content.value === "number";

/** Of a column one cell for each formula in it, since parts of a table have formulas of their own: the first with a number. */
export function oneOfEachFormula({ cells }: ReadColumn): readonly ReadCell[] {
  const found = new Map<string, ReadCell>();
  for (const cell of cells) {
    const shape = shapeOf(cell);
    const before = found.get(shape);
    if (!before || (!isNumber(before) && isNumber(cell))) found.set(shape, cell);
  }
  return [...found.values()];
}
