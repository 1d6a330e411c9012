import { describe, expect, it } from "vitest";
import { worksheetFunctions, type WorksheetFunction } from "../../functions/index.ts";
import type { Argument } from "../../src/core/index.ts";
import { faultOf } from "./check.ts";
import { basesOf } from "./fuzz.ts";
import { longRangesOf, type LongRange } from "./longRanges.ts";

/** Each range of each function; arguments are drawn anew for every function, so that none finds what another has worked out. */
const ranges = worksheetFunctions.flatMap((f, i) =>
  longRangesOf(f).map((range) => [`${f.id}, ${range.name}`, f, range, 1980 + 100 * i] as const),
);

/** Longer, and a sheet with a few hundred such cells keeps its user waiting. */
const mostMilliseconds = 200;
/** Calls that must give a value, and those after which enough have. */
const leastValues = 3;
const enoughValues = 5;
/** Sets of draws, one after another until there are enough values. */
const sets = 4;

/** Arguments with the range of so many rows, set after set as they are asked for. */
function* grown(f: WorksheetFunction, range: LongRange, rows: number, seed: number): Generator<readonly Argument[]> {
  for (let set = 0; set < sets; set++)
    for (const base of basesOf(f, seed + set)) {
      const args = range.grown(base, rows);
      if (args) yield args;
    }
}

interface Called {
  readonly milliseconds: number;
  readonly isValue: boolean;
}

/** A call with what the processor spent on it: other programs on the machine do not count. */
function called(f: WorksheetFunction, args: readonly Argument[]): Called {
  const before = process.cpuUsage();
  const result = f.call(args);
  const { user, system } = process.cpuUsage(before);
  expect(faultOf(f, args, result)).toBeUndefined();
  return { milliseconds: (user + system) / 1000, isValue: "value" in result };
}

/** Powers computed on an ordinary machine at rest take so long. */
const powers = 300_000;
const powersMilliseconds = 15;

/** By how much this machine is slower now than an ordinary one at rest: other programs share its caches and its cores. */
function slowness(): number {
  const before = process.cpuUsage();
  let sum = 0;
  for (let i = 1; i <= powers; i++) sum += i ** 0.3;
  const { user, system } = process.cpuUsage(before);
  expect(sum).toBeGreaterThan(0);
  return Math.max(1, (user + system) / 1000 / powersMilliseconds);
}

/** What an ordinary machine would have taken. Nothing is faster there: a short call is short on both, and needs no measuring. */
const atRest = (milliseconds: number): number =>
  milliseconds < mostMilliseconds ? milliseconds : milliseconds / slowness();

/** The middle one: the first calls are slow until the engine has translated the function. */
const middle = (all: readonly number[]): number => [...all].sort((a, b) => a - b)[Math.floor(all.length / 2)]!;

describe("a range as long as it may be is computed, and refused, without a noticeable wait", () => {
  it.each(ranges)("%s", (_, f, range, seed) => {
    const values: number[] = [];
    const refusals: number[] = [];
    for (const args of grown(f, range, range.mostRows, seed)) {
      const { milliseconds, isValue } = called(f, args);
      (isValue ? values : refusals).push(atRest(milliseconds));
      if (values.length === enoughValues) break;
    }
    expect(values.length).toBeGreaterThanOrEqual(leastValues);
    expect(middle(values)).toBeLessThan(mostMilliseconds);
    if (refusals.length > 0) expect(middle(refusals)).toBeLessThan(mostMilliseconds);
  });
});

describe("ranges that are too long are refused at once, with the number of rows allowed", () => {
  it.each(ranges)("%s", (_, f, range, seed) => {
    const most = range.mostRows;
    const [args] = grown(f, range, most + 1, seed);
    const result = f.call(args!);
    expect(faultOf(f, args!, result)).toBeUndefined();
    expect("error" in result && result.error.message).toMatch(
      new RegExp(`rows; at most (${range.limits.join("|")}) are allowed`),
    );
  });
});
