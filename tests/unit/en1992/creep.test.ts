import { describe, expect, it, test } from "vitest";
import { expectPrinted, expectRefusal, kern, stepsOf, warningsOf } from "./kern.ts";

describe("creep coefficient", () => {
  // "Finding creep coefficient for Pier cap", design-office pages to IRC:112 Annexure A-2, public copy, text seen.
  // IRC:112 has the equations of Annex B with constants for cube strength: 43.75 = 35/0.8 in α_3 and 18.78 = 16.8/√0.8 in
  // β(f_cm). Its 45 MPa therefore stand for 36 MPa here. It leaves α_1 and α_2 out of φ_RH up to 45 MPa (here up to 35 MPa),
  // so that φ_RH compares in the branch without them, and φ itself does not compare.
  it("has the published factors", () => {
    const steps = stepsOf("CREEP_COEFFICIENT", 677.419, 36, "N", 45, 90, 25550);
    expectPrinted(steps.beta_fcm!, "2.800");
    expectPrinted(steps.beta_t0!, "0.391");
    expectPrinted(steps.beta_H!, "1262.65");
    expectPrinted(steps.beta_c!, "0.986");
    expectPrinted(stepsOf("CREEP_COEFFICIENT", 677.419, 35, "N", 45, 90, 25550).phi_RH!, "1.626");
  });

  it("takes both laws of humidity and β_H as one at f_cm = 35 MPa", () => {
    const below = kern("CREEP_COEFFICIENT", 300, 35, "N", 60, 28, 10000);
    const above = kern("CREEP_COEFFICIENT", 300, 35 + 1e-9, "N", 60, 28, 10000);
    expect(above / below).toBeCloseTo(1, 9);
  });

  it("loses the size effect at 100 % humidity for f_cm up to 35 MPa", () => {
    expect(stepsOf("CREEP_COEFFICIENT", 100, 33, "N", 100, 28, 10000).phi_RH).toBe(1);
  });

  it("bounds β_H by 1500 α_3", () => {
    expect(stepsOf("CREEP_COEFFICIENT", 1500, 33, "N", 80, 28, 10000).beta_H).toBe(1500);
    const strong = stepsOf("CREEP_COEFFICIENT", 1500, 68, "N", 80, 28, 10000);
    expect(strong.beta_H).toBe(1500 * strong.alpha_3!);
  });

  it("adjusts the age at loading by cement class and never below half a day", () => {
    // (B.9) at t_0 = 1 d: 9/(2 + 1) + 1 = 4; by hand.
    expect(stepsOf("CREEP_COEFFICIENT", 300, 48, "R", 70, 1, 1000).t_0adj).toBe(4);
    expect(stepsOf("CREEP_COEFFICIENT", 300, 48, "N", 70, 1, 1000).t_0adj).toBe(1);
    expect(stepsOf("CREEP_COEFFICIENT", 300, 48, "S", 70, 1, 1000).t_0adj).toBe(0.5);
  });

  it("takes a temperature-adjusted age for the age at loading, and real days for the duration", () => {
    const steps = stepsOf("CREEP_COEFFICIENT", 300, 48, "N", 70, 1, 1000, 7);
    expect(steps.t_0adj).toBe(7);
    expect(steps.beta_c).toBe(stepsOf("CREEP_COEFFICIENT", 300, 48, "N", 70, 1, 1000).beta_c);
  });

  it("warns below 40 % humidity", () => {
    expect(warningsOf("CREEP_COEFFICIENT", 300, 48, "N", 35, 7, 1000)).toEqual([
      "RH (relative humidity of the surroundings) = 35 % is outside the range of EN 1992-1-1 3.1.4(5), 40 to 100 %",
    ]);
    expect(warningsOf("CREEP_COEFFICIENT", 300, 48, "N", 40, 7, 1000)).toEqual([]);
  });

  test.each([
    [
      "before loading",
      () => kern("CREEP_COEFFICIENT", 300, 48, "N", 70, 28, 27),
      "t (age of concrete at which creep is wanted) = 27 days is below 28 days, the age at loading; allowed: at least 28 days",
    ],
    [
      "humidity",
      () => kern("CREEP_COEFFICIENT", 300, 48, "N", 101, 28, 100),
      "RH (relative humidity of the surroundings) = 101 % is above 100 %; allowed: 0 to 100 %",
    ],
    [
      "size",
      () => kern("CREEP_COEFFICIENT", 0, 48, "N", 70, 28, 100),
      "h0 (notional size) = 0 mm is not above 0 mm; allowed: above 0 mm",
    ],
    [
      "strength",
      () => kern("CREEP_COEFFICIENT", 300, 110, "N", 70, 28, 100),
      "fcm (mean cylinder strength at 28 days) = 110 MPa is above 98 MPa; allowed: 20 to 98 MPa",
    ],
    [
      "loading missing",
      () => kern("CREEP_COEFFICIENT", 300, 48, "N", 70, "", 100),
      "t0 (age of concrete at loading) is missing; a number in days is needed (allowed: above 0 days)",
    ],
  ])("refuses %s", (_, refused, message) => {
    expectRefusal(refused, message);
  });
});

describe("notional size", () => {
  it("is that of the published sheets", () => {
    // IRC:112 design-office sheets, public copies, text seen: A 1.469022 m² and u 4.974 m; A 7.174 m² and u 35.14 m.
    expectPrinted(kern("NOTIONAL_SIZE", 1.469022e6, 4974), "590.6803");
    expectPrinted(kern("NOTIONAL_SIZE", 7.174e6, 35140), "408.3");
  });
});

describe("temperature-adjusted age", () => {
  it("counts a day at 20 °C as 0.998 days", () => {
    // (B.10) at 20 °C, recomputed by hand: e^−(4000/293 − 13.65) = 0.9981.
    expectPrinted(kern("TEMPERATURE_ADJUSTED_AGE", [[20, 1]]), "0.9981");
  });

  it("adds spans, in whatever order", () => {
    const whole = kern("TEMPERATURE_ADJUSTED_AGE", [
      [20, 0.25],
      [60, 0.5],
      [30, 0.75],
    ]);
    const parts = [
      [20, 0.25],
      [60, 0.5],
      [30, 0.75],
    ].map((row) => kern("TEMPERATURE_ADJUSTED_AGE", [row]));
    expect(whole).toBeCloseTo(
      parts.reduce((a, b) => a + b),
      12,
    );
    expect(
      kern("TEMPERATURE_ADJUSTED_AGE", [
        [30, 0.75],
        [20, 0.25],
        [60, 0.5],
      ]),
    ).toBeCloseTo(whole, 12);
  });

  test.each([
    [
      "hotter than 80 °C",
      [
        [20, 1],
        [85, 1],
      ],
      "T (mean concrete temperature during Δt) in row 2 of the range = 85 °C is above 80 °C; allowed: 0 to 80 °C",
    ],
    [
      "three columns",
      [[20, 1, 2]],
      "T, Δt (temperature history) is a range of 3 columns; 2 are needed: T (mean concrete temperature during Δt), Δt (duration)",
    ],
    [
      "an empty range",
      [],
      "T, Δt (temperature history) has 0 rows; at least 1 is needed, each with T (mean concrete temperature during Δt), Δt (duration)",
    ],
  ])("refuses %s", (_, history, message) => {
    expectRefusal(() => kern("TEMPERATURE_ADJUSTED_AGE", history), message);
  });
});

describe("non-linear creep", () => {
  it("starts at 0.45 of the strength", () => {
    expect(kern("NONLINEAR_CREEP_COEFFICIENT", 30, 2, 13.5)).toBe(2);
    expect(kern("NONLINEAR_CREEP_COEFFICIENT", 30, 2, 13.5 + 1e-9)).toBeCloseTo(2, 8);
  });

  it("grows by e^(1.5 (k − 0.45))", () => {
    // k_σ = 0.55: 2 e^0.15, by hand.
    expectPrinted(kern("NONLINEAR_CREEP_COEFFICIENT", 30, 2, 16.5), "2.32367");
  });

  it("cautions above 0.6 of the strength only", () => {
    expect(warningsOf("NONLINEAR_CREEP_COEFFICIENT", 30, 2, 17.9)).toEqual([]);
    expect(warningsOf("NONLINEAR_CREEP_COEFFICIENT", 30, 2, 18.1)).toEqual([
      "σc is above 0.6 fck(t0), the most that EN 1992-1-1 5.10.2.2(5) allows at transfer",
    ]);
  });
});
