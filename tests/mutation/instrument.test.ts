import { transformSync } from "esbuild";
import { describe, expect, it } from "vitest";
import { slippedNumber } from "./alternatives.ts";
import { instrument } from "./instrument.ts";
import { Switches } from "./switches.ts";

const source = `
  type Sign = 1 | -1;
  const table = [[30, 3.2], [40, 4.1]] as const;
  export function f(x: number, way: string): number {
    let sum = 0;
    if (way === "ROOT") sum = Math.sqrt(Math.abs(x));
    else if (!(x > 2) && x !== 0) sum += x ** 2 - 0.5 * x;
    else sum -= x ? table[1]![1] / x : -1;
    return Math.max(sum, -10) + table.filter(([at]) => at <= x).length;
  }`;

/** One mutant in so many. */
function some(every: number): ReturnType<typeof instrument> {
  let passed = 0;
  return instrument("f.ts", source, 0, () => passed++ % every === 0);
}

function loaded(awake: number, every = 1): (x: number, way: string) => number {
  const mutants = new Switches();
  mutants.awake = awake;
  const exports = {} as { f: (x: number, way: string) => number };
  const { code } = transformSync(some(every).code, { loader: "ts", format: "cjs" });
  // eslint-disable-next-line @typescript-eslint/no-implied-eval
  const module = new Function("module", "mutants", code) as (...parts: readonly unknown[]) => void;
  module(
    {
      set exports(made: object) {
        Object.defineProperties(exports, Object.getOwnPropertyDescriptors(made));
      },
    },
    mutants,
  );
  return exports.f;
}

const calls = [
  [9, "ROOT"],
  [-9, "ROOT"],
  [1, ""],
  [2, ""],
  [-3, ""],
  [0, ""],
  [2.5, ""],
  [30, ""],
  [40, ""],
  [0.1, ""],
] as const;
/** An error counts as a result of its own. */
function results(awake: number, every = 1): readonly unknown[] {
  const f = loaded(awake, every);
  return calls.map(([x, way]) => {
    try {
      return f(x, way);
    } catch (error) {
      return String(error);
    }
  });
}

describe("mutants", () => {
  it("asleep change nothing", () => {
    const plain = calls.map(([x, way]) => {
      const rows = (x >= 30 ? 1 : 0) + (x >= 40 ? 1 : 0);
      if (way === "ROOT") return Math.sqrt(Math.abs(x)) + rows;
      return Math.max(x <= 2 && x !== 0 ? x ** 2 - 0.5 * x : x ? -4.1 / x : 1, -10) + rows;
    });
    expect(results(-1)).toEqual(plain);
  });

  it("awake change what they say: each but those that cannot be met here", () => {
    const { mutants } = instrument("f.ts", source, 0);
    const asleep = results(-1);
    const unnoticed = mutants
      .filter((_, id) => JSON.stringify(results(id)) === JSON.stringify(asleep))
      .map(({ was, becomes }) => `${was} > ${becomes}`);
    // Tables' values that are not read, and a floor that is never reached.
    expect(unnoticed).toEqual(["3.2 > 3.3", "10 > 11"]);
    expect(mutants.length).toBeGreaterThan(40);
  });

  it("are the same where only some are in the file", () => {
    const all = some(1).mutants;
    for (const every of [2, 3, 7]) {
      expect(some(every).mutants).toEqual(all.filter((_, id) => id % every === 0));
      expect(results(-1, every)).toEqual(results(-1));
      some(every).mutants.forEach((_, id) => expect(results(id, every)).toEqual(results(id * every)));
    }
  });

  it("put numbers off by one digit, leave types and texts alone", () => {
    expect(["0", "9", "1.05", "28", "0.1834346", "1e-13"].map(slippedNumber)).toEqual([
      "1",
      "8",
      "1.06",
      "29",
      "0.1835346",
      "1e-12",
    ]);
    expect(instrument("f.ts", 'type T = 1 | 2; const a = `${1 + 2}`; const b: T = "x" as never;', 0).mutants).toEqual(
      [],
    );
  });
});
