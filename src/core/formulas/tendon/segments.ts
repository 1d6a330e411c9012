import { InputError } from "../../errors.ts";
import { format, table, type Quantity } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import type { Path } from "./path.ts";

/** One stretch of a tendon with uniform curvature in space, or an angle at one place where its length is 0. In mm and rad. */
export interface Segment {
  readonly l: number;
  readonly alpha_v: number;
  readonly alpha_h: number;
  readonly mu: number;
  readonly k: number;
}

/** Segments from left to right, each with its own friction. `k` is the wobble of the law they are used with. */
export function segmentsTable(key: string, k: Quantity) {
  return table({
    key,
    symbol: "segments",
    text: "segments of the tendon from left to right, each with its angles and its friction",
    columns: {
      l: q.segmentLength,
      alpha_v: q.segmentAngleElevation,
      alpha_h: q.segmentAnglePlan,
      mu: q.frictionCoefficient,
      k,
    },
    minRows: 1,
  });
}

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
        "segments",
        `the ${name} segment has length 0; an angle at one place needs tendon on both sides: allowed: above 0 m`,
      );
  }
}

/** Refuses a place outside the tendon. One that misses its end by rounding alone counts as the end. */
export function withinLength(L: number, x: number, parameter = "x"): number {
  if (x > L * (1 + 1e-9))
    throw new InputError(
      parameter,
      `x = ${format(x / 1000)} m lies outside the tendon; allowed: 0 to ${format(L / 1000)} m`,
    );
  return Math.min(x, L);
}

/** The exponents of the segments one after another: linear along each, a step where one has no length. */
export function pathOfSegments(
  segments: readonly Segment[],
  exponent: (mu: number, alpha: number, k: number, s: number) => number,
): Path {
  let [s, lambda] = [0, 0];
  const pieces = segments.map(({ l, alpha_v, alpha_h, mu, k }) => {
    const piece = { from: s, to: s + l, start: lambda, adds: exponent(mu, angleInSpace(alpha_v, alpha_h), k, l) };
    s = piece.to;
    lambda += piece.adds;
    return piece;
  });
  const long = pieces.filter(({ from, to }) => to > from);
  return {
    // At a place with an angle of its own the segment behind it: its start counts the step.
    exponent: (at) => {
      const p = long.find(({ to }) => at < to) ?? long.at(-1)!;
      return p.start + (p.adds * (at - p.from)) / (p.to - p.from);
    },
    length: s,
    breaks: [0, ...long.map(({ to }) => to)],
    stretch: () => 1,
  };
}
