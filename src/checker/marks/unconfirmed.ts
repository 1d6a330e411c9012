import { columns, unconfirmedWords } from "../../sheet/index.ts";
import type { Recognised } from "../recognise/recognised.ts";

/** How many marks of a sheet still say that a value is assumed or proposed. */
export function unconfirmedIn({ snapshot, columnNow }: Pick<Recognised, "snapshot" | "columnNow">): number {
  const column = columnNow(columns.mark);
  if (column === undefined) return 0;
  return snapshot.cells.filter((cells) => unconfirmedWords.includes(String(cells[column]?.value))).length;
}

/** The rows of the plan whose marks still say so. */
export function unconfirmedRows({
  snapshot,
  columnNow,
  rowPlanned,
}: Pick<Recognised, "snapshot" | "columnNow" | "rowPlanned">): readonly number[] {
  const column = columnNow(columns.mark);
  if (column === undefined) return [];
  return snapshot.cells.flatMap((cells, now) => {
    const row = unconfirmedWords.includes(String(cells[column]?.value)) ? rowPlanned(now) : undefined;
    return row === undefined ? [] : [row];
  });
}
