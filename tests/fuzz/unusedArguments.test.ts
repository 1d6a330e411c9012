import { describe, expect, it } from "vitest";
import { worksheetFunctions, type WorksheetFunction } from "../../functions/index.ts";
import { warnings, type Argument, type Parameter, type Varies } from "../../src/core/index.ts";
import { faultOf } from "./check.ts";
import { basesOf } from "./fuzz.ts";

const seed = 1343;

/** An argument and a value of the choice that does not use it. */
interface Unused {
  readonly at: number;
  /** Where the choice stands. */
  readonly by: number;
  readonly name: string;
  readonly parameter: Parameter;
  readonly varies: Varies;
  readonly choice: string;
}

/** What the argument holds where it is used. */
function plausible(f: WorksheetFunction, { at, parameter, varies }: Unused): Argument {
  const own = Object.values(varies.as)[0]!;
  if (own.kind === "number") {
    const [low, high] = own.typical ?? [own.min ?? own.above ?? 1, own.max ?? own.below ?? 2];
    const value = own.whole ? Math.ceil(high / 2) : low + (high - low) / 2;
    return value === 0 ? high : value;
  }
  if (own.kind === "choice") return own.values[0]!.value;
  const given = basesOf(f, seed).find((args) => Array.isArray(args[at]) && (args[at] as unknown[]).length > 0);
  if (!given) throw new Error(`${f.id}: no call gives ${parameter.text}`);
  return given[at];
}

/** Each pair of an argument and a choice that does not use it. */
function unusedIn(f: WorksheetFunction): readonly Unused[] {
  const names = f.parameters.map(({ name }) => name);
  return f.parameters.flatMap(({ name, parameter }, at) => {
    const { varies } = parameter;
    const by = names.indexOf(varies?.argument ?? "");
    const decides = f.parameters[by]?.parameter;
    if (!varies || decides?.kind !== "choice") return [];
    return decides.values.flatMap(({ value }) =>
      varies.as[String(value)] ? [] : [{ at, by, name, parameter, varies, choice: String(value) }],
    );
  });
}

const put = (call: readonly Argument[], at: number, value: Argument): readonly Argument[] =>
  call.map((arg, i) => (i === at ? value : arg));

/** A call that makes the choice, with the argument left blank. */
function blankCall(f: WorksheetFunction, { at, by, varies, choice }: Unused): readonly Argument[] {
  const drawn = basesOf(f, seed).find((args) => String(args[by]) === choice);
  if (!drawn) throw new Error(`${f.id}: no call with ${varies.argument} ${choice} was drawn`);
  return put(drawn, at, null);
}

const having = worksheetFunctions.flatMap((f) => {
  const all = unusedIn(f);
  return all.length > 0 ? [{ id: f.id, f, all }] : [];
});

/** Whole functions whose choice names one of several figures of the same thing. */
const ignoring = [
  "BOX_SECTION",
  "CRACKED_SECTION",
  "HOLLOW_SLAB",
  "LATERAL_STRAIN_WEDGE",
  "REGION_VERTEX",
  "TIME_DEPENDENT_LOSS_EN1992_2004",
];

describe("an argument that the choice does not use", () => {
  it("is found in all functions that have one", () => {
    expect(having.length).toBeGreaterThanOrEqual(17);
    expect(having.reduce((sum, { all }) => sum + all.length, 0)).toBeGreaterThan(216);
  });

  it("may hold a value only where the choice names one of several figures of the same thing", () => {
    const declared = having.filter(({ all }) => all.some(({ varies }) => varies.ignored !== undefined));
    expect(declared.map(({ id }) => id).sort()).toEqual(ignoring);
  });

  it.each(having)("$id", ({ f, all }) => {
    for (const unused of all) {
      const { at, varies, parameter, choice, name } = unused;
      const call = blankCall(f, unused);
      const what = `${name} with ${choice}`;
      const blank = f.call(call);
      expect(blank, what).toHaveProperty("value");
      for (const nothing of [0, "", null, undefined, [[null]]])
        expect(f.call(put(call, at, nothing)), `${what}, ${String(nothing)}`).toEqual(blank);
      const value = plausible(f, unused);
      const given = f.call(put(call, at, value));
      if (varies.ignored !== undefined) {
        const declaration = (f.formula ?? f.spill)!;
        for (const any of [value, -1e9, "text"]) {
          expect(f.call(put(call, at, any)), what).toEqual(blank);
          expect(warnings(declaration, put(call, at, any)), what).toEqual(warnings(declaration, call));
        }
        continue;
      }
      const message = "error" in given ? given.error.message : "no refusal";
      expect(message, what).toContain(parameter.symbol.replace(/_/g, ""));
      expect(message, what).toContain(` is not used with ${varies.argument} ${choice}; leave it blank`);
      for (const any of [NaN, -Infinity, true, "x".repeat(300), value]) {
        const answer = f.call(put(call, at, any));
        expect(faultOf(f, put(call, at, any), answer), `${what}, ${String(any)}`).toBeUndefined();
        expect(answer, `${what}, ${String(any)}`).toHaveProperty("error");
      }
      // Not its bounds: they hold where it is used.
      const wild = f.call(put(call, at, -1e9));
      expect("error" in wild && wild.error.message, what).toContain("is not used with");
    }
  });
});

describe("the refusal of an unused argument", () => {
  const messageOf = (id: string, ...args: readonly Argument[]): string => {
    const result = worksheetFunctions.find((f) => f.id === id)!.call(args);
    return "error" in result ? result.error.message : `value ${String(result.value)}`;
  };

  it("repeats the value and the choice", () => {
    expect(messageOf("MOMENT_UNIFORM", 24, 10, 3, "ENDS", 4)).toBe(
      "a (distance of a lifting or storage support from the end of the member) = 4 m is not used with supports ENDS; leave it blank",
    );
    expect(messageOf("COMPRESSION_LIMIT_IS1343_1980", 45, "SERVICE", null, "POST", "I")).toMatch(
      / = “POST” is not used with situation SERVICE; leave it blank$/,
    );
  });

  it("keeps voids from being left out of what is asked about the vertical axis", () => {
    const square = [
      [0, 0],
      [1000, 0],
      [1000, 1000],
      [0, 1000],
    ];
    const voids = [
      [1, 100, 100],
      [1, 900, 100],
      [1, 900, 900],
    ];
    expect(messageOf("OUTLINE_SECTION", square, "LATERAL_INERTIA", voids)).toMatch(
      / is not used with property LATERAL_INERTIA; leave it blank$/,
    );
  });

  it("goes by a choice in a range of one cell", () => {
    expect(messageOf("MOMENT_UNIFORM", 24, 10, 3, [["ENDS"]], [[4]])).toContain("= 4 m is not used with supports ENDS");
  });
});
