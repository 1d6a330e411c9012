import { areaOf, cellsText, readCells } from "../../../src/cells/address/readCells.ts";
import { splitSheet } from "../../../src/cells/address/sheetPrefix.ts";
import { piecesOf, quotedSheet, type Area } from "../../../src/cells/index.ts";

/** Rows put in before a row, or taken out from a row on. */
export type RowEdit =
  { readonly inserted: number; readonly before: number } | { readonly deleted: number; readonly from: number };

/** Where rows `first` to `last` stand after the edit; undefined where all of them are gone. */
export function rowsAfter(edit: RowEdit, first: number, last: number): readonly [number, number] | undefined {
  if ("inserted" in edit) {
    const after = (row: number): number => (row >= edit.before ? row + edit.inserted : row);
    return [after(first), after(last)];
  }
  const end = edit.from + edit.deleted;
  const up = (row: number): number => (row >= end ? row - edit.deleted : row);
  if (first >= edit.from && last < end) return undefined;
  return [
    first >= edit.from && first < end ? edit.from : up(first),
    last >= edit.from && last < end ? edit.from - 1 : up(last),
  ];
}

export function areaAfter<T extends Area>(edit: RowEdit, area: T): T | undefined {
  const rows = rowsAfter(edit, area.row, area.row + area.rows - 1);
  return rows && { ...area, row: rows[0], rows: rows[1] - rows[0] + 1 };
}

const prefixOf = (text: string): string => text.slice(0, text.lastIndexOf("!") + 1);

/** A formula after rows of a sheet were inserted or deleted, as every spreadsheet program rewrites it. */
export function withRowsMoved(formula: string, ownSheet: string, sheet: string, edit: RowEdit): string {
  return piecesOf(formula)
    .map(({ kind, text }) => {
      const read = kind === "cells" ? readCells(text) : undefined;
      const area = read && areaOf(read);
      if (!read || !area || (read.sheet ?? ownSheet).toLowerCase() !== sheet.toLowerCase()) return text;
      const after = areaAfter(edit, area);
      if (!after) return "#REF!";
      return prefixOf(text) + cellsText({ ...read, top: after.row, bottom: after.row + after.rows - 1 });
    })
    .join("");
}

/** A formula after a sheet got another name. */
export function withSheetRenamed(formula: string, from: string, to: string): string {
  return piecesOf(formula)
    .map(({ kind, text }) => {
      if (kind !== "cells" && kind !== "name") return text;
      const { sheet, rest } = splitSheet(text);
      return sheet?.toLowerCase() === from.toLowerCase() ? `${quotedSheet(to)}!${rest}` : text;
    })
    .join("");
}

/** A formula after a sheet was deleted: what referred to it has lost its cells. */
export function withSheetGone(formula: string, gone: string): string {
  return piecesOf(formula)
    .map(({ kind, text }) => {
      if (kind !== "cells" && kind !== "name") return text;
      return splitSheet(text).sheet?.toLowerCase() === gone.toLowerCase() ? "#REF!" : text;
    })
    .join("");
}
