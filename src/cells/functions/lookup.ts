import { compare, sameText, toNumber } from "../values/convert.ts";
import { wildcards } from "../values/criteria.ts";
import { Ref, type Frame, type NativeFunction, type Node } from "../values/frame.ts";
import {
  Block,
  broadcast,
  cannot,
  each,
  Fault,
  notFound,
  Rows,
  single,
  wrongReference,
  wrongValue,
  type Scalar,
  type Value,
} from "../values/values.ts";
import { any, whole } from "./define.ts";

type Known = number | string | boolean;

const sameKind = (a: Scalar, b: Known): a is Known => typeof a === typeof b;

/** Place of the first item equal to what is sought; texts may hold `?` and `*` where the lookup allows it. */
function exact(items: readonly Scalar[], sought: Known, likeness: boolean): number {
  const like = likeness && typeof sought === "string" ? wildcards(sought) : undefined;
  if (like) return items.findIndex((s) => typeof s === "string" && like.test(s));
  return items.findIndex(
    (s) => sameKind(s, sought) && (typeof s === "string" ? sameText(s, sought as string) : s === sought),
  );
}

/**
 * Place of the last item of the sought one's kind that is not after it (or, `descending`, not before it). The programs
 * halve the list, so it must be in order.
 */
function nearest(items: readonly Scalar[], sought: Known, descending = false): number {
  const sign = descending ? -1 : 1;
  let last = -1;
  let passed = false;
  items.forEach((item, i) => {
    if (!sameKind(item, sought)) return;
    if (sign * compare(item, sought) > 0) passed = true;
    else if (passed) cannot("a lookup in a list that is not in order");
    else last = i;
  });
  return last;
}

function listOf(value: Value): readonly Scalar[] | undefined {
  return value instanceof Block && value.rows > 1 && value.columns > 1 ? undefined : [...each(value)];
}

/** What is sought, for each element of a block of sought values. */
function seeking(sought: Value, find: (known: Known) => Scalar): Value {
  return broadcast([sought], (s) => (s instanceof Fault ? s : find(s ?? 0)));
}

function match(sought: Value, where: Value, kind: Value = 1): Value {
  if (where instanceof Fault) return where;
  const items = listOf(where);
  const type = toNumber(single(kind) ?? wrongValue);
  if (type instanceof Fault) return type;
  if (!items) return notFound;
  return seeking(sought, (known) => {
    const at = type === 0 ? exact(items, known, true) : nearest(items, known, type < 0);
    return at < 0 ? notFound : at + 1;
  });
}

/** A row, a column or a cell of a block; 0 takes all of them. */
function index(of: Value, first: Value, second?: Value): Value {
  if (of instanceof Fault) return of;
  const block = of instanceof Block ? of : new Rows([[of]]);
  const flat = second === undefined && block.rows === 1;
  const numbers = [flat ? 0 : first, flat ? first : (second ?? (block.columns === 1 ? 1 : 0))].map((v) => single(v));
  if (numbers.includes(undefined)) {
    return broadcast([first, ...(second === undefined ? [] : [second])], (a, b) => {
      const found = index(of, a, second === undefined ? undefined : b);
      return single(found) ?? wrongValue;
    });
  }
  const [row, column] = numbers.map((s) => toNumber(s!));
  if (row instanceof Fault) return row;
  if (column instanceof Fault) return column;
  const [r, c] = [Math.trunc(row!), Math.trunc(column!)];
  if (r < 0 || c < 0) return wrongValue;
  if (r > block.rows || c > block.columns) return wrongReference;
  return part(block, r === 0 ? 0 : r - 1, c === 0 ? 0 : c - 1, r === 0 ? block.rows : 1, c === 0 ? block.columns : 1);
}

function part(block: Block, row: number, column: number, rows: number, columns: number): Value {
  if (block instanceof Ref) return block.part(row, column, rows, columns);
  if (rows === 1 && columns === 1) return block.at(row, column);
  return new Rows(
    Array.from({ length: rows }, (_r, r) => Array.from({ length: columns }, (_c, c) => block.at(row + r, column + c))),
  );
}

/** VLOOKUP, and across HLOOKUP. */
const tabular = (across: boolean): NativeFunction =>
  whole(
    3,
    4,
    (sought, table, place, near = true) => {
      if (table instanceof Fault) return table;
      if (!(table instanceof Block)) return wrongValue;
      const offset = toNumber(single(place) ?? wrongValue);
      if (offset instanceof Fault) return offset;
      const approximate = toNumber(single(near) ?? wrongValue);
      if (approximate instanceof Fault) return approximate;
      const n = Math.trunc(offset);
      if (n < 1) return wrongValue;
      if (n > (across ? table.rows : table.columns)) return wrongReference;
      const keys = Array.from({ length: across ? table.columns : table.rows }, (_, i) =>
        across ? table.at(0, i) : table.at(i, 0),
      );
      return seeking(sought, (known) => {
        const at = approximate === 0 ? exact(keys, known, true) : nearest(keys, known);
        return at < 0 ? notFound : across ? table.at(n - 1, at) : table.at(at, n - 1);
      });
    },
    "with",
  );

function lookup(sought: Value, where: Value, results?: Value): Value {
  if (where instanceof Fault) return where;
  if (results instanceof Fault) return results;
  const block = where instanceof Block ? where : new Rows([[where]]);
  const across = block.columns > block.rows;
  const keys = Array.from({ length: across ? block.columns : block.rows }, (_, i) =>
    across ? block.at(0, i) : block.at(i, 0),
  );
  const values = results === undefined ? undefined : listOf(results);
  if (results !== undefined && !values) return notFound;
  return seeking(sought, (known) => {
    const at = nearest(keys, known);
    if (at < 0) return notFound;
    if (values) return values[at] ?? cannot("a lookup beyond its results");
    return across ? block.at(block.rows - 1, at) : block.at(at, block.columns - 1);
  });
}

/** Place of what is sought exactly, else (mode −1 or 1) of the next smaller or larger, in whatever order. */
function nextTo(items: readonly Scalar[], sought: Known, mode: number): number {
  const at = exact(items, sought, mode === 2);
  if (at >= 0 || mode === 0 || mode === 2) return at;
  let best = -1;
  items.forEach((item, i) => {
    if (!sameKind(item, sought) || Math.sign(compare(item, sought)) !== mode) return;
    if (best < 0 || Math.sign(compare(item, items[best] as Known)) === -mode) best = i;
  });
  return best;
}

function xlookup(args: readonly Node[], frame: Frame): Value {
  const [sought, where, results, , mode, direction] = args;
  const known = single(sought!(frame));
  if (known === undefined) return cannot("XLOOKUP of several values");
  if (known instanceof Fault) return known;
  const keys = where!(frame);
  if (keys instanceof Fault) return keys;
  const found = results!(frame);
  if (found instanceof Fault) return found;
  const kind = mode ? toNumber(single(mode(frame)) ?? wrongValue) : 0;
  if (kind instanceof Fault) return kind;
  const way = direction ? toNumber(single(direction(frame)) ?? wrongValue) : 1;
  if (way instanceof Fault) return way;
  if (way !== 1) return cannot(`XLOOKUP with search mode ${way}`);
  const items = listOf(keys);
  const block = found instanceof Block ? found : new Rows([[found]]);
  const across = keys instanceof Block && keys.columns > 1;
  if (!items || items.length !== (across ? block.columns : block.rows)) return wrongValue;
  const at = nextTo(items, known ?? 0, kind);
  if (at < 0) return args[3] ? args[3](frame) : notFound;
  return across ? part(block, 0, at, block.rows, 1) : part(block, at, 0, 1, block.columns);
}

const unfollowable = (name: string): NativeFunction => ({
  min: 0,
  max: any,
  run: () => cannot(name),
  unfollowable: name,
});

export const lookups: Readonly<Record<string, NativeFunction>> = {
  INDEX: whole(2, 3, (of, first, second) => index(of, first, second), "always"),
  MATCH: whole(2, 3, (sought, where, kind) => match(sought, where, kind), "with"),
  VLOOKUP: tabular(false),
  HLOOKUP: tabular(true),
  LOOKUP: whole(2, 3, (sought, where, results) => lookup(sought, where, results), "with"),
  XLOOKUP: { min: 3, max: 6, fills: "always", run: xlookup },
  TRANSPOSE: whole(
    1,
    1,
    (value) => {
      if (!(value instanceof Block)) return value!;
      return new Rows(
        Array.from({ length: value.columns }, (_c, c) => Array.from({ length: value.rows }, (_r, r) => value.at(r, c))),
      );
    },
    "always",
  ),
  OFFSET: unfollowable("function OFFSET"),
  INDIRECT: unfollowable("function INDIRECT"),
};
