import type { Address } from "../../sheet/index.ts";
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

/** Where the first planned row (or column) that is not gone stands now, from one end of a range towards the other; undefined where all are gone. */
export function firstStanding(
  from: number,
  to: number,
  now: (planned: number) => number | undefined,
): number | undefined {
  const step = from <= to ? 1 : -1;
  for (let i = from; i !== to + step; i += step) {
    const found = now(i);
    if (found !== undefined) return found;
  }
  return undefined;
}
