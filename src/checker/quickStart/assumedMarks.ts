import { assumedWord, columns, type Plan } from "../../sheet/index.ts";
import type { EnteredCell } from "../marks/marks.ts";
import { partsOf } from "../marks/parts.ts";

/** The word "assumed" in the column of marks, for each row or table that holds one of these inputs. */
export function assumedMarks(plan: Plan, assumed: ReadonlySet<string>): readonly EnteredCell[] {
  const rows = plan.meanings.filter(({ id }) => assumed.has(id)).map(({ at }) => at.row);
  return partsOf(plan)
    .flatMap(({ items }) => items)
    .filter(({ first, last, markRow }) => markRow !== undefined && rows.some((row) => row >= first && row <= last))
    .map(({ markRow }) => ({ row: markRow!, column: columns.mark, value: assumedWord }));
}
