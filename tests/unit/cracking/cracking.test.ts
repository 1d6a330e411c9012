import { describe, expect, test } from "vitest";
import { worksheetFunctions } from "../../../functions/index.ts";
import type { Argument } from "../../../src/core/index.ts";
import { crackedSection } from "../../independent/crackedSection.ts";

function value(id: string, ...args: readonly Argument[]): number {
  const f = worksheetFunctions.find((it) => it.id === id);
  if (!f) throw new Error(`there is no ${id}`);
  const result = f.call(args);
  if ("error" in result) throw new Error(result.error.message);
  return result.value as number;
}

describe("cracks by hand", () => {
  test("crack width: close bars, far bars, and never below 0.6 σ_s/E_s", () => {
    // ρ = (1000 + 0.5²·600)/50000 = 0.023; α_e = 200/35; c 40, φ 16.
    const rho = 0.023;
    const strain = (250 - ((0.4 * 3.5) / rho) * (1 + (200 / 35) * rho)) / 200e3;
    const spacing = 3.4 * 40 + (0.425 * 0.8 * 0.5 * 16) / rho;
    expect(strain).toBeGreaterThan((0.6 * 250) / 200e3);
    expect(value("CRACK_WIDTH_EN1992_2004", 1000, 600, 50000, 40, 16, 150, 600, 3.5, 200, 35, 0.5, 250)).toBeCloseTo(
      strain * spacing,
      10,
    );
    expect(value("CRACK_WIDTH_EN1992_2004", 1000, 600, 50000, 40, 16, 300, 600, 3.5, 200, 35, 0.5, 250)).toBeCloseTo(
      strain * 1.3 * 600,
      10,
    );
    expect(value("CRACK_WIDTH_EN1992_2004", 1000, 600, 50000, 40, 16, 150, 600, 3.5, 200, 35, 0.5, 50)).toBeCloseTo(
      ((0.6 * 50) / 200e3) * spacing,
      10,
    );
  });

  test("minimum reinforcement: rectangle in bending and under prestress, flange, tendons counted", () => {
    const min = (
      part: string,
      f: number,
      A_ct: number,
      size: number,
      ...[sigma_c, F_cr, sigma_s, xi_1, A_p, dsigma_p]: readonly number[]
    ): number =>
      value("MIN_CRACK_REINFORCEMENT_EN1992_2004", A_ct, size, A_p, f, xi_1, sigma_c, F_cr, sigma_s, dsigma_p, part);
    // 300 × 300, no axial force: k = 1, k_c = 0.4.
    expect(min("WEB", 3, 45000, 300, 0, 0, 240, 0.5, 0, 0)).toBeCloseTo((0.4 * 3 * 45000) / 240, 8);
    // 2 m high: k = 0.65, h* = 1 m, σ_c = 2: k_c = 0.4 [1 − 2/(1.5·2·3)].
    expect(min("WEB", 3, 4e5, 2000, 2, 0, 240, 0.5, 0, 0)).toBeCloseTo((0.4 * (1 - 2 / 9) * 0.65 * 3 * 4e5) / 240, 8);
    // In tension, σ_c = −1, h = 0.55 m: k_1 = 2/3, k = 0.825, k_c = 0.4 [1 + 1/((2/3)·3)] = 0.6.
    expect(min("WEB", 3, 1e5, 550, -1, 0, 240, 0.5, 0, 0)).toBeCloseTo((0.6 * 0.825 * 3 * 1e5) / 240, 8);
    // Flange of 500: k = 0.86; F_cr = 250 kN: 0.9·250000/(125000·3) = 0.6. Tendons 900 mm² · 0.5 · 100 MPa.
    expect(min("FLANGE", 3, 125000, 500, 0, 250, 240, 0.5, 900, 100)).toBeCloseTo(
      (0.6 * 0.86 * 3 * 125000 - 0.5 * 900 * 100) / 240,
      8,
    );
    expect(min("FLANGE", 3, 125000, 500, 0, 10, 240, 0.5, 0, 0)).toBeCloseTo((0.5 * 0.86 * 3 * 125000) / 240, 8);
  });

  test("bond ratio, effective zone, nominal cover and clear spacing", () => {
    expect(value("ADJUSTED_BOND_RATIO_EN1992_2004", 12, 48, 40, "POST_TENSIONED", "STRAND")).toBeCloseTo(
      Math.sqrt((0.5 * 12) / 48),
      12,
    );
    expect(value("ADJUSTED_BOND_RATIO_EN1992_2004", 0, 48, 60, "POST_TENSIONED", "STRAND")).toBeCloseTo(
      Math.sqrt(0.375),
      12,
    );
    expect(value("ADJUSTED_BOND_RATIO_EN1992_2004", 12, 10, 40, "PRE_TENSIONED", "INDENTED_WIRE")).toBeCloseTo(
      Math.sqrt((0.7 * 12) / 10),
      12,
    );
    expect(value("EFFECTIVE_TENSION_HEIGHT_EN1992_2004", 1000, 50, 600)).toBe(125);
    expect(value("EFFECTIVE_TENSION_HEIGHT_EN1992_2004", 1000, 100, 600)).toBe(200);
    expect(value("EFFECTIVE_TENSION_HEIGHT_EN1992_2004", 300, 100, 900)).toBe(150);
    expect(value("NOMINAL_COVER_EN1992_2004", 65, 35, "DUCT", 10)).toBe(75);
    expect(value("NOMINAL_COVER_EN1992_2004", 110, 35, "DUCT", 10)).toBe(90);
    expect(value("NOMINAL_COVER_EN1992_2004", 12.5, 25, "STRAND", 10)).toBe(35);
    expect(value("NOMINAL_COVER_EN1992_2004", 7, 10, "INDENTED_WIRE", 5)).toBe(22.5);
    expect(value("NOMINAL_COVER_EN1992_2004", 5, 0, "STRAND", 10)).toBe(20);
    expect(value("MIN_CLEAR_SPACING_EN1992_2004", 12.5, 16, "PRE_TENSIONED", "HORIZONTAL")).toBe(25);
    expect(value("MIN_CLEAR_SPACING_EN1992_2004", 5, 8, "PRE_TENSIONED", "HORIZONTAL")).toBe(20);
    expect(value("MIN_CLEAR_SPACING_EN1992_2004", 5, 16, "PRE_TENSIONED", "VERTICAL")).toBe(16);
    expect(value("MIN_CLEAR_SPACING_EN1992_2004", 45, 32, "POST_TENSIONED", "HORIZONTAL")).toBe(50);
    expect(value("MIN_CLEAR_SPACING_EN1992_2004", 30, 32, "POST_TENSIONED", "VERTICAL")).toBe(40);
  });
});

describe("the cracked section against strips and bisection", () => {
  const outline = [
    [-250, 0],
    [250, 0],
    [250, 250],
    [110, 250],
    [110, 1020],
    [450, 1020],
    [450, 1200],
    [-450, 1200],
    [-450, 1020],
    [-110, 1020],
    [-110, 250],
    [-250, 250],
  ];
  const strips = [
    { b: 500, from: 0, to: 250 },
    { b: 220, from: 250, to: 1020 },
    { b: 900, from: 1020, to: 1200 },
  ];
  const area = strips.reduce((sum, s) => sum + s.b * (s.to - s.from), 0);
  const y0 = strips.reduce((sum, s) => sum + (s.b * (s.to ** 2 - s.from ** 2)) / 2, 0) / area;
  const steel = [
    { A: 1800, y: 110, E: 195, free: 1200 },
    { A: 750, y: 210, E: 195, free: 1150 },
    { A: 900, y: 60, E: 200, free: -40 },
    { A: 600, y: 1150, E: 200, free: -40 },
  ];
  const layers = steel.map(({ A, y, E, free }) => [A, y, E, free]);

  test.each([3600, 4200, 5000])("M = %d kN·m", (M) => {
    const own = crackedSection(
      strips,
      steel.map((s) => ({ ...s, E: s.E * 1000 })),
      35000,
      M * 1e6,
      y0,
    );
    expect(value("CRACKED_SECTION", outline, layers, 35, 0, M, "COMPRESSION_DEPTH")).toBeCloseTo(own.x, 4);
    expect(value("CRACKED_SECTION", outline, layers, 35, 0, M, "CONCRETE_STRESS")).toBeCloseTo(own.top, 6);
    own.stress.forEach((stress, i) =>
      expect(value("CRACKED_SECTION", outline, layers, 35, 0, M, "STEEL_STRESS", i + 1)).toBeCloseTo(stress, 5),
    );
  });

  test("a small moment leaves it uncracked: the whole height is compressed", () => {
    expect(value("CRACKED_SECTION", outline, layers, 35, 0, 1200, "COMPRESSION_DEPTH")).toBe(1200);
  });
});

describe("cover and spacing of a grid of ducts", () => {
  const box = [
    [0, 0],
    [500, 0],
    [500, 1000],
    [-500, 1000],
    [-500, 0],
    [0, 0],
    [0, 200],
    [-350, 200],
    [-350, 800],
    [350, 800],
    [350, 200],
    [0, 200],
  ];
  test("a slit is no surface, the void is", () => {
    expect(value("TENDON_COVER", box, [[60, 90, 0, 1, 0]])).toBeCloseTo(60, 10);
    expect(value("TENDON_COVER", box, [[60, 150, 0, 1, 0]])).toBeCloseTo(20, 10);
    expect(value("TENDON_COVER", box, [[60, 500, 425, 1, 0]])).toBeCloseTo(45, 10);
    expect(value("TENDON_COVER", box, [[60, 500, 0, 1, 0]])).toBeLessThan(0);
  });
  test("spacing counts the more favourable direction; touching ducts fail", () => {
    const u = (dz: number, dy: number): number =>
      value(
        "TENDON_SPACING_UTILISATION",
        [
          [60, 100, 0, 1, 0],
          [60, 100 + dy, dz, 1, 0],
        ],
        60,
        50,
      );
    expect(u(120, 0)).toBeCloseTo(1, 12);
    expect(u(0, 110)).toBeCloseTo(1, 12);
    expect(u(90, 80)).toBeCloseTo(60 / (Math.hypot(90, 80) - 60), 12);
    expect(u(30, 20)).toBe(1000);
  });
  test("a kink is found, a smooth tendon has none", () => {
    const kink = [
      [0, 0, "LINE"],
      [12, 400, "LINE"],
      [24, 0, "LINE"],
    ];
    expect(value("TENDON_KINK_ANGLE", kink)).toBeCloseTo(2 * Math.atan(400 / 12000), 12);
    expect(
      value("TENDON_KINK_ANGLE", [
        [0, 0, "TO_LEVEL"],
        [12, 400, "FROM_LEVEL"],
        [24, 0, "LINE"],
      ]),
    ).toBeCloseTo(0, 12);
  });
});
