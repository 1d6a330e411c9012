import { InputError } from "../../errors.ts";
import { format } from "../../parameters.ts";
import type { ControlPoint } from "./controlPoints.ts";
import type { End } from "./ends.ts";
import { integrate } from "./integrate.ts";
import { pieceAt } from "./pieces.ts";

/** One segment: a parabola or a straight line between two control points, by its end slopes. Lengths in mm. */
interface Segment {
  readonly from: number;
  readonly to: number;
  readonly e: number;
  /** de/dx at its ends: positive where the tendon goes down to the right. */
  readonly start: number;
  readonly end: number;
}
export type Profile = readonly Segment[];

const metres = (mm: number): string => `${format(mm / 1000)} m`;

/** Turns control points into segments; refuses points out of order. */
export function profile(points: readonly ControlPoint[]): Profile {
  const segments: Segment[] = [];
  for (let i = 0; i + 1 < points.length; i++) {
    const a = points[i]!;
    const b = points[i + 1]!;
    if (!(b.x > a.x))
      throw new InputError(
        "points",
        `control point ${i + 2} at x = ${metres(b.x)} does not lie to the right of point ${i + 1} at x = ` +
          `${metres(a.x)}; x must increase from point to point`,
      );
    const mean = (b.e - a.e) / (b.x - a.x);
    let start = mean;
    if (a.shape === "FROM_LEVEL") start = 0;
    else if (a.shape === "TO_LEVEL") start = 2 * mean;
    else if (a.shape === "SMOOTH") {
      const before = segments.at(-1);
      if (!before)
        throw new InputError(
          "points",
          "the shape of control point 1 is SMOOTH, but there is no segment before it to go on from; allowed: LINE, FROM_LEVEL, TO_LEVEL",
        );
      start = before.end;
    }
    segments.push({ from: a.x, to: b.x, e: a.e, start, end: 2 * mean - start });
  }
  return segments;
}

export const left = (p: Profile): number => p[0]!.from;
export const right = (p: Profile): number => p.at(-1)!.to;

/** The segment at x; at a control point the one to its right, but for the last. */
export function segmentAt(p: Profile, x: number): Segment {
  return pieceAt(p, x);
}

function slopeIn(s: Segment, x: number): number {
  return s.start + ((s.end - s.start) * (x - s.from)) / (s.to - s.from);
}

/** Refuses a place outside the tendon. One that misses an end by rounding alone counts as the end. */
export function within(p: Profile, x: number, parameter = "x"): number {
  // Stations computed from the span miss an end by a few bits.
  const slack = 1e-9 * (right(p) - left(p));
  if (x < left(p) - slack || x > right(p) + slack)
    throw new InputError(
      parameter,
      `x = ${metres(x)} lies outside the tendon; allowed: ${format(left(p) / 1000)} to ${metres(right(p))}`,
    );
  return Math.min(Math.max(x, left(p)), right(p));
}

export function eccentricityAt(p: Profile, x: number): number {
  const s = segmentAt(p, x);
  const u = x - s.from;
  return s.e + s.start * u + ((s.end - s.start) * u * u) / (2 * (s.to - s.from));
}

export function slopeAt(p: Profile, x: number): number {
  return slopeIn(segmentAt(p, x), x);
}

/** Slope at x on the side of a kink there on which another place of the same segment lies. */
export function slopeBeside(p: Profile, x: number, beside: number): number {
  return slopeIn(segmentAt(p, beside), x);
}

/**
 * Sum of absolute angle changes from a to b. A kink at a control point counts where the interval passes it or ends on it from
 * the left: of the kinks in (a, b]. So the parts of an interval add up to the whole.
 */
export function angleBetween(p: Profile, a: number, b: number): number {
  let angle = 0;
  p.forEach((s, i) => {
    const from = Math.max(a, s.from);
    const to = Math.min(b, s.to);
    if (to > from) angle += Math.abs(Math.atan(slopeIn(s, to)) - Math.atan(slopeIn(s, from)));
    const next = p[i + 1];
    if (next && s.to > a && s.to <= b) angle += Math.abs(Math.atan(next.start) - Math.atan(s.end));
  });
  return angle;
}

/** `angleBetween` from the left end on, made ready for many places. */
export function angleAlong(p: Profile): (x: number) => number {
  let turned = 0;
  const starts = p.map((s, i) => {
    const before = p[i - 1];
    if (before)
      turned +=
        Math.abs(Math.atan(before.end) - Math.atan(before.start)) +
        Math.abs(Math.atan(s.start) - Math.atan(before.end));
    return { ...s, turned, direction: Math.atan(s.start) };
  });
  return (x) => {
    const s = pieceAt(starts, x);
    return s.turned + Math.abs(Math.atan(slopeIn(s, x)) - s.direction);
  };
}

/** The same tendon seen from its right end, so that the jack always stands at distance 0. */
export function fromEnd(p: Profile, end: End): Profile {
  if (end === "LEFT") return p;
  const R = right(p);
  return [...p].reverse().map((s) => ({
    from: R - s.to,
    to: R - s.from,
    e: s.e + ((s.start + s.end) * (s.to - s.from)) / 2,
    start: -s.end,
    end: -s.start,
  }));
}

/** The same tendon with its left end at 0: far from there its short segments would lose digits. */
export function fromZero(p: Profile): Profile {
  const start = left(p);
  return start === 0 ? p : p.map((s) => ({ ...s, from: s.from - start, to: s.to - start }));
}

/** Distance along the span from the jacking end. */
export function distanceFrom(p: Profile, x: number, end: End): number {
  return end === "LEFT" ? x - left(p) : right(p) - x;
}

/** Angle change from a to b a second way: curvature summed along x, kinks by the angle between two lines. */
export function angleByCurvature(p: Profile, a: number, b: number): number {
  return p.reduce((sum, s, i) => {
    const bend = (s.end - s.start) / (s.to - s.from);
    const from = Math.max(a, s.from);
    const to = Math.min(b, s.to);
    const curved = to > from ? integrate((x) => Math.abs(bend) / (1 + slopeIn(s, x) ** 2), from, to, []) : 0;
    const next = p[i + 1];
    const kink = next && s.to > a && s.to <= b ? Math.abs(Math.atan2(next.start - s.end, 1 + next.start * s.end)) : 0;
    return sum + curved + kink;
  }, 0);
}

/** Breaks at which curvature changes and kinks stand, the ends included. */
export function breaks(p: Profile): readonly number[] {
  return [left(p), ...p.map((s) => s.to)];
}

/** Smallest radius of the parabolas, R = (1 + e'²)^(3/2)/e''; infinite for a tendon of straight lines. */
export function smallestRadius(p: Profile): number {
  return p.reduce((least, s) => {
    const curvature = Math.abs(s.end - s.start) / (s.to - s.from);
    const flattest = s.start * s.end < 0 ? 0 : Math.min(Math.abs(s.start), Math.abs(s.end));
    return curvature === 0 ? least : Math.min(least, (1 + flattest ** 2) ** 1.5 / curvature);
  }, Infinity);
}
