import { InputError } from "../../errors.ts";
import { format } from "../../parameters.ts";

export interface Point {
  readonly x: number;
  readonly y: number;
}
export interface Moments {
  readonly A: number;
  readonly y: number;
  readonly I: number;
  readonly u: number;
}

const at = (p: Point): string => `(${format(p.x)}, ${format(p.y)})`;

/** 1 where r lies to the left of the line from p to q, −1 to the right, 0 on it. */
const side = (p: Point, q: Point, r: Point): number => Math.sign((q.x - p.x) * (r.y - p.y) - (r.x - p.x) * (q.y - p.y));
const same = (p: Point, q: Point): boolean => p.x === q.x && p.y === q.y;

/** Do two edges cross at a place that is an end of neither? */
function crosses(a: Point, b: Point, c: Point, d: Point): boolean {
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

/** Is p inside an edge, its ends excepted? */
function onEdge(p: Point, a: Point, b: Point): boolean {
  return side(a, b, p) === 0 && (p.x - a.x) * (p.x - b.x) + (p.y - a.y) * (p.y - b.y) < 0;
}

/** Seen from a point, does a ray lie strictly between two others, going anticlockwise from the first? */
function between(at: Point, first: Point, second: Point, ray: Point): boolean {
  const turn = (p: Point): number => {
    const [x, y] = [first.x - at.x, first.y - at.y];
    const angle = Math.atan2(x * (p.y - at.y) - y * (p.x - at.x), x * (p.x - at.x) + y * (p.y - at.y));
    return angle < 0 ? angle + 2 * Math.PI : angle;
  };
  return turn(ray) > 0 && turn(ray) < turn(second);
}

const edges = (ring: readonly Point[]): readonly (readonly [Point, Point])[] =>
  ring.map((p, i) => [p, ring[(i + 1) % ring.length]!]);

/** The rectangles round the edges of some rings, edge after edge. */
interface Boxes {
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}

function boxesRound(ends: readonly (readonly [Point, Point])[]): Boxes {
  const of = (bound: (a: Point, b: Point) => number) => Float64Array.from(ends, ([a, b]) => bound(a, b));
  return {
    left: of((a, b) => Math.min(a.x, b.x)),
    right: of((a, b) => Math.max(a.x, b.x)),
    low: of((a, b) => Math.min(a.y, b.y)),
    high: of((a, b) => Math.max(a.y, b.y)),
  };
}

/** Calls `visit` for each pair of edges whose extents along one direction have a part in common, until it returns true. */
function sweep(from: Float64Array, to: Float64Array, visit: (i: number, j: number) => boolean): boolean {
  const order = Array.from(from.keys()).sort((i, j) => from[i]! - from[j]!);
  for (let k = 0; k < order.length; k++) {
    const i = order[k]!;
    for (let l = k + 1; l < order.length && from[order[l]!]! <= to[i]!; l++) if (visit(i, order[l]!)) return true;
  }
  return false;
}

/** How many pairs of edges a sweep looks at. */
function sweepCost(from: Float64Array, to: Float64Array): number {
  const sorted = Float64Array.from(from).sort();
  const ends = Float64Array.from(to).sort();
  let pairs = 0;
  // An edge has a part in common with all that begin before it ends, but for those that ended before it began.
  for (let i = 0, begun = 0; i < ends.length; i++) {
    while (begun < sorted.length && sorted[begun]! <= ends[i]!) begun++;
    pairs += begun - i;
  }
  return pairs;
}

/**
 * Calls `visit` for each pair of edges that may have a point in common, until it returns true: the others lie wholly
 * beside, above or below one another.
 */
function near({ left, right, low, high }: Boxes, visit: (i: number, j: number) => boolean): boolean {
  if (sweepCost(left, right) <= sweepCost(low, high))
    return sweep(left, right, (i, j) => low[i]! <= high[j]! && low[j]! <= high[i]! && visit(i, j));
  return sweep(low, high, (i, j) => left[i]! <= right[j]! && left[j]! <= right[i]! && visit(i, j));
}

/** Whether the boundary of a ring crosses itself where points i and j coincide; no edge joins the two. */
function crossesAtPoint(points: readonly Point[], i: number, j: number): boolean {
  const [p, q] = [points[i]!, points[j]!];
  if (!same(p, q)) return false;
  const rays = [points.at(j - 1)!, points[(j + 1) % points.length]!] as const;
  const others = [points.at(i - 1)!, points[(i + 1) % points.length]!] as const;
  if (rays.some((ray) => others.some((other) => same(ray, other)))) return false;
  return between(p, ...others, rays[0]) !== between(p, ...others, rays[1]);
}

/** Does the boundary pass through edge j at point i? */
function passesThrough(points: readonly Point[], i: number, j: number): boolean {
  const q = points[j]!;
  const r = points[j + 1 < points.length ? j + 1 : 0]!;
  if (!onEdge(points[i]!, q, r)) return false;
  return side(q, r, points.at(i - 1)!) * side(q, r, points[(i + 1) % points.length]!) < 0;
}

/** Does edge i of a ring meet edge j, which is no neighbour of it, in the middle of both or at the point where i begins? */
function meets(points: readonly Point[], ends: readonly (readonly [Point, Point])[], i: number, j: number): boolean {
  if (j < i) return passesThrough(points, i, j);
  const [a, b] = ends[i]!;
  const [c, d] = ends[j]!;
  return crosses(a, b, c, d) || passesThrough(points, i, j) || crossesAtPoint(points, i, j);
}

/** Refuses an outline that crosses itself, in the middle of edges or at points. Touching is allowed: a slit joins a void to the outside. */
function refuseCrossing(points: readonly Point[], parameter: string, name: string): void {
  const n = points.length;
  // The first edges in the order of the points are named, whatever the order in which pairs are looked at.
  let [first, second] = [n, n];
  const ends = edges(points);
  const look = (i: number, j: number): void => {
    if ((i < first || (i === first && j < second)) && meets(points, ends, i, j)) [first, second] = [i, j];
  };
  near(boxesRound(ends), (i, j) => {
    if (i === (j + 1) % n || j === (i + 1) % n) return false;
    look(i, j);
    look(j, i);
    return false;
  });
  if (first === n) return;
  const [p, q] = [points[first]!, points[second]!];
  throw new InputError(
    parameter,
    `${name} crosses itself: the edge from point ${first + 1} ${at(p)} meets the edge from point ` +
      `${second + 1} ${at(q)}; points must run round the section in order`,
  );
}

/** Does a point lie inside a polygon or on its edge? */
export function holds(ring: readonly Point[], p: Point): boolean {
  let inside = false;
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i]!;
    const b = ring[i + 1 < ring.length ? i + 1 : 0]!;
    // Most edges lie wholly above or below.
    if ((a.y > p.y && b.y > p.y) || (a.y < p.y && b.y < p.y)) continue;
    if (same(a, p) || onEdge(p, a, b)) return true;
    if (a.y > p.y !== b.y > p.y && p.x < a.x + ((b.x - a.x) * (p.y - a.y)) / (b.y - a.y)) inside = !inside;
  }
  return inside;
}

/** A ring of so few points is compared with another edge by edge sooner than both are sorted. */
const fewPoints = 32;

/** Do the edges of two rings cross? */
function meet(one: readonly Point[], other: readonly Point[]): boolean {
  if (Math.min(one.length, other.length) <= fewPoints) {
    const others = edges(other);
    return edges(one).some(([a, b]) => others.some(([c, d]) => crosses(a, b, c, d)));
  }
  const all = [...edges(one), ...edges(other)];
  return near(boxesRound(all), (i, j) => i < one.length !== j < one.length && crosses(...all[i]!, ...all[j]!));
}

/** The rectangle round a ring. */
interface Box {
  readonly left: number;
  readonly right: number;
  readonly low: number;
  readonly high: number;
}

export function boxRound(ring: readonly Point[]): Box {
  const [x, y] = [ring.map((p) => p.x), ring.map((p) => p.y)];
  return { left: Math.min(...x), right: Math.max(...x), low: Math.min(...y), high: Math.max(...y) };
}

/** Do the rectangles round two rings leave a gap or touch? Then the rings have nothing in common. */
export const apart = (one: Box, other: Box): boolean =>
  one.right <= other.left || other.right <= one.left || one.high <= other.low || other.high <= one.low;

/** Refuses a void that leaves the outline. */
export function refuseOutside(outline: readonly Point[], hollow: readonly Point[], name: string): void {
  const out = hollow.findIndex((p) => !holds(outline, p));
  if (out >= 0)
    throw new InputError(
      "voids",
      `point ${out + 1} of ${name}, ${at(hollow[out]!)}, lies outside the outline; voids must lie inside it`,
    );
  if (meet(outline, hollow)) throw new InputError("voids", `${name} crosses the outline; voids must lie inside it`);
}

/** Refuses two voids that overlap; those whose rectangles are apart do not. */
export function refuseOverlap(one: readonly Point[], other: readonly Point[], names: readonly [string, string]): void {
  if (meet(one, other) || one.every((p) => holds(other, p)) || other.every((p) => holds(one, p)))
    throw new InputError("voids", `${names[0]} and ${names[1]} overlap; each part may be cut out only once`);
}

/** Area, centroid, second moment about the centroid and perimeter of a closed polygon, whichever way round its points run. */
export function polygon(points: readonly Point[], parameter: string, name: string): Moments {
  const n = points.length;
  refuseCrossing(points, parameter, name);
  const origin = points[0]!;
  let doubled = 0;
  let first = 0;
  let second = 0;
  let u = 0;
  points.forEach((p, i) => {
    const next = points[(i + 1) % n]!;
    const y0 = p.y - origin.y;
    const y1 = next.y - origin.y;
    const cross = (p.x - origin.x) * y1 - (next.x - origin.x) * y0;
    doubled += cross;
    first += cross * (y0 + y1);
    second += cross * (y0 * y0 + y0 * y1 + y1 * y1);
    u += Math.hypot(next.x - p.x, next.y - p.y);
  });
  if (doubled === 0) throw new InputError(parameter, `${name} encloses no area; its points must not lie on one line`);
  const A = Math.abs(doubled) / 2;
  const y = first / (3 * doubled);
  return { A, y: y + origin.y, I: Math.abs(second) / 12 - A * y * y, u };
}

/** The second way: trapezia from each edge down to the lowest point. */
export function polygonByTrapezia(points: readonly Point[]): Pick<Moments, "A" | "y" | "I"> {
  const base = Math.min(...points.map((p) => p.y));
  let A = 0;
  let S = 0;
  let J = 0;
  points.forEach((p, i) => {
    const next = points[(i + 1) % points.length]!;
    const w = p.x - next.x;
    const a = p.y - base;
    const b = next.y - base;
    A += (w * (a + b)) / 2;
    S += (w * (a * a + a * b + b * b)) / 6;
    J += (w * (a ** 3 + a * a * b + a * b * b + b ** 3)) / 12;
  });
  const y = S / A;
  return { A: Math.abs(A), y: y + base, I: Math.abs(J - A * y * y) };
}
