import { InputError } from "../../errors.ts";
import { format } from "../../parameters.ts";
import type { ControlPoint } from "./controlPoints.ts";
import { integrate } from "./integrate.ts";
import { breaks, left, profile, right, segmentAt, slopeAt, slopeBeside, type Profile } from "./profile.ts";
import { angleInSpace } from "./segments.ts";

/** A tendon curved in elevation and in plan. */
export interface Views {
  readonly v: Profile;
  readonly h: Profile;
}

export const planNote =
  "Curved in plan too: both descriptions begin and end at the same x, and the curvatures of both views " +
  "are taken together at each place, √(κ_v² + κ_h²), as is done for flat tendons.";

export function views(points: readonly ControlPoint[], plan: readonly ControlPoint[]): Views {
  const [v, h] = [profile(points), profile(plan)];
  const slack = 1e-9 * (right(v) - left(v));
  if (Math.abs(left(v) - left(h)) > slack || Math.abs(right(v) - right(h)) > slack) {
    throw new InputError(
      "plan",
      `the tendon runs from x = ${format(left(v) / 1000)} to ${format(right(v) / 1000)} m in elevation but ` +
        `from ${format(left(h) / 1000)} to ${format(right(h) / 1000)} m in plan; both must be the same`,
    );
  }
  return { v, h };
}

export const stops = ({ v, h }: Views): readonly number[] =>
  [...new Set([...breaks(v), ...breaks(h)])].sort((a, b) => a - b);

/** Rate of turning of one view at x: e''/(1 + e'²). */
function turning(p: Profile, at: number): number {
  const s = segmentAt(p, at);
  return (s.end - s.start) / (s.to - s.from) / (1 + slopeAt(p, at) ** 2);
}

/** Kinks of one view by their place, without sign. */
function kinksOf(p: Profile): ReadonlyMap<number, number> {
  return new Map(p.slice(1).map((next, i) => [next.from, Math.abs(Math.atan(next.start) - Math.atan(p[i]!.end))]));
}

/** Kinks of both views together, of those in (a, b]. */
function kinksBetween({ v, h }: Views, at: readonly number[], a: number, b: number): number {
  const [inElevation, inPlan] = [kinksOf(v), kinksOf(h)];
  return at.reduce(
    (sum, x) => (x > a && x <= b ? sum + angleInSpace(inElevation.get(x) ?? 0, inPlan.get(x) ?? 0) : sum),
    0,
  );
}

export function angleInViews(w: Views, a: number, b: number): number {
  const at = stops(w);
  return integrate((x) => angleInSpace(turning(w.v, x), turning(w.h, x)), a, b, at) + kinksBetween(w, at, a, b);
}

/** The same by short chords of both directions: the change of each view's angle over many small steps. */
export function angleBySteps(w: Views, a: number, b: number): number {
  const all = stops(w);
  const at = [a, ...all.filter((s) => s > a && s < b), b];
  const n = 256;
  // The error of chords falls with the square of the step: two step widths leave it out.
  const sum = (count: number, from: number, to: number): number => {
    let total = 0;
    const angle = (p: Profile, s: number): number => Math.atan(slopeBeside(p, s, (from + to) / 2));
    for (let i = 0; i < count; i++) {
      const [l, r] = [from + ((to - from) * i) / count, from + ((to - from) * (i + 1)) / count];
      total += angleInSpace(angle(w.v, r) - angle(w.v, l), angle(w.h, r) - angle(w.h, l));
    }
    return total;
  };
  const smooth = at
    .slice(1)
    .reduce((total, to, i) => total + (to > at[i]! ? (4 * sum(2 * n, at[i]!, to) - sum(n, at[i]!, to)) / 3 : 0), 0);
  return smooth + kinksBetween(w, all, a, b);
}

/** Curvature of the curve (x, e, y) in space at x, on the stretch on which another place lies, from its first and second derivatives. */
export function curvature({ v, h }: Views, at: number, beside: number, bend_v: number, bend_h: number): number {
  const [a, b] = [slopeBeside(v, at, beside), slopeBeside(h, at, beside)];
  return Math.sqrt(bend_v ** 2 + bend_h ** 2 + (a * bend_h - b * bend_v) ** 2) / (1 + a * a + b * b) ** 1.5;
}

export function smallestRadiusInSpace(w: Views): number {
  const all = stops(w);
  const stretch = all.slice(1).flatMap((to, i) => {
    const from = all[i]!;
    const middle = (from + to) / 2;
    const bend = (p: Profile): number => turning(p, middle) * (1 + slopeAt(p, middle) ** 2);
    const [bv, bh] = [bend(w.v), bend(w.h)];
    const all2 = bv * bv + bh * bh;
    // Its numerator is the same all along a stretch of two parabolas: the sharpest place is where the tendon is steepest to neither side.
    const level = all2 === 0 ? middle : middle - (slopeAt(w.v, middle) * bv + slopeAt(w.h, middle) * bh) / all2;
    return [curvature(w, Math.min(Math.max(level, from), to), middle, bv, bh)];
  });
  return 1 / Math.max(...stretch);
}
