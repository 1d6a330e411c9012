import { describe, expect, it } from "vitest";
import { worksheetFunction, worksheetFunctions } from "../../../functions/index.ts";
import { formulas, InputError, NoResult } from "../../../src/core/index.ts";
import { kern } from "./kern.ts";

const message = (text: string | RegExp) => ({
  error: { code: "#VALUE!", message: expect.stringMatching(text) as string },
});
/** A declaration that behaves as the test needs, with the arguments of a real one. */
const behaving = (compute: () => number) =>
  worksheetFunction({ ...formulas.find(({ id }) => id === "FRICTION_STRESS")!, id: "BEHAVING", compute });
const good = [0.3, 0.2, 0.003, "1/m", 1395, 12] as const;
/** The same with another jacking stress and friction coefficient. */
const other = (sigma0: number, mu = 0.2) => [0.3, mu, 0.003, "1/m", sigma0, 12] as const;

describe("a call", () => {
  it("gives the value", () => {
    expect(kern("FRICTION_STRESS", ...good)).toEqual({
      value: expect.closeTo(1395 * Math.exp(-(0.2 * 0.3 + 0.003 * 12)), 10) as number,
    });
  });

  it("takes a range of one cell as a cell", () => {
    expect(kern("FRICTION_STRESS", 0.3, [[0.2]], 0.003, "1/m", [[1395]], 12)).toEqual(kern("FRICTION_STRESS", ...good));
  });

  it("refuses what is missing, by name and with the allowed range", () => {
    for (const missing of [null, undefined, "", [[null]]])
      expect(kern("FRICTION_STRESS", 0.3, missing, 0.003, "1/m", 1395, 12)).toEqual(
        message(/^μ \(friction coefficient.*is missing.*allowed: 0 to 1 1\/rad/),
      );
    expect(kern("FRICTION_STRESS")).toEqual(message(/^α .*is missing/));
  });

  it("takes a zero as a zero: some hosts hand a blank cell over as one, so sheets guard their inputs themselves", () => {
    expect(kern("FRICTION_STRESS", 0.3, 0, 0.003, "1/m", 1395, 12)).toHaveProperty("value");
    expect(kern("FRICTION_STRESS", 0.3, 0.2, 0.003, "1/m", 0, 12)).toEqual(message(/not above 0 MPa/));
  });

  it("refuses text, logical values, ranges and surplus arguments", () => {
    expect(kern("FRICTION_STRESS", 0.3, "0.2", 0.003, "1/m", 1395, 12)).toEqual(message(/is the text “0\.2”/));
    expect(kern("FRICTION_STRESS", 0.3, true, 0.003, "1/m", 1395, 12)).toEqual(message(/is TRUE/));
    expect(kern("FRICTION_STRESS", 0.3, [[0.2], [0.3]], 0.003, "1/m", 1395, 12)).toEqual(
      message(/range of 2 × 1 cells; one cell is needed/),
    );
    expect(kern("FRICTION_STRESS", ...good, 1)).toEqual(message(/takes 6 arguments; 7 were given/));
  });

  it("uses the default of an optional argument that is left out or blank", () => {
    const [f, at] = worksheetFunctions
      .flatMap((f) => f.parameters.map((p, i) => [f, i, p] as const))
      .find(([, , p]) => p.optional && p.parameter.kind === "number")!;
    const given = f.parameters.map(({ parameter: p }) =>
      p.kind === "number" ? (p.default ?? p.typical?.[0] ?? 1) : p.kind === "choice" ? p.values[0]!.value : null,
    );
    const whole = f.call(given);
    expect(whole).toHaveProperty("value");
    expect(f.call(given.map((v, i) => (i === at ? null : v)))).toEqual(whole);
    expect(f.call(given.map((v, i) => (i === at ? undefined : v)))).toEqual(whole);
  });

  it("says so where there is no answer, with the number error", () => {
    expect(
      behaving(() => {
        throw new NoResult("no angle fits");
      }).call(good),
    ).toEqual({ error: { code: "#NUM!", message: "no angle fits" } });
    for (const value of [NaN, Infinity, -Infinity])
      expect(behaving(() => value).call(good)).toMatchObject({
        error: { code: "#NUM!", message: expect.stringContaining("no finite result") as string },
      });
  });

  it("shows an unforeseen error instead of swallowing it", () => {
    expect(
      behaving(() => {
        throw new TypeError("undefined is not a tendon");
      }).call(good),
    ).toEqual({ error: { code: "#VALUE!", message: "internal error in BEHAVING: undefined is not a tendon" } });
    expect(
      behaving(() => {
        throw new InputError("x", "too far");
      }).call(good),
    ).toEqual({ error: { code: "#VALUE!", message: expect.stringMatching(/^x \(.+\): too far$/) as string } });
  });
});

describe("WARNINGS", () => {
  it("is empty where there is nothing to tell", () => {
    expect(kern("WARNINGS", "FRICTION_STRESS", ...good)).toEqual({ value: "" });
  });

  it("tells of input outside the everyday range", () => {
    expect(kern("WARNINGS", "FRICTION_STRESS", ...other(100))).toEqual({
      value: expect.stringMatching(/^σp0 .*= 100 MPa is outside the everyday range 500 to 1600 MPa$/) as string,
    });
  });

  it("joins several with a semicolon", () => {
    expect(kern("WARNINGS", "FRICTION_STRESS", ...other(100, 0.9))).toEqual({
      value: expect.stringMatching(/^μ .*; σp0 /) as string,
    });
  });

  it("takes the id in any case, with or without the namespace, and arguments as ranges of one cell", () => {
    const told = kern("WARNINGS", "FRICTION_STRESS", ...other(100));
    expect(kern("WARNINGS", "kern.friction_stress", ...other(100))).toEqual(told);
    expect(kern("WARNINGS", [["FRICTION_STRESS"]], ...other(100).map((v) => [[v]]))).toEqual(told);
  });

  it("gives the refusal's text where the call is refused", () => {
    expect(kern("WARNINGS", "FRICTION_STRESS", ...other(-1))).toEqual({
      value: expect.stringMatching(/is below 0 MPa/) as string,
    });
  });

  it("refuses an unknown or missing function", () => {
    expect(kern("WARNINGS", "FRICTON", 1)).toEqual(message(/“FRICTON” is no function of KERN/));
    expect(kern("WARNINGS", null)).toEqual(message(/is missing/));
  });

  it("asks for each row where a column stands for a cell, and tells what rows have in common once", () => {
    const stress = [[1400], [1500], [1600], [1400]];
    const told = kern("WARNINGS", "RELAXATION_LOSS_EN1992_2004", 1860, 2, stress, 500_000) as {
      readonly value: string;
    };
    expect(told.value).toBe(
      "σpi is above 0.8 fpk, beyond the usual tests of relaxation (row 2; so in 2 of 4 rows, the last row 3)",
    );
    expect(kern("WARNINGS", "RELAXATION_LOSS_EN1992_2004", 1860, 2, [[1300], [1400]], 500_000)).toEqual({ value: "" });
    // More rows than can be answered at once are refused, fewer beside long ranges.
    const rows = (count: number) => Array.from({ length: count }, (_, i) => [5 + i / 1000]);
    const asked = (count: number) => kern("WARNINGS", "RELAXATION_LOSS_EN1992_2004", 1860, 2, rows(count), 500_000);
    expect(asked(1000)).toHaveProperty("value");
    expect(asked(1001)).toEqual(message(/columns of 1001 rows, a call for each; allowed: at most 1000 rows/));
    const points = Array.from({ length: 100 }, (_, i) => [i, 0, "LINE"]);
    expect(kern("WARNINGS", "TENDON_ECCENTRICITY", points, rows(200))).toHaveProperty("value");
    expect(kern("WARNINGS", "TENDON_ECCENTRICITY", points, rows(201))).toEqual(
      message(/allowed beside ranges of 100 rows: at most 200 rows/),
    );
    // A refused row keeps its reason.
    const refused = kern("WARNINGS", "RELAXATION_LOSS_EN1992_2004", 1860, 2, [[1300], ["–"]], 500_000);
    expect((refused as { readonly value: string }).value).toMatch(/is the text “–”.*\(row 2\)/);
  });
});
