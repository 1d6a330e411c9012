import { NoResult } from "../../errors.ts";
import { format } from "../../parameters.ts";
import { drawIn, isNothing, setOver, type FallingStress } from "../drawIn/search.ts";
import { pulled, type Pulled } from "../friction/pulled.ts";
import { countedFrom, otherEnd, type End } from "../tendon/ends.ts";
import { integralFrom, zero } from "../tendon/integrate.ts";
import type { Paths } from "../tendon/path.ts";
import { nullPoint, type NullPoint } from "./meeting.ts";

/** A number for each end. */
export type Ends = Readonly<Record<End, number>>;

/** A tendon jacked from both ends: what each jack brings, and the point where they meet. Distances of an end are counted from it. */
export interface Jacked {
  readonly at: Readonly<Record<End, Pulled>>;
  readonly length: number;
  readonly nullPoint: NullPoint;
  /** Distance of the null point from each end. */
  readonly own: Ends;
  /** The part of the tendon that each jack has pulled, from the jack to the null point. */
  readonly part: Readonly<Record<End, FallingStress>>;
}

export function jacked(paths: Paths, sigma: Ends): Jacked {
  const at = { LEFT: pulled(paths.LEFT, sigma.LEFT), RIGHT: pulled(paths.RIGHT, sigma.RIGHT) };
  const { length } = paths.LEFT;
  const point = nullPoint(paths, sigma.LEFT, sigma.RIGHT);
  const own = { LEFT: point.x, RIGHT: length - point.x };
  const part = (end: End): FallingStress => {
    // A kink that holds the null point has the null point's stress behind it, not the full step.
    const stress = (s: number): number => Math.max(at[end].stress(s), point.stress);
    const breaks = [...at[end].breaks.filter((b) => b < own[end]), own[end]];
    return { stress, length: own[end], breaks, area: integralFrom(stress, breaks) };
  };
  return { at, length, nullPoint: point, own, part: { LEFT: part("LEFT"), RIGHT: part("RIGHT") } };
}

/** Stress after friction at x: the greater of what the two jacks bring. */
export function before({ at, length }: Jacked, x: number): number {
  return Math.max(at.LEFT.stress(x), at.RIGHT.stress(length - x));
}

/**
 * The stress that the draw-in of one end allows at x. On its own side of the null point the stress is mirrored about
 * σ_a. Once σ_a has sunk below the stress at the null point the tendon goes on moving beyond it the way the other jack
 * pulled it, so that the stress there only sinks, by twice the difference.
 */
export function turned(
  { part, length, own, nullPoint: { stress } }: Jacked,
  end: End,
  level: number,
  x: number,
): number {
  const s = countedFrom(length, end, x);
  return s < own[end] ? 2 * level - part[end].stress(s) : part[otherEnd(end)].stress(length - s) + 2 * (level - stress);
}

/** Stress at x after the draw-in of both ends, by the stresses σ_a at which they end. */
export function after(j: Jacked, level: Ends, x: number): number {
  return Math.min(before(j, x), turned(j, "LEFT", level.LEFT, x), turned(j, "RIGHT", level.RIGHT, x));
}

/** Where the draw-ins of both ends come to rest: the stress σ_a of each, and the length it affects. */
interface Seated {
  readonly level: Ends;
  readonly reach: Ends;
  /** Whether one of them passes the null point. */
  readonly meet: boolean;
}

/** Area an end can give before its draw-in passes the null point. */
export function capacity(j: Jacked, end: End): number {
  const { area, length } = j.part[end];
  return 2 * (area(length) - length * j.nullPoint.stress);
}

/**
 * The end whose draw-in passes the null point takes the tendon with it up to the place u (from the other end) where the stress is
 * highest and nothing moves. Both area rules hold on either side of u, and both give the stress at u: this difference is zero there.
 */
export function excess(j: Jacked, near: End, need: Ends, u: number, rest = j.length - u): number {
  const far = otherEnd(near);
  return setOver(j.at[far], u) - need[far] + (u * (need[near] - capacity(j, near))) / rest;
}

/** That place, from the far end and from the near end, each with all its digits: it is sought from the end it lies closer to. */
function placeOfRest(j: Jacked, near: End, need: Ends): { readonly u: number; readonly rest: number } {
  const [far, half] = [otherEnd(near), j.length / 2];
  if (need[far] === 0) return { u: 0, rest: j.length };
  if (j.own[far] <= half || excess(j, near, need, half) >= 0) {
    const u = zero((s) => excess(j, near, need, s), 0, Math.min(j.own[far], half));
    return { u, rest: j.length - u };
  }
  const rest = zero((s) => excess(j, near, need, j.length - s, s), j.length - j.own[far], half);
  return { u: j.length - rest, rest };
}

function meeting(j: Jacked, near: End, need: Ends): Seated {
  const far = otherEnd(near);
  const { stress, area } = j.part[far];
  const { u, rest } = placeOfRest(j, near, need);
  const below = (need[near] - capacity(j, near)) / (2 * rest);
  const a_near = j.nullPoint.stress - below;
  const a_far = u === 0 ? stress(0) - below : area(u) / u - need[far] / (2 * u);
  const both = (n: number, f: number): Ends => (near === "LEFT" ? { LEFT: n, RIGHT: f } : { LEFT: f, RIGHT: n });
  return { level: both(a_near, a_far), reach: both(rest, u), meet: true };
}

function apart(j: Jacked, slip: Ends, E_p: number): Seated {
  const of = (end: End): { readonly level: number; readonly length: number } =>
    isNothing(j.at[end], slip[end] * E_p)
      ? { level: j.part[end].length === 0 ? j.nullPoint.stress : j.part[end].stress(0), length: 0 }
      : drawIn(j.part[end], slip[end], E_p);
  const [l, r] = [of("LEFT"), of("RIGHT")];
  return { level: { LEFT: l.level, RIGHT: r.level }, reach: { LEFT: l.length, RIGHT: r.length }, meet: false };
}

/** Both anchorages let go; neither jack goes on pulling. */
export function seated(j: Jacked, slip: Ends, E_p: number): Seated {
  const of = (end: End): number => (isNothing(j.at[end], slip[end] * E_p) ? 0 : slip[end] * E_p);
  const need = { LEFT: of("LEFT"), RIGHT: of("RIGHT") };
  const over = { LEFT: need.LEFT > capacity(j, "LEFT"), RIGHT: need.RIGHT > capacity(j, "RIGHT") };
  if (!over.LEFT && !over.RIGHT) return apart(j, slip, E_p);
  // Which end passes: the one for which the place of rest lies on the far side of the null point.
  const near =
    over.LEFT && (!over.RIGHT || j.own.LEFT === 0 || excess(j, "LEFT", need, j.own.RIGHT) >= 0) ? "LEFT" : "RIGHT";
  const found = meeting(j, near, need);
  for (const [end, x] of [
    ["LEFT", 0],
    ["RIGHT", j.length],
  ] as const) {
    const rest = after(j, found.level, x);
    if (rest <= 0)
      throw new NoResult(
        `draw-ins of ${format(slip.LEFT)} mm and ${format(slip.RIGHT)} mm take all the stress at the ` +
          `${end.toLowerCase()} anchorage: ${format(rest)} MPa would be left of ${format(before(j, x))} MPa`,
      );
  }
  return found;
}
