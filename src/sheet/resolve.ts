import { a1, areaA1, type Area, type CellReference } from "../cells/index.ts";
import { columns } from "./columns.ts";
import { firstOf, type Layout } from "./layout.ts";
import type { Dimension, Group, ShapedColumn, ShapedTable } from "./shape.ts";

/** Where a formula stands: in a plain row, or in one row of a table. */
export type Context = { readonly kind: "row" } | TableContext;
export interface TableContext {
  readonly kind: "table";
  readonly table: ShapedTable;
  readonly group: Group;
  /** The member's number in each of the group's dimensions, from 0. */
  readonly members: readonly number[];
  /** The members by base dimension, counted in the base. */
  readonly coordinates: ReadonlyMap<string, number>;
  /** Row counted in the table. */
  readonly row: number;
}

/** Where a reference points; `moves` tells that the row follows the formula's own row down its group. */
export interface Target {
  readonly area: Area;
  readonly moves: boolean;
}

/** The contexts of a table's rows in order. */
export function contexts(table: ShapedTable): readonly TableContext[] {
  return table.groups.flatMap((group) =>
    Array.from({ length: group.rows }, (_, i): TableContext => {
      const members: number[] = [];
      let rest = i;
      for (const { members: all } of [...group.over].reverse()) {
        members.unshift(rest % all.length);
        rest = Math.floor(rest / all.length);
      }
      const coordinates = new Map(group.over.map((d, k) => [d.base, d.offset + members[k]!] as const));
      return { kind: "table", table, group, members, coordinates, row: group.first + i };
    }),
  );
}

const nowhere: ReadonlyMap<string, number> = new Map();

/** The context's members by base dimension, counted in the base. */
export function coordinates(context: Context): ReadonlyMap<string, number> {
  return context.kind === "row" ? nowhere : context.coordinates;
}

/** The dimensions by which others see a table; undefined where its parts have none in common. */
function seenAs(table: ShapedTable, at: ReadonlyMap<string, number>): readonly Dimension[] | undefined {
  if (table.countedBy && at.has(table.countedBy.base)) return [table.countedBy];
  return table.groups.length === 1 ? table.groups[0]!.over : undefined;
}

interface Span {
  readonly first: number;
  readonly rows: number;
  readonly moves: boolean;
}

function matched(id: string, table: ShapedTable, context: Context): Span | string {
  const at = coordinates(context);
  const over = seenAs(table, at);
  if (!over)
    return (
      `{${id}} stands in a table with parts; only a table over the dimension that counts its rows can ` +
      `match it, others take {${id}[*]}`
    );
  const missing = over.filter(({ base }) => !at.has(base));
  if (missing.length > 0)
    return `{${id}} runs over ${missing.map((d) => d.id).join(" and ")}, which this formula does not; use {${id}[]} or another range`;
  let row = 0;
  for (const { base, offset, members, id: dimension } of over) {
    const i = at.get(base)! - offset;
    if (i < 0 || i >= members.length)
      return `{${id}} runs over ${dimension} only, which has no match for every member here`;
    row = row * members.length + i;
  }
  const inner = context.kind === "table" ? context.group.over.at(-1)?.base : undefined;
  return { first: row, rows: 1, moves: over.at(-1)?.base === inner && inner !== undefined };
}

function grouped(id: string, table: ShapedTable, context: Context): Span | string {
  const at = coordinates(context);
  const over = seenAs(table, at);
  const common = over?.filter(({ base }) => at.has(base)) ?? [];
  if (!over) {
    const shares = table.groups.some((group) => group.over.some(({ base }) => at.has(base)));
    return shares && !(context.kind === "table" && context.table === table)
      ? `{${id}[]} stands in a table with parts; take {${id}[*]}`
      : { first: 0, rows: table.rows, moves: false };
  }
  const fixed = Math.min(common.length, Math.max(0, over.length - 1));
  for (let i = 0; i < fixed; i++) {
    if (!at.has(over[i]!.base))
      return (
        `{${id}[]} runs over ${over.map((d) => d.id).join(" and ")}: ${common.map((d) => d.id).join(" and ")} ` +
        "must come first for its cells to stand together"
      );
  }
  let row = 0;
  for (const [i, { base, offset, members, id: dimension }] of over.entries()) {
    const own = i < fixed ? at.get(base)! - offset : 0;
    if (own < 0 || own >= members.length)
      return `{${id}[]} runs over ${dimension} only, which has no match for every member here`;
    row = row * members.length + own;
  }
  return { first: row, rows: over.slice(fixed).reduce((product, d) => product * d.members.length, 1), moves: false };
}

function span(reference: CellReference, table: ShapedTable, context: Context): Span | string {
  const { id, pick } = reference;
  const same = context.kind === "table" && context.table === table;
  switch (pick) {
    case "match":
      return same ? { first: context.row, rows: 1, moves: true } : matched(id, table, context);
    case "above":
      return same ? { first: context.row - 1, rows: 1, moves: true } : `{${id}[-1]} is not in this table`;
    case "whole":
      return { first: 0, rows: table.rows, moves: false };
    case "group":
      return grouped(id, table, context);
    case "first":
    case "last": {
      const all = grouped(id, table, context);
      return typeof all === "string"
        ? all
        : { first: pick === "first" ? all.first : all.first + all.rows - 1, rows: 1, moves: false };
    }
  }
}

function columnSpan(
  reference: CellReference,
  from: ShapedColumn,
  table: ShapedTable,
): { readonly first: number; readonly count: number } | string {
  if (reference.to === undefined) return { first: from.at, count: 1 };
  const to = table.columns.find(({ says }) => says.id === reference.to);
  const name = `{${reference.id}:${reference.to}}`;
  if (!to) return `${name}: ${reference.to} is not a column of the same table`;
  if (table.columns.indexOf(to) < table.columns.indexOf(from)) return `${name} runs from right to left`;
  if (from.column.verdict || to.column.verdict) return `${name} crosses the verdict column`;
  if (to.band !== from.band) return `${name} is wider than a page`;
  return { first: from.at, count: to.at - from.at + 1 };
}

/** The columns a range reference covers, in order. */
export function coveredColumns(reference: CellReference, table: ShapedTable): readonly ShapedColumn[] {
  const from = table.columns.findIndex(({ says }) => says.id === reference.id);
  const to = table.columns.findIndex(({ says }) => says.id === (reference.to ?? reference.id));
  return table.columns.slice(from, to + 1);
}

/** Finds the cells a reference means, or says why there are none. */
export function resolve(reference: CellReference, context: Context, layout: Layout): Target | string {
  const subject = layout.sheet.subjects.get(reference.id);
  if (!subject) return `{${reference.id}} is not the id of any row, column or shape input present here`;
  if (subject.kind !== "column") {
    if (reference.pick !== "match") return `{${reference.id}} is a single value, not a column`;
    const at =
      subject.kind === "shape"
        ? { row: layout.about.shape.get(reference.id)!, column: columns.value }
        : layout.values.get(subject.row)!;
    return { area: { row: at.row, column: at.column, rows: 1, columns: 1 }, moves: false };
  }
  const across = columnSpan(reference, subject.column, subject.table);
  if (typeof across === "string") return across;
  const down = span(reference, subject.table, context);
  if (typeof down === "string") return down;
  const row = firstOf(layout, subject.table, subject.column) + down.first;
  return { area: { row, column: across.first, rows: down.rows, columns: across.count }, moves: down.moves };
}

/** The address as the formula writes it: fixed, but for rows that move with the formula's own. */
export function targetA1({ area, moves }: Target, fixed = false): string {
  return moves && !fixed ? `$${a1(area)}` : areaA1(area);
}
