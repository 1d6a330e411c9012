import { format } from "../../parameters.ts";

/** a·u + b·e + c ≥ 0 over u = 1/P in 1/N and e in mm. */
export interface HalfPlane {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  /** The row it comes from; 0 for a bound. */
  readonly condition: number;
  /** How a message calls it. */
  readonly name: string;
}
export interface Point {
  readonly u: number;
  readonly e: number;
}

/** Positive inside; times P it is the distance of the stress from its limit, in MPa. */
export const slack = ({ a, b, c }: HalfPlane, { u, e }: Point): number => a * u + b * e + c;

/** The slack over the sizes of its terms: what rounding leaves of it is about 1e-16. */
export function relativeSlack(plane: HalfPlane, point: Point): number {
  const size = Math.abs(plane.a * point.u) + Math.abs(plane.b * point.e) + Math.abs(plane.c);
  return size === 0 ? 0 : slack(plane, point) / size;
}

/** The room for the tendon in the section. */
export const eccentricityBounds = (e_min: number, e_max: number): readonly HalfPlane[] => [
  { a: 0, b: 1, c: -e_min, condition: 0, name: `the bound e ≥ ${format(e_min)} mm` },
  { a: 0, b: -1, c: e_max, condition: 0, name: `the bound e ≤ ${format(e_max)} mm` },
];

/** The forces to consider: without them the region may reach to no force at all. */
export const forceBounds = (P_min: number, P_max: number): readonly HalfPlane[] => [
  { a: -1, b: 0, c: 1 / P_min, condition: 0, name: `the bound P ≥ ${format(P_min / 1000)} kN` },
  { a: 1, b: 0, c: -1 / P_max, condition: 0, name: `the bound P ≤ ${format(P_max / 1000)} kN` },
];

/** "a, b and c": half-planes in a message. */
export function namesOf(planes: readonly HalfPlane[]): string {
  const names = planes.map(({ name }) => name);
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)!}`;
}
