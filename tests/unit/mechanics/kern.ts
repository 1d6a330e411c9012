import { expect } from "vitest";
import { formulas, run, trace, type Argument, type Formula, type Trace } from "../../../src/core/index.ts";

const byId = new Map(formulas.map((f) => [f.id, f]));

function found(id: string): Formula {
  const f = byId.get(id);
  if (!f) throw new Error(`no formula ${id}`);
  return f;
}

/** The value a worksheet cell would show. */
export const kern = (id: string, ...args: readonly Argument[]): number => run(found(id), args);
/** The value with all that led to it. */
export const traced = (id: string, ...args: readonly Argument[]): Trace => trace(found(id), args);

/** Equal within half a unit of the last digit printed in the source. */
export function prints(value: number, printed: string): void {
  const decimals = (printed.split(".")[1] ?? "").length;
  expect(Math.abs(value - Number(printed)), `${value} against the printed ${printed}`).toBeLessThanOrEqual(
    0.5 * 10 ** -decimals * (1 + 1e-9),
  );
}

export const inch = 25.4;
export const kip = 4.4482216152605;
export const ksi = 6.894757293168;
