import { scale } from "../drawIn/search.ts";
import { exponentFromBehind, type Rubbing } from "../friction/alongPath.ts";
import { countedFrom, otherEnd, type End } from "../tendon/ends.ts";
import { integrate, zero } from "../tendon/integrate.ts";
import { after, before, capacity, excess, seated, turned, type Ends, type Jacked } from "./bothEnds.ts";

/** A zero of a rising function, or the end beyond which it lies. */
function rest(f: (x: number) => number, length: number): number {
  if (f(0) >= 0) return 0;
  return f(length) <= 0 ? length : zero(f, 0, length);
}

/**
 * Places at which the stress after draw-in has a corner, and the stretch in which the place of rest between both
 * draw-ins lies: without friction it has a length.
 */
export function corners(
  j: Jacked,
  level: Ends,
): { readonly breaks: readonly number[]; readonly rest: readonly [number, number] } {
  const gap = (x: number): number => turned(j, "LEFT", level.LEFT, x) - turned(j, "RIGHT", level.RIGHT, x);
  const slack = 1e-12 * j.at.LEFT.stress(0);
  const middle = [rest((x) => gap(x) + slack, j.length), rest((x) => gap(x) - slack, j.length)] as const;
  const reach = (end: End): number => {
    const { stress, length } = j.part[end];
    return countedFrom(
      j.length,
      end,
      rest((s) => level[end] - stress(s), length),
    );
  };
  const right = j.at.RIGHT.breaks.map((b) => j.length - b);
  return {
    breaks: [...j.at.LEFT.breaks, ...right, j.nullPoint.x, ...middle, reach("LEFT"), reach("RIGHT")].sort(
      (a, b) => a - b,
    ),
    rest: middle,
  };
}

/** By how much the area rules are missed, relative: both together, and that of the left end up to the place of rest. */
export function areaError(j: Jacked, level: Ends, slip: Ends, E_p: number): number {
  const {
    breaks,
    rest: [first, last],
  } = corners(j, level);
  const lost = (b: number): number => integrate((x) => before(j, x) - after(j, level, x), 0, b, breaks);
  const need = slip.LEFT * E_p;
  const both = scale(j.at.LEFT, (slip.LEFT + slip.RIGHT) * E_p);
  return Math.max(
    Math.abs(lost(j.length) - (slip.LEFT + slip.RIGHT) * E_p) / both,
    (lost(first) - need) / both,
    (need - lost(last)) / both,
  );
}

/** By how much the place where a draw-in ends is missed, relative: the area rule just before and just behind it. */
export function reachError(j: Jacked, end: End, reach: number, slip: Ends, E_p: number): number {
  const need = { LEFT: slip.LEFT * E_p, RIGHT: slip.RIGHT * E_p };
  const found = seated(j, slip, E_p);
  const step = 1e-9 * j.length;
  const sign = (f: (s: number) => number, from: number, to: number): number =>
    reach > to + step
      ? Infinity
      : Math.max(f(Math.max(reach - step, from)), reach + step >= to ? 0 : -f(reach + step), 0);
  const own = scale(j.at[end], need[end]);
  if (!found.meet) {
    const { stress, area, length } = j.part[end];
    return sign((s) => 2 * (area(s) - s * stress(s)) - need[end], 0, length) / own;
  }
  // Seen from the end whose draw-in does not pass the null point, the rest lies where the stresses of both sides agree.
  const near =
    found.reach.LEFT > j.own.LEFT || (found.reach.LEFT === j.own.LEFT && need.LEFT > capacity(j, "LEFT"))
      ? "LEFT"
      : "RIGHT";
  const rests = (u: number): number => excess(j, near, need, u);
  return (
    (end === near ? sign((s) => -rests(j.length - s), 0, j.length) : sign(rests, 0, j.own[otherEnd(near)])) /
    scale(j.at[otherEnd(near)], need[otherEnd(near)] + need[near])
  );
}

/** Stress after friction at x a second way: each tendon seen from its far end. */
export function frictionAgain(v: Rubbing, sigma: Ends, x: number, length: number): Ends {
  const of = (end: End): number => sigma[end] * Math.exp(-exponentFromBehind(v, end, countedFrom(length, end, x)));
  return { LEFT: of("LEFT"), RIGHT: of("RIGHT") };
}

/**
 * How far a point is from being the null point: the stress of each jack just before and just behind it, and, where both
 * lie on each other, its distance from the middle.
 */
export function nullPointError(j: Jacked, x: number): number {
  const step = 1e-9 * j.length;
  const gap = (at: number): number => (j.at.LEFT.stress(at) - j.at.RIGHT.stress(j.length - at)) / j.at.LEFT.stress(0);
  const [left, right] = [x - step <= 0 ? 0 : -gap(x - step), x + step >= j.length ? 0 : gap(x + step)];
  const flat = (to: 1 | -1): number => {
    const end = to > 0 ? j.length - x : x;
    const parts = (d: number): number => (Math.abs(gap(x + to * d)) > 1e-12 ? 1 : -1);
    return parts(0) > 0 ? 0 : parts(end) < 0 ? end : zero(parts, 0, end);
  };
  return Math.max(left, right, 0) + Math.abs(flat(1) - flat(-1)) / j.length;
}
