import { checkDeviators, segmentsBetween } from "./deviators.ts";
import { countedFrom, type End } from "./ends.ts";
import type { PathRows } from "./pathRange.ts";
import { angleAlong, breaks, distanceFrom, fromEnd, fromZero, profile, right, slopeAt, within } from "./profile.ts";
import { angleInSpace, checkSegments, lengthOf, pathOfSegments, withinLength, type Turn } from "./segments.ts";

/** The geometry of a tendon seen from one of its ends, whatever describes it. In mm and rad. */
interface Course {
  readonly length: number;
  /** Distances at which something changes, the ends included. */
  readonly breaks: readonly number[];
  /** Sum of angle changes from the end up to a distance; an angle at that very place counts. */
  readonly angle: (s: number) => number;
  /** True length of the tendon per unit of distance. */
  readonly stretch: (s: number) => number;
}

/** Straight pieces, curves and angles at one place, from left to right. */
export function turnsOf(path: Exclude<PathRows, { readonly is: "points" }>): readonly Turn[] {
  if (path.is === "segments") {
    checkSegments(path.rows);
    return path.rows;
  }
  checkDeviators(path.rows);
  return segmentsBetween(path.rows);
}

export const seenFrom = <T>(list: readonly T[], end: End): readonly T[] =>
  end === "LEFT" ? list : [...list].reverse();

export function courseFrom(path: PathRows, end: End): Course {
  if (path.is !== "points") {
    const turns = seenFrom(turnsOf(path), end);
    const { exponent, ...rest } = pathOfSegments(turns, ({ alpha_v, alpha_h }) => angleInSpace(alpha_v, alpha_h));
    return { ...rest, angle: exponent };
  }
  const p = fromZero(fromEnd(profile(path.rows), end));
  return {
    length: right(p),
    breaks: breaks(p),
    angle: angleAlong(p),
    stretch: (s) => Math.hypot(1, slopeAt(p, s)),
  };
}

/** Distance of x from an end; refuses places outside the tendon. */
export function distanceTo(path: PathRows, x: number, end: End, parameter = "x"): number {
  if (path.is === "points") {
    const p = profile(path.rows);
    return distanceFrom(p, within(p, x, parameter), end);
  }
  if (path.is === "segments") {
    const L = lengthOf(path.rows);
    return countedFrom(L, end, withinLength(L, x, parameter));
  }
  checkDeviators(path.rows);
  const first = path.rows[0]!.x;
  const L = path.rows.at(-1)!.x - first;
  return countedFrom(L, end, withinLength(L, x - first, parameter, first));
}

/** x of the left end. */
export function leftEnd(path: PathRows): number {
  return path.is === "segments" ? 0 : path.rows[0]!.x;
}
