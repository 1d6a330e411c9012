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
