import fc from "fast-check";
import { NoResult } from "../../src/core/index.ts";
import { between } from "./draws.ts";

/** A condition of the functions of region and force, as a sheet gives it. */
export type Row = readonly [
  M: number,
  r: number,
  f_c: number,
  f_t: number,
  A: number,
  I: number,
  y_b: number,
  h: number,
  fibre: string,
];

export const row = fc.tuple(
  between(0, 1800),
  between(0.75, 1.1),
  between(15, 40),
  between(-6, 0.5),
  between(6e5, 7e5),
  between(1.3e11, 1.6e11),
  between(650, 800),
  fc.constant(1500),
  fc.constantFrom("BOTH", "BOTH", "TOP", "BOTTOM"),
);
export const rows = fc.array(row, { minLength: 1, maxLength: 5 }) as fc.Arbitrary<readonly Row[]>;

/** Nothing where there is no result. */
export function maybe<T>(compute: () => T): T | undefined {
  try {
    return compute();
  } catch (error) {
    if (error instanceof NoResult) return undefined;
    throw error;
  }
}
