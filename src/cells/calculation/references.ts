import { readCells, type ReadCells } from "../address/readCells.ts";
import { splitSheet } from "../address/sheetPrefix.ts";
import type { CellArea, Frame, Node, Whereabouts } from "../values/frame.ts";
import { Ref } from "../values/frame.ts";
import { cannot } from "../values/values.ts";

/** The cells a reference means for a formula that stands in some cell; a text where that cannot be told. */
export type StaticReference = (where: Whereabouts, sheet: number, row: number, column: number) => CellArea | string;

/** A corner as a place on the sheet or as a distance from the formula's cell. */
type Corner = (at: number) => number;

function corner(index: number, absolute: boolean, from: number): Corner {
  if (absolute) return () => index;
  const distance = index - from;
  return (at) => at + distance;
}

function bySheet({ sheet: name, book }: ReadCells): (where: Whereabouts, sheet: number) => number | string {
  if (book !== undefined) return () => `the workbook ${book}`;
  if (name === undefined) return (_where, sheet) => sheet;
  return (where) => where.sheetNumber(name) ?? `the sheet ${name}, which was not read`;
}

/** Addresses: cells, ranges, whole columns and rows (as far as the sheet is used). */
export function addressReference(text: string, row: number, column: number): StaticReference {
  const read = readCells(text);
  if (!read) return () => `the reference ${text}`;
  const { fixed } = read;
  const sheetOf = bySheet(read);
  const top = corner(read.top ?? 0, read.top === null || fixed.top, row);
  const left = corner(read.left ?? 0, read.left === null || fixed.left, column);
  const bottom = read.bottom === null ? undefined : corner(read.bottom, fixed.bottom, row);
  const right = read.right === null ? undefined : corner(read.right, fixed.right, column);
  return (where, from, r, c) => {
    const sheet = sheetOf(where, from);
    if (typeof sheet === "string") return sheet;
    const used = bottom && right ? undefined : where.used(sheet);
    const [r1, c1] = [top(r), left(c)];
    const r2 = bottom ? bottom(r) : Math.max(used!.rows - 1, r1);
    const c2 = right ? right(c) : Math.max(used!.columns - 1, c1);
    return {
      sheet,
      row: Math.min(r1, r2),
      column: Math.min(c1, c2),
      rows: Math.abs(r2 - r1) + 1,
      columns: Math.abs(c2 - c1) + 1,
    };
  };
}

/** A name, of the sheet or of the workbook. */
export function nameReference(text: string): StaticReference {
  const { sheet: sheetName, rest: name } = splitSheet(text);
  return (where, from) => {
    const sheet = sheetName ? where.sheetNumber(sheetName) : from;
    if (sheet === undefined) return `the sheet ${sheetName}, which was not read`;
    return where.nameArea(name, sheet) ?? `the name ${name}, which stands for no cells`;
  };
}

/** The block from one reference to another. */
export function spanReference(a: StaticReference, b: StaticReference): StaticReference {
  return (where, sheet, row, column) => {
    const first = a(where, sheet, row, column);
    if (typeof first === "string") return first;
    const second = b(where, sheet, row, column);
    if (typeof second === "string") return second;
    return spanOf(first, second) ?? "a range over two sheets";
  };
}

/** The block around two areas; undefined where they lie on different sheets. */
export function spanOf(a: CellArea, b: CellArea): CellArea | undefined {
  if (a.sheet !== b.sheet) return undefined;
  const row = Math.min(a.row, b.row);
  const column = Math.min(a.column, b.column);
  return {
    sheet: a.sheet,
    row,
    column,
    rows: Math.max(a.row + a.rows, b.row + b.rows) - row,
    columns: Math.max(a.column + a.columns, b.column + b.columns) - column,
  };
}

/** A reference ready to be evaluated; one whose cells cannot be told cannot be computed. */
export function referenceNode(reference: StaticReference): Node {
  return (frame: Frame) => {
    const area = reference(frame.reader.where, frame.sheet, frame.row, frame.column);
    return typeof area === "string" ? cannot(area) : new Ref(frame.reader, area);
  };
}
