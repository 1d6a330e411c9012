import { tableColumns } from "./columns.ts";
import type { Dimension, ShapedAcross, ShapedColumn, ShapedSheet, ShapedTable } from "./shape.ts";

/** A column read across: over which members, in as many bands as the page is wide. */
export interface ReadAcross {
  readonly column: ShapedColumn;
  readonly table: ShapedTable;
  readonly outer: Dimension;
  readonly inner: Dimension;
}

/** So many members side by side, behind the column that tells the lines apart. */
export const membersAcross = tableColumns.last - tableColumns.first;

/** The columns an item reads across; in words what is wrong with one that cannot be. */
export function readAcross({ across }: ShapedAcross, { subjects }: ShapedSheet): readonly (ReadAcross | string)[] {
  return across.across.map((id) => {
    const subject = subjects.get(id);
    if (subject?.kind !== "column") return `${id} is not a table column present here`;
    const { column, table } = subject;
    const [group, ...parts] = table.groups;
    const [outer, inner, ...more] = group!.over;
    if (!outer || !inner || more.length > 0 || parts.length > 0)
      return `${id} does not stand in a table over two dimensions`;
    return { column, table, outer, inner };
  });
}
