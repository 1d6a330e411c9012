import { readCells } from "../address/readCells.ts";
import { eachPiece } from "../language/pieces.ts";

/** A row or column as it stands, or as a distance from the formula's own; nothing where a range has no end. */
function placed(index: number | null, fixed: boolean, from: number): string {
  if (index === null) return "";
  return fixed ? String(index) : `[${index - from}]`;
}

/**
 * A formula with its relative addresses written as distances from its cell: cells that were filled down from one
 * another share it, so that a table column is read once.
 */
export function patternOf(formula: string, row: number, column: number): string {
  let out = "";
  eachPiece(formula, (kind, text) => {
    const read = kind === "cells" ? readCells(text) : undefined;
    if (!read) {
      out += text;
      return;
    }
    const { top, left, bottom, right, fixed } = read;
    const first = `${placed(top, fixed.top, row)},${placed(left, fixed.left, column)}`;
    const last = `${placed(bottom, fixed.bottom, row)},${placed(right, fixed.right, column)}`;
    out += `\u0001${text.slice(0, text.lastIndexOf("!") + 1)}${first}:${last}\u0001`;
  });
  return out;
}
