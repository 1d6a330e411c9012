import type { Address } from "../../src/cells/index.ts";
import { columns, type MissingInput, type Plan } from "../../src/sheet/index.ts";

/** A part of the sheet to go to. */
export interface Part {
  readonly title: string;
  readonly at: Address;
}

/** The sheet's blocks in order, each with its number. */
export function contentsOf({ cells }: Pick<Plan, "cells">): readonly Part[] {
  const numbers = cells.filter(({ role, column, value }) => role === "block" && column === columns.item && value);
  return numbers.map(({ row, column, value }): Part => {
    const title = cells.find((c) => c.row === row && c.role === "block" && c.column > column && c.value !== undefined);
    return { title: `${String(value)} ${String(title?.value ?? "")}`.trim(), at: { row, column } };
  });
}

/** What a status says that keeps the sheet from a verdict. */
const open: ReadonlySet<string> = new Set(["MISSING", "OUT OF RANGE", "CONFLICT", "LIMIT MISSING", "OPEN"]);

export interface OpenCell extends Part {
  readonly status: string;
  /** Of a row that says MISSING: what is. */
  readonly missing: readonly MissingInput[];
}

interface OpenRow extends OpenCell {
  /** Which table, and which of its rows; undefined for a row by itself. */
  readonly table?: string;
  readonly tableRow: number;
}

/** Rows of a table that follow one another and say the same are one line: "Tendons, rows 1 to 3". */
function joined(rows: readonly OpenRow[]): readonly OpenCell[] {
  const out: { readonly first: OpenRow; last: OpenRow; readonly missing: MissingInput[] }[] = [];
  for (const row of rows) {
    const before = out.at(-1);
    const follows =
      before &&
      row.table !== undefined &&
      row.table === before.last.table &&
      row.tableRow === before.last.tableRow + 1 &&
      row.status === before.last.status;
    if (follows) before.last = row;
    else out.push({ first: row, last: row, missing: [] });
    out.at(-1)!.missing.push(...row.missing);
  }
  return out.map(({ first: { title, status, at, table, tableRow }, last, missing }): OpenCell => {
    const several = `${table}, rows ${tableRow} to ${last.tableRow}`;
    return { title: last.tableRow > tableRow ? several : title, status, at, missing };
  });
}

/**
 * Rows whose status keeps the sheet from a verdict, with the cell to fill; `status` gives what a cell shows now, `all`
 * every input that is missing. The checks that the first page lists stand further down in rows of their own.
 */
export function openCells(
  plan: Pick<Plan, "cells" | "meanings">,
  status: (at: Address) => string,
  all: readonly MissingInput[] = [],
): readonly OpenCell[] {
  let table: string | undefined;
  let tableRow = 0;
  // A column of a table with one row may stand where rows have their values: it is no row by itself.
  const numbers = new Map(plan.cells.flatMap(({ role, row, value }) => (role === "item" ? [[row, value]] : [])));
  const rows = [...plan.cells]
    .sort((a, b) => a.row - b.row || a.column - b.column)
    .flatMap((cell): readonly OpenRow[] => {
      if (cell.role === "subtitle" && cell.column === columns.description) {
        table = String(cell.value ?? "");
        tableRow = 0;
      }
      if (cell.role !== "verdict" || cell.formula === undefined) return [];
      const of = plan.meanings.filter(({ at }) => at.row <= cell.row && cell.row < at.row + at.rows);
      const single = of.find(
        ({ at, item }) => at.rows === 1 && at.column === columns.value && numbers.get(cell.row) === item,
      );
      tableRow = single ? 0 : tableRow + 1;
      const said = status(cell);
      if (!open.has(said)) return [];
      const missing = all.filter((one) => one.status.row === cell.row);
      if (single) {
        const title = `${single.item} ${single.description}`;
        return [{ title, status: said, at: { row: cell.row, column: columns.value }, tableRow, missing }];
      }
      if (table === undefined) return [];
      const at = { row: cell.row, column: columns.description };
      return [{ title: `${table}, row ${tableRow}`, status: said, at, table, tableRow, missing }];
    });
  return joined(rows);
}
