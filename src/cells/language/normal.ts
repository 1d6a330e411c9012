import { a1, columnLetters } from "../address/address.ts";
import { areaOf, readCells } from "../address/readCells.ts";
import { splitSheet } from "../address/sheetPrefix.ts";
import { firstStanding, type Moves } from "./moves.ts";
import { namespace, ourFunction } from "./ourFunction.ts";
import { piecesOf, type Piece } from "./pieces.ts";

/** Cells as a formula mentions them; with `sheet` where it names one other than its own. */
interface Cells {
  readonly sheet?: string;
  readonly from: { readonly row: number; readonly column: number };
  readonly to?: { readonly row: number; readonly column: number };
}

/** A sheet's name as it is compared; nothing for the formula's own. */
function sheetText(sheet: string | undefined, ownSheet: string): string {
  return sheet === undefined || sheet.toLowerCase() === ownSheet.toLowerCase() ? "" : `'${sheet.toUpperCase()}'!`;
}

/** `@` takes one cell of a range; before anything else it only looks different. */
function takesOneCell(next: Piece | undefined): boolean {
  return next?.kind === "cells" && next.text.includes(":");
}

/**
 * A formula as text in which only what it says counts: no blanks, no dollar signs, letters large; each mention of
 * cells as `write` has it.
 */
export function rewritten(formula: string, ownSheet: string, write: (cells: Cells) => string): string {
  const pieces = piecesOf(formula).filter(({ kind }) => kind !== "blank");
  const cells = (text: string): string => {
    const { sheet, rest } = splitSheet(text);
    const other = sheetText(sheet, ownSheet);
    const read = readCells(rest);
    const area = read && areaOf(read);
    if (!area) return other + rest.toUpperCase();
    const { row, column, rows, columns } = area;
    return (
      other +
      write({
        ...(other !== "" && { sheet: sheet! }),
        from: { row, column },
        ...(rest.includes(":") && { to: { row: row + rows - 1, column: column + columns - 1 } }),
      })
    );
  };
  return pieces
    .map(({ kind, text }, i) => {
      if (kind === "text") return text;
      if (kind === "cells") return cells(text);
      if (kind === "name") {
        const { sheet, rest } = splitSheet(text);
        return sheetText(sheet, ownSheet) + rest.toUpperCase();
      }
      if (kind === "function") {
        const ours = ourFunction(text);
        return ours === undefined ? text.toUpperCase() : namespace + ours;
      }
      return text === "@" && !takesOneCell(pieces[i + 1]) ? "" : text.toUpperCase();
    })
    .join("");
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
