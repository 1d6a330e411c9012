import { describe, expect, it } from "vitest";
import { worksheetFunctions } from "../../functions/index.ts";
import { fuzz } from "./fuzz.ts";

/** The same calls at every run; `npm run fuzz` draws others, and many more. */
const seed = 1343;
const allCalls = 110_000;
const calls = Math.ceil(allCalls / worksheetFunctions.length);
/** Of the calls of a function, those that must give a value: else nothing but its refusals has been tried. */
const leastShare = 0.15;

describe("whatever is put into the cells, a function gives a value or says what is wrong", () => {
  it.each(worksheetFunctions.map((f) => [f.id, f] as const))("%s", (_, f) => {
    const { faults, values } = fuzz(f, calls, seed);
    expect(faults).toEqual([]);
    expect(values).toBeGreaterThanOrEqual(leastShare * calls);
  });
});
