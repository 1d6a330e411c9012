import { cellAt } from "../cells/index.ts";
import { partsOf, type Recognised } from "../checker/index.ts";
import { columns, officeWord } from "../sheet/index.ts";

/** The inputs that a sheet in a workbook marks as the office's. */
export function markedInputs({ plan, snapshot, rowNow, columnNow }: Recognised): ReadonlySet<string> {
  const column = columnNow(columns.mark);
  const ids = partsOf(plan)
    .flatMap(({ items }) => items)
    .flatMap(({ first, last, markRow }): readonly string[] => {
      const row = markRow === undefined ? undefined : rowNow(markRow);
      if (row === undefined || column === undefined || cellAt(snapshot, row, column).value !== officeWord) return [];
      return plan.meanings.flatMap(({ id, at }) =>
        Object.hasOwn(plan.inputs, id) && at.row >= first && at.row <= last ? [id] : [],
      );
    });
  return new Set(ids);
}
