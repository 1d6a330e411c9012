import { NoResult } from "../../errors.ts";
import { format } from "../../parameters.ts";
import { integrate, zero } from "../tendon/integrate.ts";

/** Tendon stress falling from the jack at distance 0 to the dead end at distance `length`. */
export interface FallingStress {
  readonly stress: (distance: number) => number;
  readonly length: number;
  /** Distances between which the stress is smooth. */
  readonly breaks: readonly number[];
}

/** What the anchorage gives back when the stress turns at the distance reached: twice the area above the turning stress. */
function setOver({ stress, breaks }: FallingStress, reach: number): number {
  return 2 * integrate((s) => stress(s) - stress(reach), 0, reach, breaks);
}

/**
 * Finds where the draw-in ends and the stress there: 2 ∫ max(σ − σ_a, 0) ds = Δ·E_p.
 * Where the dead end is reached, σ_a lies below the stress after friction there.
 */
export function drawIn(tendon: FallingStress, slip: number, E_p: number): { readonly level: number; readonly length: number } {
  const need = slip * E_p;
  const whole = setOver(tendon, tendon.length);
  const dead = tendon.stress(tendon.length);
  const reaches = need >= whole;
  const length = need === 0 ? 0 : reaches ? tendon.length : zero((s) => setOver(tendon, s) - need, 0, tendon.length);
  const level = reaches && need > 0 ? dead - (need - whole) / (2 * tendon.length) : tendon.stress(length);
  const left = 2 * level - tendon.stress(0);
  if (left <= 0) throw new NoResult(`a draw-in of ${format(slip)} mm takes all the stress at the anchorage (${format(left)} MPa would be left)`);
  return { level, length };
}

/** Relative error of the area rule at a turning stress. */
export function residual({ stress, length, breaks }: FallingStress, level: number, slip: number, E_p: number): number {
  if (slip === 0) return level / stress(0) - 1;
  const end = stress(length) >= level ? length : zero((s) => stress(s) - level, 0, length);
  return (2 * integrate((s) => stress(s) - level, 0, end, breaks)) / (slip * E_p) - 1;
}
