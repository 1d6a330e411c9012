import type { Address } from "../../src/cells/index.ts";
import { columns, type Plan } from "../../src/sheet/index.ts";

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
}

/** Rows whose status keeps the sheet from a verdict, with the cell to fill; `status` gives what a cell shows now. */
export function openCells(
  plan: Pick<Plan, "cells" | "meanings">,
  status: (at: Address) => string,
): readonly OpenCell[] {
  let table = "";
  let tableRow = 0;
  return [...plan.cells]
    .sort((a, b) => a.row - b.row || a.column - b.column)
    .flatMap((cell): readonly OpenCell[] => {
      if (cell.role === "subtitle" && cell.column === columns.description) {
        table = String(cell.value ?? "");
        tableRow = 0;
      }
      if (cell.role !== "verdict" || cell.formula === undefined) return [];
      const of = plan.meanings.filter(({ at }) => at.row <= cell.row && cell.row < at.row + at.rows);
      const single = of.find(({ at }) => at.rows === 1 && at.column === columns.value);
      tableRow = single ? 0 : tableRow + 1;
      const said = status(cell);
      if (!open.has(said)) return [];
      const title = single ? `${single.item} ${single.description}` : `${table}, row ${tableRow}`;
      return [{ title, status: said, at: { row: cell.row, column: single ? columns.value : columns.description } }];
    });
}
