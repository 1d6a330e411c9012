import { NoResult } from "../../errors.ts";
import { namesOf, type HalfPlane, type Point } from "./halfPlane.ts";

/** An end of what is left of a line through the plane, and the half-plane that ends it. */
export interface End {
  readonly at: number;
  readonly by: HalfPlane;
}
export interface Interval {
  readonly low: End;
  readonly high: End;
  /** A half-plane parallel to the line that leaves nothing of it. */
  readonly outside?: HalfPlane;
}

/** What half-planes leave of a line: along e at a given u, or along u at a given e. Bounds among them close it. */
function along(
  planes: readonly HalfPlane[],
  coefficients: (plane: HalfPlane) => readonly [slope: number, constant: number],
): Interval {
  let low: End | undefined, high: End | undefined, outside: HalfPlane | undefined;
  for (const by of planes) {
    const [slope, constant] = coefficients(by);
    const at = -constant / slope;
    if (slope > 0 && (!low || at > low.at)) low = { at, by };
    if (slope < 0 && (!high || at < high.at)) high = { at, by };
    if (slope === 0 && constant < 0) outside = by;
  }
  return { low: low!, high: high!, ...(outside && { outside }) };
}

export const alongEccentricity = (planes: readonly HalfPlane[], u: number): Interval =>
  along(planes, ({ a, b, c }) => [b, a * u + c]);
export const alongReciprocal = (planes: readonly HalfPlane[], e: number): Interval =>
  along(planes, ({ a, b, c }) => [a, b * e + c]);

/** The interval, or why there is none. */
export function required(interval: Interval, what: string): Interval {
  const { low, high, outside } = interval;
  if (outside) throw new NoResult(`${what}: ${outside.name} is passed whatever else is chosen`);
  if (low.at > high.at) throw new NoResult(`${what}: ${namesOf([low.by, high.by])} exclude each other`);
  return interval;
}

/**
 * 0 where a point lies on the edge of the half-planes that end a line on one side, and in all the others.
 * `ends` picks the half-planes of that side.
 */
export function offEdge(
  planes: readonly HalfPlane[],
  point: Point,
  ends: (plane: HalfPlane) => boolean,
  relative: (plane: HalfPlane, point: Point) => number,
): number {
  const least = (some: readonly HalfPlane[]): number => Math.min(...some.map((plane) => relative(plane, point)));
  const others = planes.filter((plane) => !ends(plane));
  return least(planes.filter(ends)) + Math.min(0, others.length > 0 ? least(others) + 1e-12 : 0);
}
