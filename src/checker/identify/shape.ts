/**
 * How a value follows from one of its inputs, as far as three values tell. None of these depends on the units of input
 * or value, so that they tell which input can be which argument.
 */
export interface Shape {
  /** The power with which the value follows from the input; undefined where it is no power. */
  readonly power: number | undefined;
  readonly flags: number;
}

/** Straight lines: of the value, of its logarithm or of its reciprocal, over the input or over its reciprocal. */
const lines = [
  { of: (f: number) => f, over: (t: number) => t },
  { of: (f: number) => f, over: (t: number) => 1 / t },
  { of: (f: number) => Math.log(Math.abs(f)), over: (t: number) => t },
  { of: (f: number) => 1 / f, over: (t: number) => t },
  { of: (f: number) => 1 / f, over: (t: number) => 1 / t },
] as const;

export const allFlags = 2 ** lines.length - 1;
/** The input is multiplied by these. */
export const stretches = [1, 1.2, 1.5] as const;
const [, second, third] = stretches;

const near = (a: number, b: number, size: number): boolean => Math.abs(a - b) <= 1e-8 * size + 1e-300;

/** The shape that three values show, taken at the input and at its `stretches`; undefined where one of them is missing. */
export function shapeOf(f1: number, f2: number, f3: number): Shape | undefined {
  if (!Number.isFinite(f1) || !Number.isFinite(f2) || !Number.isFinite(f3)) return undefined;
  let flags = 0;
  lines.forEach(({ of, over }, i) => {
    const [a, b, c] = [of(f1), of(f2), of(f3)];
    const part = (over(second) - over(1)) / (over(third) - over(1));
    if (near(b - a, part * (c - a), Math.max(Math.abs(a), Math.abs(b), Math.abs(c)))) flags |= 2 ** i;
  });
  const [p, r] = [Math.log(Math.abs(f2 / f1)) / Math.log(second), Math.log(Math.abs(f3 / f1)) / Math.log(third)];
  const isPower = f1 !== 0 && f2 / f1 > 0 && f3 / f1 > 0 && Math.abs(p - r) <= 1e-7;
  return { flags, power: isPower ? Math.round(p * 1e7) / 1e7 : undefined };
}

/** What holds in two places. */
export function bothShapes(a: Shape, b: Shape): Shape {
  const same = a.power !== undefined && b.power !== undefined && Math.abs(a.power - b.power) < 1e-6;
  return { flags: a.flags & b.flags, power: same ? a.power : undefined };
}

/** Whether a value's size rises (1) or falls (−1) with its input; 0 where it does neither, or where its sign changes. */
export function directionOf(f1: number, f2: number): number {
  const ratio = f2 / f1;
  if (!(ratio > 0 && Number.isFinite(ratio)) || Math.abs(ratio - 1) < 1e-9) return 0;
  return Math.sign(ratio - 1);
}

/** One number for a shape, by which shapes are the same. */
export function shapeKey({ flags, power }: Shape): string {
  return `${flags}/${power === undefined ? "" : power.toFixed(6)}`;
}
