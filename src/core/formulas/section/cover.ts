import { InputError } from "../../errors.ts";
import { stepwise } from "../../formula.ts";
import { as, format, orBlank, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { outline } from "./outline.ts";
import { holds, polygon, type Point } from "./polygon.ts";

const groups = table({
  key: "tendonGroups",
  symbol: "tendons",
  text: "tendons in the section, a row for each or for equal ones side by side",
  columns: {
    d: as(q.embeddedDiameter, { text: "diameter of duct, strand or wire", min: 0 }),
    y: as(q.heightAboveSoffit, { text: "height of the centre" }),
    z: as(q.lateralOffset, { text: "horizontal coordinate of the middle of the row" }),
    n: as(q.strandCount, { symbol: "n", text: "number side by side", typical: [1, 12] }),
    s: q.sideSpacing,
  },
  minRows: 1,
  maxRows: 500,
});
/** Single tendons of all rows together. */
const mostTendons = 2000;
interface Group {
  readonly d: number;
  readonly y: number;
  readonly z: number;
  readonly n: number;
  readonly s: number;
}
const groupNumber = orBlank(as(q.rank, { symbol: "row", text: "row of the tendons asked about" }), "all of them");
interface Circle {
  readonly d: number;
  readonly y: number;
  readonly z: number;
}

/** Every tendon by itself; refuses several in one place. */
function circles(rows: readonly Group[]): readonly Circle[] {
  const count = rows.reduce((sum, { n }) => sum + n, 0);
  if (count > mostTendons)
    throw new InputError(
      "tendons",
      `the rows of tendons hold ${count} of them; at most ${mostTendons} are allowed: split them into groups that lie apart`,
    );
  return rows.flatMap(({ d, y, z, n, s }, row) => {
    if (n > 1 && s === 0)
      throw new InputError(
        "tendons",
        `row ${row + 1} has ${format(n)} tendons side by side and a spacing of 0 mm; their centre spacing must be above 0 mm`,
      );
    return Array.from({ length: n }, (_, i) => ({ d, y, z: z + (i - (n - 1) / 2) * s }));
  });
}

/** The row asked about, or all. */
function askedAbout(rows: readonly Group[], row: number | undefined): readonly Group[] {
  if (row === undefined) return rows;
  const one = rows[row - 1];
  if (!one)
    throw new InputError(
      "row",
      `row = ${format(row)} is not one of the tendons; allowed: 1 to ${format(rows.length)}, or nothing for all`,
    );
  return [one];
}

/** Square of the distance of a place from the place at a part of an edge. */
function squareTo(p: Point, a: Point, b: Point, u: number): number {
  const x = p.x - a.x - u * (b.x - a.x);
  const y = p.y - a.y - u * (b.y - a.y);
  return x * x + y * y;
}

/** Square of the distance of a place from an edge: roots are slow, and one of the smallest will do. */
function squareFromEdge(p: Point, a: Point, b: Point): number {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const length = dx * dx + dy * dy;
  const u = length === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / length));
  return squareTo(p, a, b, u);
}

/** Edges that are a surface of the concrete: a slit is run there and back. */
function surface(points: readonly Point[]): readonly (readonly [Point, Point])[] {
  const edges = points.map((p, i) => [p, points[(i + 1) % points.length]!] as const);
  const key = (from: Point, to: Point): string => `${from.x} ${from.y} ${to.x} ${to.y}`;
  const all = new Set(edges.map(([a, b]) => key(a, b)));
  return edges.filter(([a, b]) => !all.has(key(b, a)));
}

function coverOf(points: readonly Point[], surfaces: ReturnType<typeof surface>, { d, y, z }: Circle): number {
  const p = { x: z, y };
  let square = Infinity;
  for (const [a, b] of surfaces) square = Math.min(square, squareFromEdge(p, a, b));
  const distance = Math.sqrt(square);
  return (holds(points, p) ? distance : -distance) - d / 2;
}

/** How much concrete lies between the tendons and the surface? */
const tendonCover = stepwise({
  id: "TENDON_COVER",
  family: "section",
  summary: "Min. concrete cover of the tendons in a section given point by point",
  notes: [
    "From the outside of duct or strand to the nearest surface of the concrete, at the sides too. Negative where one lies outside.",
    "A void is joined to the outside by a slit, which counts as no surface.",
  ],
  source: mechanics,
  params: { outline, tendons: groups, row: groupNumber },
  result: as(q.cover, { symbol: "c_min" }),
  steps: {
    c: { symbol: "c_min", unit: "mm", governing: "c = \\min_i\\left(\\text{distance to the surface} - d_i/2\\right)" },
  },
  compute: ({ outline: points, tendons, row }) => {
    polygon(points, "outline", "the outline");
    const surfaces = surface(points);
    return { c: Math.min(...circles(askedAbout(tendons, row)).map((circle) => coverOf(points, surfaces, circle))) };
  },
  /**
   * The circle as far out as the cover touches the surface: sampled round it, no point leaves the concrete by more than
   * rounding, one is on it.
   */
  proof: ({ outline: points, tendons, row }, { c }) => {
    const surfaces = surface(points);
    const gaps = circles(askedAbout(tendons, row)).map(({ d, y, z }) => {
      const p = { x: z, y };
      const nearest = Math.sqrt(
        Math.min(
          ...surfaces.map(([a, b]) =>
            squareTo(
              p,
              a,
              b,
              lowestOf((u) => squareTo(p, a, b, u)),
            ),
          ),
        ),
      );
      return (holds(points, p) ? nearest : -nearest) - d / 2;
    });
    return (c - Math.min(...gaps)) / (1 + Math.abs(c) + Math.max(...tendons.map(({ d }) => d)));
  },
  unpublished: "Geometry; tests compare it with rectangles.",
});

/** Where a convex function of 0 to 1 is smallest. */
function lowestOf(f: (u: number) => number): number {
  let low = 0;
  let high = 1;
  for (let i = 0; i < 100; i++) {
    const a = low + (high - low) / 3;
    const b = high - (high - low) / 3;
    if (f(a) <= f(b)) high = b;
    else low = a;
  }
  return (low + high) / 2;
}

const limit = (symbol: string, text: string) => as(q.clearDistance, { symbol, text });

/** Limit over clear distance of two tendons: clear beside each other, above each other, or slantwise by the larger limit. */
function pairUtilisation(one: Circle, other: Circle, a_h: number, a_v: number): number {
  const touch = (one.d + other.d) / 2;
  const part = (needed: number, distance: number): number =>
    distance > touch ? needed / (distance - touch) : Infinity;
  const [dz, dy] = [Math.abs(one.z - other.z), Math.abs(one.y - other.y)];
  return Math.min(part(a_h, dz), part(a_v, dy), part(Math.max(a_h, a_v), Math.sqrt(dz * dz + dy * dy)));
}

/**
 * The largest utilisation of all pairs. By height, so that a tendon is compared only with those that may lie closer than
 * the closest pair so far.
 */
function closestPair(tendons: readonly Circle[], a_h: number, a_v: number): number {
  const byHeight = [...tendons].sort((one, other) => one.y - other.y || one.z - other.z);
  const widest = Math.max(...tendons.map(({ d }) => d));
  let u = 0;
  const hasRoom = (needed: number, distance: number, touch: number): boolean =>
    distance > touch && needed <= u * (distance - touch);
  byHeight.forEach((one, i) => {
    for (let j = i + 1; j < byHeight.length && u < Infinity; j++) {
      const other = byHeight[j]!;
      // Those that follow lie higher still.
      if (hasRoom(a_v, other.y - one.y, (one.d + widest) / 2)) break;
      if (hasRoom(a_h, Math.abs(one.z - other.z), (one.d + other.d) / 2)) continue;
      u = Math.max(u, pairUtilisation(one, other, a_h, a_v));
    }
  });
  return u;
}

/** Is there room for the concrete between the tendons? */
const tendonSpacingUtilisation = stepwise({
  id: "TENDON_SPACING_UTILISATION",
  family: "section",
  summary: "Utilisation of the clear spacing of tendons: limit over clear distance of the closest pair",
  notes: [
    "A pair has room where it is clear horizontally by a_h, or vertically by a_v, or slantwise by the " +
      "larger of both; the most favourable counts.",
    "Tendons that touch or overlap give 1000. One tendon alone gives 0.",
  ],
  source: mechanics,
  params: {
    tendons: groups,
    a_h: limit("a_h", "min. horizontal clear spacing"),
    a_v: limit("a_v", "min. vertical clear spacing"),
  },
  result: q.utilisation,
  steps: {
    u: {
      symbol: "u",
      unit: "–",
      governing: "u = \\max_{pairs}\\min\\left(\\frac{a_h}{c_h}, \\frac{a_v}{c_v}, \\frac{\\max(a_h, a_v)}{c}\\right)",
    },
  },
  compute: ({ tendons, a_h, a_v }) => ({ u: Math.min(closestPair(circles(tendons), a_h, a_v), 1000) }),
  /** At u times less room asked for every pair has it; at a little more than that one has not. */
  proof: ({ tendons, a_h, a_v }, { u }) => {
    const all = circles(tendons);
    const fits = (factor: number): boolean =>
      all.every((one, i) =>
        all.slice(i + 1).every((other) => pairUtilisation(one, other, a_h * factor, a_v * factor) <= 1),
      );
    if (all.length === 1) return u;
    if (u === 1000) return fits(1 / 999) ? 1 : 0;
    return fits((1 - 1e-9) / u) && !fits((1 + 1e-9) / u) ? 0 : 1;
  },
  unpublished: "Geometry; tests compare it with a grid of ducts.",
});

export const coverFormulas = [tendonCover, tendonSpacingUtilisation];
