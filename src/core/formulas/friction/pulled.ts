import type { FallingStress } from "../drawIn/search.ts";
import type { End } from "../tendon/ends.ts";
import { integralFrom } from "../tendon/integrate.ts";
import type { Path } from "../tendon/path.ts";
import { pathFrom, type Rubbing } from "./alongPath.ts";

/** A tendon pulled at one end: the stress after friction from there, and the true length per unit of distance. */
export interface Pulled extends FallingStress {
  readonly stretch: (distance: number) => number;
}

export function pulled({ exponent, length, breaks, stretch }: Path, sigma0: number): Pulled {
  const stress = (s: number): number => sigma0 * Math.exp(-exponent(s));
  return { stress, length, breaks, area: integralFrom(stress, breaks), stretch };
}

/** Stress after friction along a tendon, from the end where it is jacked. */
export const pulledAt = (v: Rubbing, end: End, sigma0: number): Pulled => pulled(pathFrom(v, end), sigma0);
