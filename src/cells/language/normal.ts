import { firstStanding, type Moves } from "./moves.ts";
import { a1, columnLetters, columnOfLetters } from "../address/address.ts";
import { splitSheet } from "../address/place.ts";

/** Texts, quoted sheet names, cells and ranges, and what only looks different: each in a group of its own. `@` before a range takes one cell of it. */
const pieces =
  /("(?:[^"]|"")*")|(?:#REF!)|('(?:[^']|'')*'!|(?<![\w.\u0080-\uffff])[A-Za-z_\u0080-\uffff][\w.\u0080-\uffff]*!)|(?<![\w.\u0080-\uffff])\$?([A-Za-z]{1,3})\$?(\d{1,7})(?::\$?([A-Za-z]{1,3})\$?(\d{1,7}))?(?![\w(.\u0080-\uffff])|(\s+)|(_xldudf_KERN_)|(@)(?!\s*(?:(?:'(?:[^']|'')*'|[A-Za-z_\u0080-\uffff][\w.\u0080-\uffff]*)!)?\$?[A-Za-z]{0,3}\$?\d*:)/g;

/** Cells as a formula mentions them; with `sheet` where it names one other than its own. */
export interface Cells {
  readonly sheet?: string;
  readonly from: { readonly row: number; readonly column: number };
  readonly to?: { readonly row: number; readonly column: number };
}

/** A formula as text in which only what it says counts: no blanks, no dollar signs, letters large; each mention of cells as `write` has it. */
export function rewritten(formula: string, ownSheet: string, write: (cells: Cells) => string): string {
  let out = "";
  let at = 0;
  let sheet: string | undefined;
  const plain = (text: string): void => {
    if (text !== "") sheet = undefined;
    out += text.toUpperCase();
  };
  for (const found of formula.matchAll(pieces)) {
    plain(formula.slice(at, found.index));
    at = found.index + found[0].length;
    const [, text, prefix, c0, r0, c1, r1, , kern] = found;
    if (text !== undefined) out += text;
    else if (found[0] === lost) plain(lost);
    else if (prefix !== undefined) {
      const { sheet: name = "" } = splitSheet(prefix);
      if (name.toLowerCase() === ownSheet.toLowerCase()) continue;
      out += `'${name.toUpperCase()}'!`;
      sheet = name;
    } else if (c0 !== undefined) {
      out += write({
        ...(sheet !== undefined && { sheet }),
        from: { row: Number(r0) - 1, column: columnOfLetters(c0) },
        ...(c1 !== undefined && { to: { row: Number(r1) - 1, column: columnOfLetters(c1) } }),
      });
      sheet = undefined;
    } else if (kern !== undefined) out += "KERN.";
  }
  plain(formula.slice(at));
  return out;
}

const cellText = (row: number, column: number, ownRow: number | undefined): string =>
  row === ownRow ? `${columnLetters(column)}~` : a1({ row, column });

const lost = "#REF!";

/** A range of one cell is that cell: programs write it either way. */
const range = (from: string, to: string): string => (from === to ? from : `${from}:${to}`);

/** A formula of the sheet, as it is compared. With `ownRow` cells of that row are written as such, whatever its number. */
export function normalNow(formula: string, sheet: string, ownRow?: number): string {
  return rewritten(formula, sheet, ({ sheet: other, from, to }) => {
    const [first = "", last = first] = [from, ...(to ? [to] : [])].map(({ row, column }) =>
      cellText(row, column, other === undefined ? ownRow : undefined),
    );
    return range(first, last);
  });
}

/** What a formula of the plan has become where its rows and columns stand now, as it is compared. `ownRow` is its planned row. */
export function normalPlanned(formula: string, { row, column }: Moves, ownRow?: number): string {
  return rewritten(formula, "", ({ from, to }) => {
    if (ownRow !== undefined && from.row === ownRow && (!to || to.row === ownRow)) {
      const columns = [from.column, ...(to ? [to.column] : [])].map(column);
      return columns.some((c) => c === undefined)
        ? lost
        : range(cellText(0, columns[0]!, 0), cellText(0, columns.at(-1)!, 0));
    }
    if (!to) {
      const r = row(from.row);
      const c = column(from.column);
      return r === undefined || c === undefined ? lost : cellText(r, c, undefined);
    }
    const ends = [
      firstStanding(from.row, to.row, row),
      firstStanding(from.column, to.column, column),
      firstStanding(to.row, from.row, row),
      firstStanding(to.column, from.column, column),
    ] as const;
    if (ends.some((e) => e === undefined)) return lost;
    return range(cellText(ends[0]!, ends[1]!, undefined), cellText(ends[2]!, ends[3]!, undefined));
  });
}
