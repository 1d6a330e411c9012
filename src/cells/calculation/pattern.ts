import { columnOfLetters } from "../address/address.ts";

/** Texts, quoted sheet names and words of a formula; whatever stands between them is the same for all. */
const pieces = /"(?:[^"]|"")*"|'(?:[^']|'')*'|[$A-Za-z_\\\u0080-\uffff][$\w.\\?\u0080-\uffff]*/g;
const address = /^(\$?)([A-Za-z]{1,3})(\$?)([1-9]\d{0,6})$/;

/**
 * A formula with its relative addresses written as distances from its cell: cells that were filled down from one another share it, so that a table
 * column is read once.
 */
export function patternOf(formula: string, row: number, column: number): string {
  return formula.replace(pieces, (piece, offset: number) => {
    const first = piece.charCodeAt(0);
    if (first === 34 || first === 39) return piece;
    const read = address.exec(piece);
    if (!read || formula.charCodeAt(offset + piece.length) === 40) return piece;
    const r = read[3] ? read[4]! : `[${Number(read[4]) - 1 - row}]`;
    const c = read[1] ? read[2]!.toUpperCase() : `[${columnOfLetters(read[2]!) - column}]`;
    return `\u0001${r},${c}\u0001`;
  });
}
