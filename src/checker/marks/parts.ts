import { columns, type Plan, type PlannedCell } from "../../sheet/index.ts";

/** What one mark can stand for: a row, a table or a block; or, for the revision table, the whole sheet. Rows are the plan's. */
export interface Part {
  readonly kind: "row" | "table" | "block" | "sheet";
  /** "5.3", "5"; empty for the sheet. */
  readonly item: string;
  readonly description: string;
  readonly first: number;
  readonly last: number;
  /** Where its mark stands; undefined for the sheet. */
  readonly markRow?: number;
  /** Rows in which the marks' column holds values, from the first to the last: of wide tables. */
  readonly wide: readonly (readonly [number, number])[];
  /** More rows, from the first to the last: the workings of a whole sheet, which stand below the revision table. */
  readonly further?: readonly [number, number];
}

/** A block with the rows and tables in it. */
export interface BlockParts {
  readonly block: Part;
  readonly items: readonly Part[];
}

const found = new WeakMap<Plan, readonly BlockParts[]>();

/** The parts of a plan that have a cell for a mark, by block. */
export function partsOf(plan: Plan): readonly BlockParts[] {
  const known = found.get(plan);
  if (known) return known;
  const made = read(plan);
  found.set(plan, made);
  return made;
}

function read(plan: Plan): readonly BlockParts[] {
  const rows = new Map<number, PlannedCell[]>();
  for (const cell of plan.cells) rows.set(cell.row, [...(rows.get(cell.row) ?? []), cell]);
  const inColumn = (row: number, column: number): PlannedCell | undefined =>
    rows.get(row)?.find((cell) => cell.column === column);
  const text = (row: number, column: number): string => String(inColumn(row, column)?.value ?? "");
  const isMarked = (row: number): boolean => inColumn(row, columns.mark)?.role === "mark";
  /** The last row with a cell, of those before the next row with a mark. */
  const lastBeforeMark = (from: number, to: number): number => {
    let end = from;
    for (let row = from + 1; row <= to && !isMarked(row); row++) if (rows.has(row)) end = row;
    return end;
  };
  // Columns of a table may stand in two blocks: among the results and the workings.
  const lastOfTable = (item: string, from: number, to: number): number => {
    const own = plan.meanings.filter(({ item: of, at }) => of === item && at.row > from && at.row <= to);
    // A table read across has no columns of its own: it repeats those of others.
    if (own.length === 0) return lastBeforeMark(from, to);
    return Math.max(...own.map(({ at }) => at.row + at.rows - 1));
  };
  const titles = [...rows.keys()].filter((row) => inColumn(row, columns.item)?.role === "block").sort((a, b) => a - b);
  return titles.flatMap((title, i): BlockParts[] => {
    if (!isMarked(title)) return [];
    let last = (titles[i + 1] ?? plan.rows) - 1;
    while (last > title && !rows.has(last)) last--;
    const items: Part[] = [];
    for (let row = title + 1; row <= last; row++) {
      if (!isMarked(row)) continue;
      const table = inColumn(row, columns.description)?.role === "subtitle";
      const item = text(row, columns.item);
      const end = table ? lastOfTable(item, row, last) : row;
      const isWide =
        table && plan.cells.some((cell) => cell.column === columns.mark && cell.row > row && cell.row <= end);
      items.push({
        kind: table ? "table" : "row",
        item,
        description: text(row, columns.description),
        first: row,
        last: end,
        markRow: row,
        wide: isWide ? [[row + 1, end]] : [],
      });
    }
    return [
      {
        block: {
          kind: "block",
          item: text(title, columns.item),
          description: text(title, columns.description),
          first: title,
          last,
          markRow: title,
          wide: items.flatMap(({ wide }) => wide),
        },
        items,
      },
    ];
  });
}

/** Everything that stands above the revision table, and the workings below it; marks left out. */
export function wholeSheet(plan: Plan): Part {
  const records = plan.cells.filter(({ role }) => role === "record").map(({ row }) => row);
  const blocks = plan.cells
    .filter(({ role, column }) => role === "block" && column === columns.item)
    .map(({ row }) => row);
  const end = records.length === 0 ? plan.rows : Math.max(...blocks.filter((row) => row < Math.min(...records)));
  const workings = plan.groups?.find(({ row }) => row >= end);
  return {
    kind: "sheet",
    item: "",
    description: "the whole sheet",
    first: 0,
    last: end - 1,
    wide: partsOf(plan).flatMap(({ block }) => block.wide),
    ...(workings && { further: [workings.row - 1, workings.row + workings.rows - 1] as const }),
  };
}

/** "row 5.3, mean stress", "block 5, Losses". */
export function nameOfPart({ kind, item, description }: Part): string {
  return kind === "sheet" ? description : `${kind} ${item}, ${description}`;
}

/** The row, table and block that hold a row of the plan, as far as they have a mark. */
export function partsAt(plan: Plan, row: number): { readonly item?: Part; readonly block?: Part } {
  const holding = partsOf(plan).find(({ block }) => row >= block.first && row <= block.last);
  const item = holding?.items.find(({ first, last }) => row >= first && row <= last);
  return { ...(item && { item }), ...(holding && { block: holding.block }) };
}
