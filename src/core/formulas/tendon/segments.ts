import { InputError } from "../../errors.ts";
import { format, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mostPathRows } from "./controlPoints.ts";
import { pieceAt } from "./pieces.ts";
import type { Path } from "./path.ts";

/** One stretch of a tendon with uniform curvature in space, or an angle at one place where its length is 0. In mm and rad. */
export interface Turn {
  readonly l: number;
  readonly alpha_v: number;
  readonly alpha_h: number;
}

/** The same with its own friction. */
export interface Segment extends Turn {
  readonly mu: number;
  readonly k: number;
}

/** Segments from left to right, each with its own friction. */
export const segmentsTable = table({
  key: "tendonSegments",
  symbol: "segments",
  text: "segments of the tendon from left to right, each with its angles and its friction",
  columns: {
    l: q.segmentLength,
    alpha_v: q.segmentAngleElevation,
    alpha_h: q.segmentAnglePlan,
    mu: q.frictionCoefficient,
    k: q.wobbleOfPath,
  },
  minRows: 1,
  maxRows: mostPathRows,
});

/** Angle change in space of a segment in which both curvatures are uniform. */
export const angleInSpace = (v: number, h: number): number => Math.hypot(v, h);

export const lengthOf = (segments: readonly { readonly l: number }[]): number =>
  segments.reduce((sum, { l }) => sum + l, 0);

/** Refuses segments that make no tendon. */
export function checkSegments(segments: readonly { readonly l: number }[]): void {
  for (const [i, name] of [
    [0, "first"],
    [segments.length - 1, "last"],
  ] as const) {
    if (segments[i]!.l === 0)
      throw new InputError(
        "path",
        `the ${name} segment has length 0; an angle at one place needs tendon on both sides: allowed: above 0 m`,
      );
  }
}

/** Refuses a distance from the left end that lies outside the tendon. One that misses an end by rounding alone counts as the end. */
export function withinLength(L: number, s: number, parameter = "x", left = 0): number {
  const slack = 1e-9 * L;
  if (s > L + slack || s < -slack)
    throw new InputError(
      parameter,
      `x = ${format((left + s) / 1000)} m lies outside the tendon; allowed: ${format(left / 1000)} to ${format((left + L) / 1000)} m`,
    );
  return Math.min(Math.max(s, 0), L);
}

/** The exponents of the segments one after another: linear along each, a step where one has no length. */
export function pathOfSegments<S extends Turn>(segments: readonly S[], exponent: (segment: S) => number): Path {
  let [s, lambda] = [0, 0];
  const pieces = segments.map((segment) => {
    const piece = { from: s, to: s + segment.l, start: lambda, adds: exponent(segment) };
    s = piece.to;
    lambda += piece.adds;
    return piece;
  });
  const long = pieces.filter(({ from, to }) => to > from);
  return {
    // At a place with an angle of its own the segment behind it: its start counts the step.
    exponent: (at) => {
      const p = pieceAt(long, at);
      return p.start + (p.adds * (at - p.from)) / (p.to - p.from);
    },
    length: s,
    breaks: [0, ...long.map(({ to }) => to)],
    stretch: () => 1,
  };
}
