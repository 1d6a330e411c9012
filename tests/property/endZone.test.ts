import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formulas, run, type Argument } from "../../src/core/index.ts";

const call = (id: string, ...args: readonly Argument[]): number =>
  run(
    formulas.find((f) => f.id === id)!,
    args,
  );
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("end zones", () => {
  it("hold a spreading strut in equilibrium: half the force turns from a/4 to b/4 over half the height", () => {
    fc.assert(
      fc.property(between(50, 200), between(210, 500), between(1000, 3000), between(100, 5000), (a, b, H, F) => {
        // The tie's lever arm is b/2 where the strut spreads to b, and H/4 with b_ef = 0.5 H + 0.65 a where it spreads over H.
        const partial = ((F / 2) * (b / 4 - a / 4)) / (b / 2);
        expect(call("BURSTING_FORCE_EN1992_2004", a, b, H, F)).toBeCloseTo(partial, 9);
        const spread = 0.5 * H + 0.65 * a;
        const full = ((F / 2) * (spread / 4 - a / 4)) / (H / 4);
        const wide = call("BURSTING_FORCE_EN1992_2004", a, H, H, F);
        // F/2·(0.5 H − 0.35 a)/H is F/4·(1 − 0.7 a/H).
        expect(wide / full).toBeCloseTo(1, 9);
      }),
    );
  });

  it("bear three times the strength at most", () => {
    expect(call("BEARING_RESISTANCE_EN1992_2004", 10_000, 1e6, 20)).toBeCloseTo(3 * 10_000 * 20e-3, 9);
    expect(call("BEARING_RESISTANCE_EN1992_2004", 10_000, 10_000, 20)).toBeCloseTo(200, 9);
  });
});

describe("composite members", () => {
  it("are in equilibrium with themselves under unequal shrinkage", () => {
    fc.assert(
      fc.property(
        between(60, 200),
        between(-3e-4, 3e-4),
        between(0, 3),
        between(20, 45),
        between(25, 45),
        (t, dEps, phi, E_t, E_c) => {
          const [b, b_t, h] = [300, 1200, 600];
          const [A_m, A_t, n] = [b * h, b_t * t, E_t / E_c];
          const A = A_m + n * A_t;
          const y_b = (A_m * (h / 2) + n * A_t * (h + t / 2)) / A;
          const I =
            (b * h ** 3) / 12 + A_m * (y_b - h / 2) ** 2 + n * ((b_t * t ** 3) / 12 + A_t * (h + t / 2 - y_b) ** 2);
          const at = (height: number, part: string): number =>
            call("DIFFERENTIAL_SHRINKAGE_STRESS", A, I, A_t, y_b - h - t / 2, y_b - height, E_t, E_c, dEps, phi, part);
          // Stresses are straight within a part: force by the mean, moment by the rule of Simpson.
          const [m0, m1, m2] = [at(0, "MEMBER"), at(h / 2, "MEMBER"), at(h, "MEMBER")];
          const [t0, t1, t2] = [at(h, "TOPPING"), at(h + t / 2, "TOPPING"), at(h + t, "TOPPING")];
          const force = m1 * A_m + t1 * A_t;
          const moment = (A_m * (2 * m1 * h + m2 * h)) / 6 + (A_t * (t0 * h + 4 * t1 * (h + t / 2) + t2 * (h + t))) / 6;
          const size = Math.abs(m0) * A_m + Math.abs(t1) * A_t + 1;
          expect(Math.abs(force) / size).toBeLessThan(1e-9);
          expect(Math.abs(moment) / (size * h)).toBeLessThan(1e-9);
        },
      ),
    );
  });

  it("share a slab's shrinkage as computed by hand", () => {
    // Slab 400 × 40 on a beam 100 × 200 of one modulus, 30 GPa, Δε = 100·10⁻⁶: F = 48 kN.
    const [A, y_b] = [36_000, (20_000 * 100 + 16_000 * 220) / 36_000];
    const I = (100 * 200 ** 3) / 12 + 20_000 * (y_b - 100) ** 2 + (400 * 40 ** 3) / 12 + 16_000 * (220 - y_b) ** 2;
    const at = (height: number, part: string): number =>
      call("DIFFERENTIAL_SHRINKAGE_STRESS", A, I, 16_000, y_b - 220, y_b - height, 30, 30, 1e-4, 0, part);
    expect(at(240, "TOPPING")).toBeCloseTo(-0.26, 2);
    expect(at(200, "TOPPING")).toBeCloseTo(-0.91, 2);
    expect(at(200, "MEMBER")).toBeCloseTo(2.09, 2);
    expect(at(0, "MEMBER")).toBeCloseTo(-1.16, 2);
  });

  it("hold more in a rougher joint, with steel and with compression", () => {
    const of = (surface: string, rho: number, sigma: number): number =>
      call("INTERFACE_RESISTANCE_EN1992_2004", surface, 30, 1.35, 435, rho, sigma);
    const surfaces = ["VERY_SMOOTH", "SMOOTH", "ROUGH", "INDENTED"];
    const held = surfaces.map((surface) => of(surface, 0.001, 0.1));
    expect([...held].sort((a, b) => a - b)).toEqual(held);
    expect(of("ROUGH", 0.002, 0.1)).toBeGreaterThan(of("ROUGH", 0.001, 0.1));
    expect(of("ROUGH", 0, -0.1)).toBe(0);
    expect(of("ROUGH", 0.09, 1)).toBeCloseTo(0.5 * 0.6 * (1 - 30 / 250) * 20, 9);
  });
});
