import { assumedWord, columns, proposedWord, type Entered, type Plan } from "../../sheet/index.ts";
import { partsOf } from "../marks/parts.ts";

/**
 * The word "assumed" in the column of marks, for each row or table that holds one of these inputs; "proposed" where one
 * of them was found by the program.
 */
export function assumedMarks(
  plan: Plan,
  assumed: ReadonlySet<string>,
  proposed: ReadonlySet<string> = new Set(),
): readonly Entered[] {
  const rowsOf = (ids: ReadonlySet<string>): readonly number[] =>
    plan.meanings.filter(({ id }) => ids.has(id)).map(({ at }) => at.row);
  const [proposedRows, assumedRows] = [rowsOf(proposed), rowsOf(assumed)];
  return partsOf(plan)
    .flatMap(({ items }) => items)
    .flatMap(({ first, last, markRow }): readonly Entered[] => {
      const within = (row: number): boolean => row >= first && row <= last;
      const mark = (value: string): readonly Entered[] => [{ row: markRow!, column: columns.mark, value }];
      if (markRow === undefined) return [];
      if (proposedRows.some(within)) return mark(proposedWord);
      return assumedRows.some(within) ? mark(assumedWord) : [];
    });
}
