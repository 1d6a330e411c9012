import { firstRow } from "./columns.ts";
import { sourceText } from "./formulaText.ts";
import { doubtsOf } from "./relations.ts";
import { boundsOf } from "./says.ts";
import { isRecord, type ShapedBlock, type ShapedItem, type ShapedSheet, type ShapedTable } from "./shape.ts";
import type { Column } from "./template.ts";

/** The header rows a table has, from its title down. */
export type HeaderRow = "title" | "note" | "heading" | "symbol" | "unit" | "equation" | "source" | "from" | "to";

export interface PlacedTable {
  readonly shaped: ShapedTable;
  /** Row of each header row there is. */
  readonly header: ReadonlyMap<HeaderRow, number>;
  /** First row of data. */
  readonly first: number;
}

export type HeadLine =
  | "template"
  | "hash"
  | "functions"
  | "standard"
  | "method"
  | { readonly convention: string }
  | { readonly caution: string };

/** Which row everything stands in. */
export interface Layout {
  readonly sheet: ShapedSheet;
  readonly head: readonly { readonly line: HeadLine; readonly row: number }[];
  /** What the marks behind clauses mean. */
  readonly marks: number;
  readonly shapeTitle: number | undefined;
  readonly shapeRows: ReadonlyMap<string, number>;
  readonly blockRows: ReadonlyMap<ShapedBlock, { readonly title: number; readonly note?: number }>;
  /** Rows, notes and warnings: their (first) row. */
  readonly itemRows: ReadonlyMap<ShapedItem, number>;
  readonly tables: ReadonlyMap<ShapedTable, PlacedTable>;
  readonly rows: number;
}

function headerRows(shaped: ShapedTable): readonly HeaderRow[] {
  const { table, columns } = shaped;
  const computed = columns.some(
    ({ column, says }) => column.formula !== undefined || column.cells !== undefined || says.equation !== undefined,
  );
  const sourced = columns.some(({ column, says }) => sourceText(says, column.formula) !== "");
  const bounds = columns.flatMap(({ column, says }) =>
    column.input && !column.input.freeText && !column.input.choices ? [boundsOf(column.input, says.quantity)] : [],
  );
  return [
    "title",
    ...(table.note === undefined ? [] : ["note" as const]),
    "heading",
    ...(isRecord(shaped) ? [] : ["symbol" as const, "unit" as const]),
    ...(computed ? ["equation" as const] : []),
    ...(sourced ? ["source" as const] : []),
    ...(bounds.some((b) => b.min !== undefined || b.above !== undefined) ? ["from" as const] : []),
    ...(bounds.some((b) => b.max !== undefined || b.below !== undefined) ? ["to" as const] : []),
  ];
}

/** How many rows a list of warnings takes: one at least, which then says that there is nothing to list. */
export function warningRows(sheet: ShapedSheet): number {
  return Math.max(
    1,
    sheet.warned.reduce(
      (sum, it) => sum + ("kind" in it ? 1 : warnedRows(it.table, it.column.column.warnAt!).length),
      sheet.watched.length + doubtsOf(sheet).length,
    ),
  );
}

/** The rows (counted in the table) of each line of warnings, for each run of the innermost dimension: one row, or with `each` all of the run. */
export function warnedRows({ groups }: ShapedTable, at: NonNullable<Column["warnAt"]>): readonly (readonly number[])[] {
  const main = groups[0]!;
  const inner = main.over.at(-1)?.members.length ?? 1;
  const runs = Array.from({ length: inner === 0 ? 0 : main.rows / inner }, (_, g) =>
    Array.from({ length: inner }, (_row, i) => g * inner + i),
  );
  if (at === "each") return runs;
  return runs.flatMap((run) => {
    const [first, last] = [run[0]!, run.at(-1)!];
    return { first: [[first]], last: [[last]], both: [...new Set([first, last])].map((row) => [row]) }[at];
  });
}

export function layOut(sheet: ShapedSheet): Layout {
  const { template } = sheet;
  let row = firstRow;
  const lines: readonly HeadLine[] = [
    "template",
    "hash",
    "functions",
    "standard",
    "method",
    ...template.conventions.map((convention) => ({ convention })),
    ...template.cautions.map((caution) => ({ caution })),
  ];
  const head = lines.map((line) => ({ line, row: row++ }));
  const marks = row++;
  const shapeTitle = template.shape.length > 0 ? row++ : undefined;
  const shapeRows = new Map(template.shape.map(({ id }) => [id, row++] as const));
  const blockRows = new Map<ShapedBlock, { title: number; note?: number }>();
  const itemRows = new Map<ShapedItem, number>();
  const tables = new Map<ShapedTable, PlacedTable>();
  for (const block of sheet.blocks) {
    row++;
    blockRows.set(block, { title: row++, ...(block.block.note !== undefined && { note: row++ }) });
    for (const item of block.items) {
      if (item.kind === "table") {
        const header = new Map(headerRows(item).map((name) => [name, row++] as const));
        tables.set(item, { shaped: item, header, first: row });
        row += item.rows + 1;
      } else {
        itemRows.set(item, row);
        row += item.kind === "warnings" ? warningRows(sheet) : 1;
      }
    }
  }
  return { sheet, head, marks, shapeTitle, shapeRows, blockRows, itemRows, tables, rows: row };
}
