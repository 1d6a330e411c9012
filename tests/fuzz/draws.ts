import type { Argument, Cell, Parameter, Quantity, Table } from "../../src/core/index.ts";
import { integer, pick, type Random } from "./random.ts";

const sizes = [
  0,
  -0,
  1,
  -1,
  5e-324,
  -5e-324,
  2.2250738585072014e-308,
  1e-308,
  -1e-308,
  1e308,
  -1e308,
  1.7976931348623157e308,
  2 ** 53,
  2 ** 53 + 2,
  -(2 ** 53),
  1e15,
  1e-15,
  0.1,
  1 / 3,
  100,
  1000,
  NaN,
  Infinity,
  -Infinity,
];
const words = [
  "",
  " ",
  "0",
  "12",
  "1e3",
  "0,2",
  "−5",
  "TRUE",
  "#VALUE!",
  "LEFT",
  "left ",
  "C40/50",
  "ß∑\u{1F600}",
  "=1+1",
  "NaN",
  "Infinity",
  "__proto__",
  "constructor",
  "x".repeat(300),
];

/** A number of any size: the exponent is drawn evenly. */
function anyNumber(random: Random): number {
  return random() < 0.3 ? pick(random, sizes) : (random() < 0.5 ? -1 : 1) * random() * 10 ** integer(random, -308, 308);
}

/** Whatever a cell can hold. */
function anyCell(random: Random): Cell {
  const u = random();
  if (u < 0.45) return anyNumber(random);
  if (u < 0.55) return integer(random, -3, 30);
  if (u < 0.72) return pick(random, words);
  if (u < 0.85) return pick(random, [true, false]);
  return pick(random, [null, undefined, ""]);
}

/** A range: none, one or several cells, now and then with rows of unequal length. */
function anyRange(random: Random): Argument {
  const columns = integer(random, 0, 5);
  const ragged = random() < 0.3;
  return Array.from({ length: integer(random, 0, 5) }, () =>
    Array.from({ length: ragged ? integer(random, 0, 5) : columns }, () => anyCell(random)),
  );
}

/** The next number in the direction of `towards`, in steps of the last bits. */
export function next(value: number, towards: number): number {
  const step = Math.max(Math.abs(value) * 2 ** -52, 5e-324);
  return towards > value ? value + step : value - step;
}

/** A number that the bounds of the quantity allow, often at their edge. */
function allowedNumber(random: Random, q: Quantity): number {
  const low = q.min ?? q.above;
  const high = q.max ?? q.below;
  const u = random();
  if (u < 0.12 && q.min !== undefined) return q.min;
  if (u < 0.18 && q.max !== undefined) return q.max;
  if (u < 0.24 && q.above !== undefined) return next(q.above, Infinity);
  if (u < 0.28 && q.below !== undefined) return next(q.below, -Infinity);
  let value: number;
  if (q.typical && u < 0.7) value = q.typical[0] + random() * (q.typical[1] - q.typical[0]);
  else if (low !== undefined && high !== undefined) value = low + random() ** pick(random, [1, 8]) * (high - low);
  else if (low !== undefined) value = low + 10 ** (random() * 24 - 12);
  else if (high !== undefined) value = high - 10 ** (random() * 24 - 12);
  else value = (random() < 0.5 ? -1 : 1) * 10 ** (random() * 24 - 12);
  return q.whole ? Math.round(value) : value;
}

/** A number at, just inside or outside a bound. */
function edgeNumber(random: Random, q: Quantity): number {
  const edges = [
    q.min,
    q.max,
    q.above,
    q.below,
    q.typical?.[0],
    q.typical?.[1],
    q.valid?.range[0],
    q.valid?.range[1],
  ].filter((edge): edge is number => edge !== undefined);
  if (edges.length === 0) return anyNumber(random);
  const edge = pick(random, edges);
  return pick(random, [
    edge,
    next(edge, -Infinity),
    next(edge, Infinity),
    edge - 1,
    edge + 1,
    edge * 1.001,
    edge * 0.999,
  ]);
}

/** The range with one thing wrong or unusual in it. */
function disturbed(random: Random, t: Table, rows: readonly (readonly Cell[])[]): Argument {
  if (rows.length === 0) return anyRange(random);
  const at = integer(random, 0, rows.length - 1);
  const columns = Object.values(t.columns);
  const column = integer(random, 0, columns.length - 1);
  const replaced = (cell: Cell): Argument =>
    rows.map((row, r) => (r === at ? row.map((old, c) => (c === column ? cell : old)) : row));
  switch (integer(random, 0, 9)) {
    case 0:
      return rows.map((row, r) => (r === at ? row.slice(0, -1) : row));
    case 1:
      return rows.map((row, r) => (r === at ? [...row, anyCell(random)] : row));
    case 2:
      return rows.map((row) => row.slice(0, -1));
    case 3:
      return [...rows].reverse();
    case 4:
      return [...rows.slice(0, at), rows[at]!, ...rows.slice(at)];
    case 5:
      return [...rows, columns.map(() => pick(random, [null, ""]))];
    case 6:
      return rows.filter((_, r) => r !== at);
    case 7:
      return rows.map((row, r) => (r === at ? row.map(() => null) : row));
    case 8:
      return replaced(anyCell(random));
    default:
      return replaced(argumentFor(random, columns[column]!) as Cell);
  }
}

/** Another argument that the parameter may take, or nearly. */
export function argumentFor(random: Random, parameter: Parameter, now?: Argument): Argument {
  switch (parameter.kind) {
    case "number":
      return random() < 0.75 ? allowedNumber(random, parameter) : edgeNumber(random, parameter);
    case "choice":
      return pick(random, parameter.values).value;
    case "text":
      return pick(random, words);
    case "table":
      return Array.isArray(now) ? disturbed(random, parameter, now as readonly (readonly Cell[])[]) : anyRange(random);
  }
}

/** Anything at all. */
export function anyArgument(random: Random): Argument {
  const u = random();
  if (u < 0.75) return anyCell(random);
  return u < 0.85 ? [[anyCell(random)]] : anyRange(random);
}
