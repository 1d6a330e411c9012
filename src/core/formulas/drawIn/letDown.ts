import { zero } from "../tendon/integrate.ts";
import { drawIn, type FallingStress } from "./search.ts";

/** Where a change that starts at the jack ends: the stress and the length affected. */
interface Turned {
  readonly level: number;
  readonly length: number;
}

/** Where the let-down ends: half-way between both stresses at the jack, or at the dead end. */
export function letDown({ stress, length }: FallingStress, sigma_lo: number): Turned {
  const level = (stress(0) + sigma_lo) / 2;
  if (level >= stress(0)) return { level, length: 0 };
  return { level, length: stress(length) >= level ? length : zero((s) => stress(s) - level, 0, length) };
}

/** What letting down gives back at the jack, as a draw-in of the same effect: 2 ∫ max(σ − σ_a, 0) ds / E_p. */
function givenBack(tendon: FallingStress, sigma_lo: number, E_p: number): number {
  const { level, length } = letDown(tendon, sigma_lo);
  return (2 * (tendon.area(length) - length * level)) / E_p;
}

interface LockedOff {
  readonly slip: number;
  readonly E_p: number;
  readonly sigma_lo: number | undefined;
}

/** The draw-in that has the effect of the let-down and the draw-in together. */
export const wholeSlip = (tendon: FallingStress, { slip, E_p, sigma_lo }: LockedOff): number =>
  sigma_lo === undefined ? slip : slip + givenBack(tendon, sigma_lo, E_p);

/** Where draw-in ends, after letting down where there was one: it goes on where the let-down stopped, so both give one draw-in. */
export function lockedOff(tendon: FallingStress, v: LockedOff): Turned {
  if (v.sigma_lo !== undefined && v.slip === 0) return letDown(tendon, v.sigma_lo);
  return drawIn(tendon, wholeSlip(tendon, v), v.E_p);
}
