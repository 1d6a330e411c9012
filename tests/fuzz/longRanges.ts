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

/** A tendon whose points stand anywhere from a metre to a hundred millionth of a metre apart. */
function clustered(rows: Rows, n: number): Rows {
  const gaps = Array.from({ length: n - 1 }, (_, i) => 10 ** (-8 * ((0.618034 * i) % 1)));
  const perGap = (number(rows.at(-1)![0]) - number(rows[0]![0])) / gaps.reduce((sum, gap) => sum + gap, 0);
  let x = number(rows[0]![0]);
  return Array.from({ length: n }, (_, i) => {
    if (i > 0) x = i === n - 1 ? number(rows.at(-1)![0]) : x + perGap * gaps[i - 1]!;
    return [x, 0.5 * Math.sin(37 * i), "TO_LEVEL"];
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

/** Many small squares, each with a number of its own; points that are left over lie on an edge of the last. */
function squares(rows: Rows, n: number): Rows {
  const [[x, y]] = [ring(points(rows, 1, 2), 3)[0]!];
  const side = 0.01;
  const count = Math.max(1, Math.floor(n / 4));
  const per = Math.ceil(Math.sqrt(count));
  const over = n - 4 * count;
  return Array.from({ length: n }, (_, i) => {
    const square = Math.min(count - 1, Math.floor(i / 4));
    const [column, row] = [square % per, Math.floor(square / per)];
    const [dx, dy] = [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
    ][i - 4 * square] ?? [0, (n - i) / (over + 1)];
    return [1 + square, x - 2 * side * (column + dx! / 2), y + 2 * side * (row + dy! / 2)];
  });
}

/** As many voids side by side where the drawn one lies as n points need, each a ring of up to 500. */
function voidsOf(rows: Rows, n: number, inward: (i: number) => number): Rows {
  const all = points(rows, 1, 2);
  const mean = (k: 0 | 1): number => all.reduce((sum, p) => sum + p[k], 0) / all.length;
  const middle = [mean(0), mean(1)] as const;
  const radius = 0.6 * Math.min(...all.map(([x, y]) => Math.hypot(x - middle[0], y - middle[1])));
  const count = Math.ceil(n / 500);
  const [away, own] = count === 1 ? [0, radius] : [radius / 2, (0.4 * radius * Math.PI) / (2 * count)];
  return Array.from({ length: n }, (_, i) => {
    const no = Math.floor((i * count) / n);
    const first = Math.ceil((no * n) / count);
    const many = Math.ceil(((no + 1) * n) / count) - first;
    const [at, there] = [(2 * Math.PI * (i - first + 0.25)) / many, (2 * Math.PI * no) / count];
    const r = own * inward(i - first);
    return [
      1 + no,
      middle[0] + away * Math.cos(there) + r * Math.cos(at),
      middle[1] + away * Math.sin(there) + r * Math.sin(at),
    ];
  });
}

const rounds = (rows: Rows, n: number): Rows => voidsOf(rows, n, () => 1);

/** Stars of needles: every edge lies beside a quarter of its star's others in both directions. */
const stars = (rows: Rows, n: number): Rows => voidsOf(rows, n, (i) => (i % 2 === 0 ? 1 : 0.1));

/** Teeth of equal height side by side: every edge lies beside every other. */
function teeth(rows: Rows, n: number): Rows {
  const [min, max] = [Math.min(...rows.map((r) => number(r[1]))), Math.max(...rows.map((r) => number(r[1])))];
  const upper = Array.from({ length: n - 2 }, (_, i) => [(1000 * (n - i)) / n, i % 2 === 0 ? max : (min + max) / 2]);
  return [[0, min], [1000, min], ...upper];
}

/** A section that narrows to a waist and widens again: every point has a height of its own, and the next one is seldom the worst. */
function tapered(rows: Rows, n: number): Rows {
  const heights = rows.map((r) => number(r[1]));
  const [min, max] = [Math.min(...heights), Math.max(...heights)];
  return Array.from({ length: n }, (_, i) => {
    const side = i < n / 2 ? 1 : -1;
    const u = Math.min(1, (2 * (side > 0 ? i : n - 1 - i)) / n + (side > 0 ? 0 : 1e-4));
    return [side * (80 + 600 * (2 * u - 1) ** 2), min + u * (max - min)];
  });
}

/** Single tendons of all rows together: as many as are allowed. */
const mostTendons = 2000;

/** Tendons in columns from the soffit up, none in another's place. */
const columnsOfTendons = (_: Rows, n: number): Rows =>
  Array.from({ length: n }, (_none, i) => [10, (18_000 * i) / n, 0, Math.max(1, Math.floor(mostTendons / n)), 150]);

/** Thin tendons in a sheet with a wide one far above: its width says nothing of what lies beside the others. */
const besideWideTendon = (_: Rows, n: number): Rows =>
  Array.from({ length: n }, (_none, i) =>
    i === 0 ? [2000, 19_000, 0, 1, 0] : [5, (15_000 * i) / n, 0, Math.max(1, Math.floor((mostTendons - 1) / n)), 30],
  );

type Growth = (rows: Rows, n: number) => Rows;

const stretched: Growth = (rows, n) => {
  const times = Math.ceil(n / rows.length);
  return Array.from({ length: n }, (_, i) => [again(rows, i)[0], number(again(rows, i)[1]) / times]);
};

/** How the rows of a table become many, where repeating them would not make one that is accepted: in each of these ways. */
const byKey: Readonly<Record<string, readonly Growth[]>> = {
  controlPoints: [hanging, clustered],
  planPoints: [hanging],
  tendonSegments: [
    (rows, n) => {
      const times = Math.ceil(n / rows.length);
      return Array.from({ length: n }, (_, i) => {
        const [l, v, h, mu, k] = again(rows, Math.floor(i / times));
        return [number(l) / times || 0.01, number(v) / times, number(h) / times, mu, k];
      });
    },
  ],
  deviators: [(rows, n) => places(rows, n).map((x, i) => (i === 0 || i === n - 1 ? [x, 0, 0] : [x, 0.5 / n, 0.2 / n]))],
  outline: [teeth, tapered],
  voids: [squares, rounds, stars],
  stressAlongTendon: [(rows, n) => places(rows, n).map((s, i) => [s, number(rows[0]![1]) * Math.exp((-0.2 * i) / n)])],
  stressedTendons: [
    (rows, n) =>
      Array.from({ length: n }, (_, i) => {
        const [, P, e] = again(rows, i);
        return [1 + (i % 1000), (number(P) * rows.length) / n, e];
      }),
  ],
  stressingProgramme: [
    (rows, n) =>
      Array.from({ length: n }, (_, i) => {
        const [, P, e, A] = again(rows, i);
        return [1 + (i % 1000), (number(P) * rows.length) / n, e, (number(A) * rows.length) / n];
      }),
  ],
  loadEvents: [
    (rows, n) => {
      const first = Math.min(number(rows[0]![0]), 20);
      return Array.from({ length: n }, (_, i) => [first + 3 * i, (number(again(rows, i)[1]) / n) * rows.length]);
    },
  ],
  // Each a little less strict than the one before, so that a region is left and every limit has to be looked at.
  stressConditions: [
    (rows, n) =>
      Array.from({ length: n }, (_, i) => {
        const [M, r, f_c, f_t, ...rest] = again(rows, i);
        return [M, r, number(f_c) + i / n, number(f_t) - i / n, ...rest];
      }),
  ],
  curingHistory: [stretched],
  temperatureHistory: [stretched],
  ducts: [
    (rows, n) => Array.from({ length: n }, (_, i) => [number(again(rows, i)[0]) / Math.sqrt(n), again(rows, i)[1]]),
  ],
  tendonsInSection: [
    (rows, n) => Array.from({ length: n }, (_, i) => [number(again(rows, i)[0]) / n, again(rows, i)[1]]),
  ],
  tendonGroups: [columnsOfTendons, besideWideTendon],
  // No more steel than the rows had that were drawn.
  strengthLayers: [
    (rows, n) =>
      Array.from({ length: n }, (_, i) => {
        const [kind, A, ...rest] = again(rows, i);
        return [kind, (number(A) * rows.length) / n, ...rest];
      }),
  ],
  curveStations: [(rows, n) => places(rows, n).map((x) => [x])],
  jackCalibration: [
    (rows, n) => {
      const forces = places(
        rows.map((row) => [row[1]!]),
        n,
      );
      return places(rows, n).map((p, i) => [p, forces[i]!]);
    },
  ],
  stressingStages: [(_, n) => Array.from({ length: n }, (_none, i) => [0.1 + (0.9 * i) / n])],
};

const repeated: Growth = (rows, n) => Array.from({ length: n }, (_, i) => again(rows, i));

/** The ways in which a table's rows become n; where they have an order or a geometry, such that it holds. */
const growthsOf = (table: Table): readonly Growth[] => byKey[table.key] ?? [repeated];

/** The table that a drawn range is. */
function tableOf(table: Table, rows: Rows): Table {
  if (!table.kinds) return table;
  const { points: controlPoints, segments, deviators } = table.kinds.tables;
  if (rows[0]!.length === 5) return segments!;
  return typeof rows[0]![2] === "string" ? controlPoints! : deviators!;
}

const isRange = (argument: Argument): argument is Rows => Array.isArray(argument) && argument.length > 0;

/** The arguments with all their ranges grown to n rows; undefined where there is no range to grow. */
export function withLongRanges(
  f: WorksheetFunction,
  args: readonly Argument[],
  n: number,
): readonly Argument[] | undefined {
  let grown = false;
  const out = f.parameters.map(({ parameter }, i) => {
    const argument = args[i];
    if (parameter.kind !== "table" || !isRange(argument)) return argument;
    grown = true;
    return growthsOf(tableOf(parameter, argument))[0]!(argument, n);
  });
  return grown ? out : undefined;
}

/** Ranges that must have the same rows. */
const together: Readonly<Record<string, readonly string[]>> = {
  measured: ["calculated"],
  calculated: ["measured"],
  stations: ["curvatures", "strains"],
  curvatures: ["stations"],
  strains: ["stations"],
};

/** One range of a function as one of the tables that it may be, grown in one way. */
export interface LongRange {
  readonly name: string;
  readonly mostRows: number;
  /** Rows that a refusal may name: of the range, or of any of several. */
  readonly limits: readonly number[];
  /** The arguments with this range of n rows, the others as they are; undefined where it is blank or another table. */
  readonly grown: (args: readonly Argument[], n: number) => readonly Argument[] | undefined;
}

/** All ranges of a function as long as they may be at once; `n` beyond the rows of the longest makes each too long. */
function allAtOnce({ parameters }: WorksheetFunction): readonly LongRange[] {
  const most = parameters.map(({ parameter }) => (parameter.kind === "table" ? rowsAllowed(parameter) : 0));
  const longest = Math.max(...most);
  if (most.filter((rows) => rows > 0).length < 2) return [];
  return [
    {
      name: "all ranges",
      mostRows: longest,
      limits: most.filter((rows) => rows > 0),
      grown: (args, n) => {
        const ranges = args.filter((argument, i) => most[i]! > 0 && isRange(argument));
        if (ranges.length < 2) return undefined;
        return args.map((argument, i) => {
          const { parameter } = parameters[i]!;
          if (parameter.kind !== "table" || !isRange(argument)) return argument;
          return growthsOf(tableOf(parameter, argument))[0]!(argument, most[i]! + n - longest);
        });
      },
    },
  ];
}

/** Every range of a function, as every table and in every way, and all of them together. */
export function longRangesOf(f: WorksheetFunction): readonly LongRange[] {
  const single = f.parameters.flatMap(({ name, parameter }, at) => {
    if (parameter.kind !== "table") return [];
    const tables = parameter.kinds ? Object.values(parameter.kinds.tables) : [parameter];
    return tables.flatMap((table) =>
      growthsOf(table).map((growth, way, { length }) => ({
        name: `${name}${tables.length > 1 ? ` as ${table.key}` : ""}${length > 1 ? `, way ${way + 1}` : ""}`,
        mostRows: rowsAllowed(table),
        limits: [rowsAllowed(table)],
        grown: (args: readonly Argument[], n: number) => {
          const range = args[at];
          if (!isRange(range) || tableOf(parameter, range).key !== table.key) return undefined;
          return args.map((argument, i) => {
            if (i === at) return growth(argument as Rows, n);
            const other = f.parameters[i]!;
            if (!together[name]?.includes(other.name) || other.parameter.kind !== "table" || !isRange(argument))
              return argument;
            return growthsOf(other.parameter)[0]!(argument, n);
          });
        },
      })),
    );
  });
  return [...single, ...allAtOnce(f)];
}

/** The rows that the shortest of a function's ranges may have. */
export const mostRows = ({ parameters }: WorksheetFunction): number =>
  Math.min(...parameters.flatMap(({ parameter }) => (parameter.kind === "table" ? [rowsAllowed(parameter)] : [])));

/** Functions that take a range of rows. */
export const takesRange = ({ parameters }: WorksheetFunction): boolean =>
  parameters.some(({ parameter }) => parameter.kind === "table");
