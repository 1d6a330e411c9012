import { describe, expect, it } from "vitest";
import { expectRefusal, kern, stepsOf } from "./kern.ts";

// Invented numbers of the usual size: A_p, A_c, I_c, z_cp, E_p, E_cm, φ.
const section = [2850, 600000, 8e10, 450, 195, 35, 1.8] as const;
const [eps, relaxation] = [0.00035, 50] as const;
// Prestress and self-weight with 1.8, a later load that relieves with 1.2.
const changes = [
  [1.8, 11],
  [1.2, -3],
];
const creepStress = 1.8 * 11 - 1.2 * 3;

describe("combined time-dependent loss", () => {
  it("closes the balance of section and tendon, found by bisection", () => {
    // Steel and concrete at the tendon shorten alike: (Δσ − 0.8 Δσ_pr)/E_p = ε_cs + Σφ_i Δσ_i/E_cm − Δσ A_p (1/A_c +
    // z²/I_c)(1 + 0.8 φ)/E_cm.
    const [A_p, A_c, I_c, z, E_p, E_cm, phi] = section;
    const gap = (loss: number): number =>
      (loss - 0.8 * relaxation) / (E_p * 1000) -
      (eps + creepStress / (E_cm * 1000) - (loss * A_p * (1 / A_c + (z * z) / I_c) * (1 + 0.8 * phi)) / (E_cm * 1000));
    let [low, high] = [0, 1000];
    while (high - low > 1e-11) {
      const middle = (low + high) / 2;
      if (gap(middle) > 0) high = middle;
      else low = middle;
    }
    expect(kern("TIME_DEPENDENT_LOSS", ...section, changes, eps, relaxation)).toBeCloseTo(low, 9);
  });

  it("is the sum of its three parts", () => {
    const parts =
      kern("TIME_DEPENDENT_LOSS", ...section, changes, null, null, "CREEP") +
      kern("TIME_DEPENDENT_LOSS", ...section, null, eps, null, "SHRINKAGE") +
      kern("TIME_DEPENDENT_LOSS", ...section, null, null, relaxation, "RELAXATION");
    expect(parts / kern("TIME_DEPENDENT_LOSS", ...section, changes, eps, relaxation)).toBeCloseTo(1, 14);
  });

  it("with one age is the product of one coefficient and the sum of the stresses", () => {
    const apart = [
      [1.8, 11],
      [1.8, -3],
    ];
    expect(kern("TIME_DEPENDENT_LOSS", ...section, apart, null, null, "CREEP")).toBeCloseTo(
      kern("TIME_DEPENDENT_LOSS", ...section, [[1.8, 8]], null, null, "CREEP"),
      12,
    );
  });

  it("shows the parts before restraint", () => {
    const steps = stepsOf("TIME_DEPENDENT_LOSS", ...section, changes, eps, relaxation);
    expect(steps.shrinkagePart).toBeCloseTo(68.25, 10);
    expect(steps.relaxationPart).toBeCloseTo(40, 12);
    expect(steps.creepPart).toBeCloseTo((195 / 35) * 16.2, 10);
  });

  it("gains stress where the concrete at the tendon is in tension", () => {
    expect(kern("TIME_DEPENDENT_LOSS", ...section, [[1.8, -2]], null, null, "CREEP")).toBeLessThan(0);
  });

  it("needs every argument", () => {
    expectRefusal(
      () => kern("TIME_DEPENDENT_LOSS", 2850, null, 8e10, 450, 195, 35, 1.8, changes, eps, relaxation),
      "Ac (area of the concrete section) is missing; a number in mm² is needed (allowed: above 0 and at most 1·10^9 mm²)",
    );
    expectRefusal(
      () => kern("TIME_DEPENDENT_LOSS", ...section, changes, 0.35, relaxation),
      "εcs (total shrinkage strain, shortening positive) = 0.35 is above 0.005; allowed: 0 to 0.005. A value in per mille?",
    );
  });
});
