import type { Paths } from "../tendon/path.ts";
import { zero } from "../tendon/integrate.ts";

/** Where the stresses that two jacks bring to a tendon meet. In mm from the left end, and MPa. */
export interface NullPoint {
  readonly x: number;
  /** The stress there; in the middle of a kink that holds the null point. */
  readonly stress: number;
}

/**
 * λ at the null point follows from both lines at once: σ_l e^−λ = σ_r e^−(Λ − λ). Where the lines lie on each other
 * over a length, its middle. Where one jack brings more to the other end than the jack there holds, that end.
 */
export function nullPoint({ LEFT: { exponent, length } }: Paths, sigma_l: number, sigma_r: number): NullPoint {
  const whole = exponent(length);
  const lambda = (whole + Math.log(sigma_l / sigma_r)) / 2;
  // Wide enough for the digits of λ; on a tendon that loses anything per metre it moves nothing.
  const slack = 1e-13 * (1 + whole);
  const first = passes(exponent, lambda - slack, length);
  const last = passes(exponent, lambda + slack, length);
  const stress = lambda < 0 ? sigma_r * Math.exp(-whole) : sigma_l * Math.exp(-Math.min(lambda, whole));
  return { x: (first + last) / 2, stress };
}

/** Where a rising exponent passes a value; an end of the tendon where it does not. */
function passes(exponent: (s: number) => number, value: number, length: number): number {
  if (exponent(0) > value) return 0;
  if (exponent(length) <= value) return length;
  return zero((s) => (exponent(s) > value ? 1 : -1), 0, length);
}
