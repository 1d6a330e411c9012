import { describe, expect, it } from "vitest";
import { worksheetFunctions, type WorksheetFunction } from "../../functions/index.ts";
import type { Argument } from "../../src/core/index.ts";
import { faultOf } from "./check.ts";
import { basesOf } from "./fuzz.ts";
import { mostRows, takesRange, withLongRanges } from "./longRanges.ts";

const seed = 1980;
const withRanges = worksheetFunctions.filter(takesRange).map((f) => [f.id, f] as const);

/** Longer, and a sheet with a few hundred such cells keeps its user waiting. */
const mostMilliseconds = 200;

const grown = (f: WorksheetFunction, rows: number): readonly (readonly Argument[])[] =>
  basesOf(f, seed).flatMap((args) => {
    const long = withLongRanges(f, args, rows);
    return long === undefined ? [] : [long];
  });

/** What the processor spent on a call: other programs on the machine do not count. */
function cost(f: WorksheetFunction, args: readonly Argument[]): number {
  const before = process.cpuUsage();
  const result = f.call(args);
  const { user, system } = process.cpuUsage(before);
  expect(faultOf(f, args, result)).toBeUndefined();
  return (user + system) / 1000;
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

describe("ranges as long as they may be are computed without a noticeable wait", () => {
  it.each(withRanges)("%s", (_, f) => {
    const costs = grown(f, mostRows(f))
      .slice(0, 5)
      .map((args) => cost(f, args) / slowness())
      .sort((a, b) => a - b);
    expect(costs.length).toBeGreaterThan(0);
    // The middle one: the first calls are slow until the engine has translated the function.
    expect(costs[Math.floor(costs.length / 2)]).toBeLessThan(mostMilliseconds);
  });
});

describe("ranges that are too long are refused at once, with the number of rows allowed", () => {
  it.each(withRanges)("%s", (_, f) => {
    const most = mostRows(f);
    const [args] = grown(f, most + 1);
    const result = f.call(args!);
    expect(faultOf(f, args!, result)).toBeUndefined();
    expect("error" in result && result.error.message).toContain(`rows; at most ${most} are allowed`);
  });
});
