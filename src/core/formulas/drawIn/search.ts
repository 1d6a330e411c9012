import { NoResult } from "../../errors.ts";
import { format } from "../../parameters.ts";
import { zero } from "../tendon/integrate.ts";

/** Tendon stress falling from the jack at distance 0 to the dead end at distance `length`. */
export interface FallingStress {
  readonly stress: (distance: number) => number;
  readonly length: number;
  /** Distances between which the stress is smooth, the ends included. */
  readonly breaks: readonly number[];
  /** ∫ σ ds from the jack to a distance. */
  readonly area: (distance: number) => number;
}

/** What the anchorage gives back when the stress turns at the distance reached: twice the area above the turning stress. */
export function setOver({ stress, area }: FallingStress, reach: number): number {
  return 2 * (area(reach) - reach * stress(reach));
}

/** Is a draw-in too small to move a digit of the stress? */
export const isNothing = ({ stress, length }: FallingStress, need: number): boolean =>
  need <= 1e-30 * stress(0) * length;

/**
 * Finds where the draw-in ends and the stress there: 2 ∫ max(σ − σ_a, 0) ds = Δ·E_p.
 * Where the dead end is reached, σ_a lies below the stress after friction there; where a kink stops the draw-in, between the
 * stresses before and behind the kink.
 */
export function drawIn(
  tendon: FallingStress,
  slip: number,
  E_p: number,
): { readonly level: number; readonly length: number } {
  const { stress, area } = tendon;
  const need = slip * E_p;
  if (isNothing(tendon, need)) return { level: stress(0), length: 0 };
  const reaches = need >= setOver(tendon, tendon.length);
  const length = reaches ? tendon.length : zero((s) => setOver(tendon, s) - need, 0, tendon.length);
  // The rule itself, solved for the stress: at a kink the stress at the place reached has two values, and this one lies between.
  const level = area(length) / length - need / (2 * length);
  const left = 2 * level - stress(0);
  if (left <= 0)
    throw new NoResult(
      `a draw-in of ${format(slip)} mm takes all the stress at the anchorage: ${format(left)} MPa would be ` +
        `left of ${format(stress(0))} MPa`,
    );
  return { level, length };
}

/**
 * What errors of the area rule are measured by: Δ·E_p, and for a draw-in too small for the digits of σ·L a
 * hundred-thousandth of that.
 */
export const scale = ({ stress, length }: FallingStress, need: number): number => need + 1e-5 * stress(0) * length;

/** Relative error of the area rule at the stress where the draw-in ends. */
export function levelError(tendon: FallingStress, level: number, slip: number, E_p: number): number {
  const { stress, length, area } = tendon;
  const need = slip * E_p;
  const end = stress(length) >= level ? length : zero((s) => stress(s) - level, 0, length);
  return (2 * (area(end) - end * level) - need) / scale(tendon, need);
}

/** By how much the area rule is missed just before and just behind the place where the draw-in ends, relative. */
export function lengthError(tendon: FallingStress, reach: number, slip: number, E_p: number): number {
  const need = slip * E_p;
  const step = 1e-9 * tendon.length;
  const tooMuch = setOver(tendon, Math.max(reach - step, 0)) - need;
  const tooLittle = reach + step >= tendon.length ? 0 : need - setOver(tendon, reach + step);
  return Math.max(tooMuch, tooLittle, 0) / scale(tendon, need);
}
