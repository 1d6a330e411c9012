import type { Way } from "../friction/ways.ts";
import type { End } from "../tendon/controlPoints.ts";
import type { Path } from "../tendon/path.ts";
import type { FallingStress } from "./search.ts";

/** A tendon pulled at one end: the stress after friction from there, and the true length per unit of distance. */
export interface Pulled extends FallingStress {
  readonly stretch: (distance: number) => number;
}

export function pulled({ exponent, length, breaks, stretch }: Path, sigma0: number): Pulled {
  return { stress: (s) => sigma0 * Math.exp(-exponent(s)), length, breaks, stretch };
}

/** Stress after friction along a tendon described in any way, from the end where it is jacked. */
export const pulledAt = (way: Way, values: object, end: End, sigma0: number): Pulled =>
  pulled(way.path(values, end), sigma0);

export const otherEnd = (end: End): End => (end === "LEFT" ? "RIGHT" : "LEFT");

/**
 * λ from an end to a distance a second way: what is left of the whole when the tendon is seen from its other end. Just behind the
 * place, so that an angle at the place itself counts as passed.
 */
export function exponentFromBehind(way: Way, values: object, end: End, distance: number): number {
  const { exponent, length } = way.path(values, otherEnd(end));
  return exponent(length) - exponent(Math.max(length - distance - 1e-12 * length, 0));
}
