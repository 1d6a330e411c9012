import type { WorksheetFunction } from "../../functions/index.ts";
import { rowsAllowed, type Argument, type Cell, type Table } from "../../src/core/index.ts";

type Row = readonly Cell[];
type Rows = readonly Row[];

/** Row i of n, from rows that are given again and again. */
const again = (rows: Rows, i: number): Row => rows[i % rows.length]!;
const number = (cell: Cell): number => (typeof cell === "number" ? cell : 0);

/** n places between the first and the last of some, the given ones' middle left out. */
function places(rows: Rows, n: number): readonly number[] {
  const [first, last] = [number(rows[0]![0]), number(rows.at(-1)![0])];
  return Array.from({ length: n }, (_, i) => (i === n - 1 ? last : first + ((last - first) * i) / (n - 1)));
}

/** A tendon that hangs through from end to end, as survey points or a drawing's vertices give it. */
function hanging(rows: Rows, n: number): Rows {
  return places(rows, n).map((x, i) => {
    const u = i / (n - 1);
    return [x, 600 * 4 * u * (1 - u) + 3 * Math.sin(12 * u), i % 5 === 0 ? "TO_LEVEL" : "LINE"];
  });
}

/** A ring of n points round the same middle and about as large. */
function ring(points: readonly (readonly [number, number])[], n: number): readonly (readonly [number, number])[] {
  const mean = (k: 0 | 1): number => points.reduce((sum, p) => sum + p[k], 0) / points.length;
  const middle = [mean(0), mean(1)] as const;
  const radius = 0.6 * Math.min(...points.map(([x, y]) => Math.hypot(x - middle[0], y - middle[1])));
  return Array.from({ length: n }, (_, i) => {
    const at = (2 * Math.PI * (i + 0.25)) / n;
    return [middle[0] + radius * Math.cos(at), middle[1] + radius * Math.sin(at)] as const;
  });
}

const points = (rows: Rows, x: number, y: number) => rows.map((row) => [number(row[x]), number(row[y])] as const);

/** Many small squares, each with a number of its own, as far as rows go. */
function squares(rows: Rows, n: number): Rows {
  const [[x, y]] = [ring(points(rows, 1, 2), 3)[0]!];
  const side = 0.01;
  const per = Math.ceil(Math.sqrt(n / 4));
  return Array.from({ length: 4 * Math.max(1, Math.floor(n / 4)) }, (_, i) => {
    const square = Math.floor(i / 4);
    const [column, row] = [square % per, Math.floor(square / per)];
    const [dx, dy] = [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
    ][i % 4]!;
    return [1 + square, x - 2 * side * (column + dx! / 2), y + 2 * side * (row + dy! / 2)];
  });
}

/** How the rows of a table become many, where repeating them would not make one that is accepted. */
const byKey: Readonly<Record<string, (rows: Rows, n: number) => Rows>> = {
  controlPoints: hanging,
  planPoints: hanging,
  tendonSegments: (rows, n) => {
    const times = Math.ceil(n / rows.length);
    return Array.from({ length: n }, (_, i) => {
      const [l, v, h, mu, k] = again(rows, Math.floor(i / times));
      return [number(l) / times || 0.01, number(v) / times, number(h) / times, mu, k];
    });
  },
  deviators: (rows, n) => places(rows, n).map((x, i) => (i === 0 || i === n - 1 ? [x, 0, 0] : [x, 0.5 / n, 0.2 / n])),
  outline: (rows, n) => {
    // Teeth of equal height side by side: every edge lies beside every other.
    const [min, max] = [Math.min(...rows.map((r) => number(r[1]))), Math.max(...rows.map((r) => number(r[1])))];
    const upper = Array.from({ length: n - 2 }, (_, i) => [(1000 * (n - i)) / n, i % 2 === 0 ? max : (min + max) / 2]);
    return [[0, min], [1000, min], ...upper];
  },
  voids: (rows, n) => (rows.length === 0 ? rows : squares(rows, n)),
  stressAlongTendon: (rows, n) => places(rows, n).map((s, i) => [s, number(rows[0]![1]) * Math.exp((-0.2 * i) / n)]),
  stressedTendons: (rows, n) =>
    Array.from({ length: n }, (_, i) => {
      const [, P, e] = again(rows, i);
      return [1 + (i % 1000), (number(P) * rows.length) / n, e];
    }),
  stressingProgramme: (rows, n) =>
    Array.from({ length: n }, (_, i) => {
      const [, P, e, A] = again(rows, i);
      return [1 + (i % 1000), (number(P) * rows.length) / n, e, (number(A) * rows.length) / n];
    }),
  loadEvents: (rows, n) => {
    const first = Math.min(number(rows[0]![0]), 20);
    return Array.from({ length: n }, (_, i) => [first + 3 * i, (number(again(rows, i)[1]) / n) * rows.length]);
  },
  // Each a little less strict than the one before, so that a region is left and every limit has to be looked at.
  stressConditions: (rows, n) =>
    Array.from({ length: n }, (_, i) => {
      const [M, r, f_c, f_t, ...rest] = again(rows, i);
      return [M, r, number(f_c) + i / n, number(f_t) - i / n, ...rest];
    }),
  curingHistory: (rows, n) => {
    const times = Math.ceil(n / rows.length);
    return Array.from({ length: n }, (_, i) => [again(rows, i)[0], number(again(rows, i)[1]) / times]);
  },
  temperatureHistory: (rows, n) => byKey["curingHistory"]!(rows, n),
  ducts: (rows, n) =>
    Array.from({ length: n }, (_, i) => [number(again(rows, i)[0]) / Math.sqrt(n), again(rows, i)[1]]),
  tendonsInSection: (rows, n) =>
    Array.from({ length: n }, (_, i) => [number(again(rows, i)[0]) / n, again(rows, i)[1]]),
  tendonGroups: (rows, n) => Array.from({ length: n }, (_, i) => [...again(rows, i).slice(0, 3), 1, again(rows, i)[4]]),
  stressingStages: (_, n) => Array.from({ length: n }, (_none, i) => [0.1 + (0.9 * i) / n]),
};

/** Rows like these, n of them; where they have an order or a geometry, one that holds. */
function longer(table: Table, rows: Rows, n: number): Rows {
  const own = byKey[table.key];
  if (own) return own(rows, n);
  return Array.from({ length: n }, (_, i) => again(rows, i));
}

/** The table that a drawn range is. */
function tableOf(table: Table, rows: Rows): Table {
  if (!table.kinds) return table;
  const { points: controlPoints, segments, deviators } = table.kinds.tables;
  if (rows[0]!.length === 5) return segments!;
  return typeof rows[0]![2] === "string" ? controlPoints! : deviators!;
}

/** The arguments with their ranges grown to n rows; undefined where there is no range to grow. */
export function withLongRanges(
  f: WorksheetFunction,
  args: readonly Argument[],
  n: number,
): readonly Argument[] | undefined {
  let grown = false;
  const out = f.parameters.map(({ parameter }, i) => {
    const argument = args[i];
    if (parameter.kind !== "table" || !Array.isArray(argument) || argument.length === 0) return argument;
    grown = true;
    const rows = argument as Rows;
    return longer(tableOf(parameter, rows), rows, n);
  });
  return grown ? out : undefined;
}

/** The rows that the shortest of a function's ranges may have. */
export const mostRows = ({ parameters }: WorksheetFunction): number =>
  Math.min(...parameters.flatMap(({ parameter }) => (parameter.kind === "table" ? [rowsAllowed(parameter)] : [])));

/** Functions that take a range of rows. */
export const takesRange = ({ parameters }: WorksheetFunction): boolean =>
  parameters.some(({ parameter }) => parameter.kind === "table");
