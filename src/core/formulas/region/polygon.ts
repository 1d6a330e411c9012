import { NoResult } from "../../errors.ts";
import { namesOf, slack, type HalfPlane, type Point } from "./halfPlane.ts";

/** A corner and the half-plane on whose edge the outline leaves it. */
interface Corner extends Point {
  readonly edge: HalfPlane;
}

/** Below this part of its terms a slack is what rounding left. */
const rounding = 1e-13;

function side(plane: HalfPlane, point: Point): number {
  const value = slack(plane, point);
  return Math.abs(value) <= rounding * (Math.abs(plane.a * point.u) + Math.abs(plane.b * point.e) + Math.abs(plane.c))
    ? 0
    : value;
}

/** Where two edges meet. */
function meeting(one: HalfPlane, other: HalfPlane): Point {
  const det = one.a * other.b - other.a * one.b;
  return { u: (one.b * other.c - other.b * one.c) / det, e: (other.a * one.c - one.a * other.c) / det };
}

/** What a half-plane leaves of a convex outline. Corners are computed anew from their two edges, so that errors do not add up. */
function clip(corners: readonly Corner[], plane: HalfPlane): readonly Corner[] {
  const sides = corners.map((corner) => side(plane, corner));
  if (sides.every((s) => s >= 0)) return corners;
  return corners.flatMap((corner, i) => {
    const [here, next] = [sides[i]!, sides[(i + 1) % corners.length]!];
    if (here === 0) return [next < 0 ? { ...corner, edge: plane } : corner];
    if (here > 0) return next < 0 ? [corner, { ...meeting(corner.edge, plane), edge: plane }] : [corner];
    return next > 0 ? [{ ...meeting(corner.edge, plane), edge: corner.edge }] : [];
  });
}

/** Corners that rounding alone keeps apart are one. */
function distinct(corners: readonly Corner[]): readonly Corner[] {
  const reach = Math.max(...corners.map(({ e }) => Math.abs(e)));
  return corners.filter((corner, i) => {
    const next = corners[(i + 1) % corners.length]!;
    return Math.abs(corner.u - next.u) > 1e-11 * next.u || Math.abs(corner.e - next.e) > 1e-11 * reach;
  });
}

/** The four bounds as an outline: e to the right, u upward, against the clock. */
function box(bounds: Bounds): readonly Corner[] {
  const [right, left] = [bounds.e[1], bounds.e[0]];
  const [top, bottom] = bounds.u;
  return [
    { ...meeting(bottom, left), edge: bottom },
    { ...meeting(bottom, right), edge: right },
    { ...meeting(top, right), edge: top },
    { ...meeting(top, left), edge: left },
  ];
}

export interface Bounds {
  /** e ≥ and e ≤. */
  readonly e: readonly [HalfPlane, HalfPlane];
  /** u ≤ and u ≥. */
  readonly u: readonly [HalfPlane, HalfPlane];
}

/** What is left of the bounds; fewer than three corners where that is nothing. */
export const outline = (planes: readonly HalfPlane[], bounds: Bounds): readonly Corner[] =>
  distinct(planes.reduce(clip, box(bounds)));

const far: Bounds = {
  e: [
    { a: 0, b: 1, c: 1e7, condition: 0, name: "" },
    { a: 0, b: -1, c: 1e7, condition: 0, name: "" },
  ],
  u: [
    { a: -1, b: 0, c: 1e3, condition: 0, name: "" },
    { a: 1, b: 0, c: -1e-15, condition: 0, name: "" },
  ],
};

/** Of half-planes that leave nothing, a few that already do: each that can be spared is left out. */
function conflict(planes: readonly HalfPlane[]): readonly HalfPlane[] {
  const leaveNothing = (some: readonly HalfPlane[]): boolean => outline(some, far).length < 3;
  const kept: HalfPlane[] = [];
  let from = 0;
  while (!leaveNothing(kept)) {
    // The last one that can't be spared yet: with it and those after it nothing is left, without it something is.
    let [low, high] = [from, planes.length];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (leaveNothing([...kept, ...planes.slice(middle)])) low = middle;
      else high = middle;
    }
    if (low >= planes.length) break;
    kept.push(planes[low]!);
    from = low + 1;
  }
  return kept;
}

/** The corners of the region, against the clock with e to the right and u upward, from the one of the least force on. */
export function region(planes: readonly HalfPlane[], bounds: Bounds): readonly Point[] {
  const corners = outline(planes, bounds);
  if (corners.length < 3) {
    const few = conflict([...planes, ...bounds.e, ...bounds.u]);
    // By Helly's theorem three half-planes suffice where nothing at all is left.
    throw new NoResult(
      few.length <= 3
        ? `no force and eccentricity keep the limits of all conditions: ${namesOf(few)} exclude each other`
        : "the limits of the conditions leave no more than a line or a point of force and eccentricity",
    );
  }
  const top = Math.max(...corners.map(({ u }) => u));
  const start = corners.reduce(
    (best, { u, e }, i) => (u >= top * (1 - 1e-11) && (best < 0 || e > corners[best]!.e) ? i : best),
    -1,
  );
  return [...corners.slice(start), ...corners.slice(0, start)].map(({ u, e }) => ({ u, e }));
}

/** The second way: of all points where two edges meet, those that no half-plane excludes; `width` is that of the room for e. */
export function cornersByPairs(planes: readonly HalfPlane[], width: number): readonly Point[] {
  const tolerance = 1e-11;
  const inside = (point: Point): boolean =>
    planes.every(
      (plane) =>
        slack(plane, point) >=
        -tolerance * (Math.abs(plane.a * point.u) + Math.abs(plane.b * point.e) + Math.abs(plane.c)),
    );
  const same = (one: Point, other: Point): boolean =>
    Math.abs(one.u - other.u) <= 1e-9 * one.u &&
    Math.abs(one.e - other.e) <= Math.max(1e-9 * width, 1e-12 * Math.abs(one.e));
  const found: Point[] = [];
  planes.forEach((one, i) => {
    for (const other of planes.slice(0, i)) {
      const point = meeting(one, other);
      if (
        Number.isFinite(point.u) &&
        Number.isFinite(point.e) &&
        inside(point) &&
        !found.some((other) => same(other, point))
      )
        found.push(point);
    }
  });
  return found;
}
