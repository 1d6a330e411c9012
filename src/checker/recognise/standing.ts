import type { Address } from "../../cells/index.ts";
import type { Recognised } from "./recognised.ts";

/** Where a planned cell stands now; undefined where it is gone. */
export function standing(
  { rowNow, columnNow }: Pick<Recognised, "rowNow" | "columnNow">,
  { row, column }: Address,
): Address | undefined {
  const r = rowNow(row);
  const c = columnNow(column);
  return r === undefined || c === undefined ? undefined : { row: r, column: c };
}

/** The planned cell that stands at a place of the sheet; undefined where a row or column was inserted. */
export function plannedAt(
  { rowPlanned, columnPlanned }: Pick<Recognised, "rowPlanned" | "columnPlanned">,
  { row, column }: Address,
): Address | undefined {
  const r = rowPlanned(row);
  const c = columnPlanned(column);
  return r === undefined || c === undefined ? undefined : { row: r, column: c };
}

/** Whether every row and column of the plan stands where it is planned. */
export function standsAsPlanned({
  plan,
  rowNow,
  columnNow,
}: Pick<Recognised, "plan" | "rowNow" | "columnNow">): boolean {
  for (let row = 0; row < plan.rows; row++) if (rowNow(row) !== row) return false;
  for (let column = 0; column < plan.columns; column++) if (columnNow(column) !== column) return false;
  return true;
}
