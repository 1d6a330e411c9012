import { columnLetters, columnOfLetters, type Area } from "./address.ts";
import { splitSheet } from "./sheetPrefix.ts";

/** Cells as a formula writes them: a cell, a range, whole columns or rows. Rows and columns that are written without end are null. */
export interface ReadCells {
  /** Another sheet's name; of several sheets at once `First:Last`. */
  readonly sheet?: string;
  /** Another workbook's name. */
  readonly book?: string;
  readonly top: number | null;
  readonly left: number | null;
  readonly bottom: number | null;
  readonly right: number | null;
  /** Which of them stand still when the formula is filled elsewhere: `$`. */
  readonly fixed: { readonly top: boolean; readonly left: boolean; readonly bottom: boolean; readonly right: boolean };
}

/** One end of a range: `$D12`, `D`, `12`. */
interface End {
  readonly row: number | null;
  readonly column: number | null;
  readonly fixedRow: boolean;
  readonly fixedColumn: boolean;
}

const mostRows = 1_048_576;
const mostColumns = 16_384;
const dollar = 36;

const isLetter = (code: number): boolean => (code >= 65 && code <= 90) || (code >= 97 && code <= 122);
const isDigit = (code: number): boolean => code >= 48 && code <= 57;

function readEnd(text: string): End | undefined {
  let at = 0;
  const firstDollar = text.charCodeAt(at) === dollar;
  if (firstDollar) at++;
  const letters = at;
  while (isLetter(text.charCodeAt(at))) at++;
  const column = at > letters ? columnOfLetters(text.slice(letters, at)) : null;
  const secondDollar = column !== null && text.charCodeAt(at) === dollar;
  if (secondDollar) at++;
  const digits = at;
  while (isDigit(text.charCodeAt(at))) at++;
  const row = at > digits ? Number(text.slice(digits, at)) - 1 : null;
  if (at < text.length || (row === null && (column === null || secondDollar))) return undefined;
  if (row !== null && (row < 0 || row >= mostRows)) return undefined;
  if (column !== null && column >= mostColumns) return undefined;
  return {
    row,
    column,
    fixedRow: column === null ? firstDollar : secondDollar,
    fixedColumn: column !== null && firstDollar,
  };
}

/** The lower of two ends first; each keeps its own dollar sign. */
function inOrder(
  a: number | null,
  fixedA: boolean,
  b: number | null,
  fixedB: boolean,
): readonly [number | null, boolean, number | null, boolean] {
  return a !== null && b !== null && b < a ? [b, fixedB, a, fixedA] : [a, fixedA, b, fixedB];
}

function withSheet(sheet: string | undefined): Pick<ReadCells, "sheet" | "book"> {
  if (sheet === undefined) return {};
  const open = sheet.indexOf("[");
  const close = sheet.indexOf("]", open);
  if (open < 0 || close < 0) return { sheet };
  return { sheet: sheet.slice(close + 1), book: sheet.slice(open + 1, close) };
}

/** Reads `$D$5`, `A1:C4`, `A:B`, `1:3`, `'My beam'!B2`; undefined where the text is no address. */
export function readCells(text: string): ReadCells | undefined {
  const { sheet, rest } = splitSheet(text);
  const colon = rest.indexOf(":");
  const first = readEnd(colon < 0 ? rest : rest.slice(0, colon));
  const last = colon < 0 ? first : readEnd(rest.slice(colon + 1));
  if (!first || !last) return undefined;
  // Both ends are cells, or both whole columns, or both whole rows; these are ranges only.
  if ((first.row === null) !== (last.row === null) || (first.column === null) !== (last.column === null))
    return undefined;
  if (colon < 0 && (first.row === null || first.column === null)) return undefined;
  const [top, fixedTop, bottom, fixedBottom] = inOrder(first.row, first.fixedRow, last.row, last.fixedRow);
  const [left, fixedLeft, right, fixedRight] = inOrder(first.column, first.fixedColumn, last.column, last.fixedColumn);
  return {
    ...withSheet(sheet),
    top,
    left,
    bottom,
    right,
    fixed: { top: fixedTop, left: fixedLeft, bottom: fixedBottom, right: fixedRight },
  };
}

/** The block of cells; undefined for whole columns and rows. */
export function areaOf({ top, left, bottom, right }: ReadCells): Area | undefined {
  if (top === null || left === null || bottom === null || right === null) return undefined;
  return { row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 };
}

/** The block of cells, whole columns and rows as far as a sheet of so many rows and columns reaches. */
export function areaWithin(
  { top, left, bottom, right }: ReadCells,
  { rows, columns }: { readonly rows: number; readonly columns: number } = { rows: mostRows, columns: mostColumns },
): Area {
  const [row, column] = [top ?? 0, left ?? 0];
  return {
    row,
    column,
    rows: (bottom ?? Math.max(rows - 1, row)) - row + 1,
    columns: (right ?? Math.max(columns - 1, column)) - column + 1,
  };
}

const dollarSign = (fixed: boolean): string => (fixed ? "$" : "");

function endText(row: number | null, fixedRow: boolean, column: number | null, fixedColumn: boolean): string {
  const letters = column === null ? "" : dollarSign(fixedColumn) + columnLetters(column);
  return row === null ? letters : `${letters}${dollarSign(fixedRow)}${row + 1}`;
}

/** Cells of the formula's own sheet as a formula writes them: one cell, or from one end to the other. */
export function cellsText({ top, left, bottom, right, fixed }: ReadCells): string {
  const first = endText(top, fixed.top, left, fixed.left);
  const last = endText(bottom, fixed.bottom, right, fixed.right);
  return first === last && top !== null && left !== null ? first : `${first}:${last}`;
}
