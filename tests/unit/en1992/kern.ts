import { expect } from "vitest";
import { formulas, InputError, run, trace, warnings, type Argument, type Formula } from "../../../src/core/index.ts";

function named(id: string): Formula {
  const found = formulas.find((f) => f.id === `${id}_EN1992_2004`);
  if (!found) throw new Error(`no formula ${id}_EN1992_2004`);
  return found;
}

/** Runs a formula of EN 1992-1-1:2004 through the same door as a worksheet. */
export const kern = (id: string, ...args: Argument[]): number => run(named(id), args);

/** The steps of a formula by name, in their printed units. */
export const stepsOf = (id: string, ...args: Argument[]): Record<string, number> =>
  Object.fromEntries(trace(named(id), args).steps.map(({ name, shown }) => [name, shown]));

export const warningsOf = (id: string, ...args: Argument[]): readonly string[] => warnings(named(id), args);

/** Expects a value to round to the text a source prints: half a unit of the last printed digit. */
export function expectPrinted(value: number, printed: string): void {
  const [mantissa = "", exponent = "0"] = printed.split("e");
  const unit = 10 ** (Number(exponent) - (mantissa.split(".")[1]?.length ?? 0));
  expect(Math.abs(value - Number(printed)) / unit, `${value} against ${printed}`).toBeLessThanOrEqual(0.5 + 1e-9);
}

/** Expects a refusal with exactly this message. */
export function expectRefusal(refused: () => number, message: string): void {
  let said = "no refusal";
  try {
    refused();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    said = error.message;
  }
  expect(said).toBe(message);
}
