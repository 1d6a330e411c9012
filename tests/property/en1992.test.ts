import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formulas, run, trace, type Argument } from "../../src/core/index.ts";
import { between } from "./draws.ts";

const named = (id: string) => formulas.find((f) => f.id === `${id}_EN1992_2004`)!;
const kern = (id: string, ...args: Argument[]): number => run(named(id), args);

const cement = fc.constantFrom("S", "N", "R");
const strength = between(12, 90);
const meanStrength = between(20, 98);
const humidity = between(40, 100);
const size = between(50, 1500);
const age = between(0.5, 3650);
/** A factor above 1 by which one argument grows. */
const more = between(1, 3);

describe("creep coefficient", () => {
  it("is nothing at loading and grows with time", () => {
    fc.assert(
      fc.property(meanStrength, humidity, size, age, between(0, 30000), more, cement, (f, RH, h, t0, span, k, c) => {
        expect(kern("CREEP_COEFFICIENT", h, f, c, RH, t0, t0)).toBe(0);
        expect(kern("CREEP_COEFFICIENT", h, f, c, RH, t0, t0 + span * k)).toBeGreaterThanOrEqual(
          kern("CREEP_COEFFICIENT", h, f, c, RH, t0, t0 + span) * (1 - 1e-12),
        );
      }),
    );
  });
  it("falls with humidity at the end of time", () => {
    fc.assert(
      fc.property(meanStrength, between(40, 98), size, age, between(0, 1), cement, (f, RH, h, t0, part, c) => {
        const wetter = RH + (98 - RH) * part;
        // The last age a function takes: with β_H of at most 1500 days (1 + β_H/t)^−0.3 is 0.3·1500/10⁷ short of 1.
        expect(kern("CREEP_COEFFICIENT", h, f, c, wetter, t0, 1e7)).toBeLessThanOrEqual(
          kern("CREEP_COEFFICIENT", h, f, c, RH, t0, 1e7) * (1 + 4.5e-5),
        );
      }),
    );
  });
  it("falls with size and with the age at loading", () => {
    fc.assert(
      fc.property(meanStrength, humidity, size, age, more, between(1, 30000), cement, (f, RH, h, t0, k, span, c) => {
        const phi = kern("CREEP_COEFFICIENT", h, f, c, RH, t0, t0 + span);
        expect(kern("CREEP_COEFFICIENT", h * k, f, c, RH, t0, t0 + span)).toBeLessThanOrEqual(phi * (1 + 1e-12));
        // The same duration: only β(t_0) changes, apart from the rounding of t − t_0.
        expect(kern("CREEP_COEFFICIENT", h, f, c, RH, t0 * k, t0 * k + span)).toBeLessThanOrEqual(phi * (1 + 1e-9));
      }),
    );
  });
  it("is greater with stress, never smaller than the linear one", () => {
    fc.assert(
      fc.property(between(0, 5), between(0, 1), between(10, 90), more, (phi, share, f, k) => {
        const low = kern("NONLINEAR_CREEP_COEFFICIENT", f, phi, share * f);
        expect(low).toBeGreaterThanOrEqual(phi);
        expect(kern("NONLINEAR_CREEP_COEFFICIENT", f, phi, Math.min(share * k, 1) * f)).toBeGreaterThanOrEqual(
          low * (1 - 1e-12),
        );
      }),
    );
  });
});

describe("temperature-adjusted age", () => {
  it("agrees with its second way", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(between(0, 80), between(0.01, 30)), { minLength: 1, maxLength: 8 }), (rows) => {
        expect(Math.abs(trace(named("TEMPERATURE_ADJUSTED_AGE"), [rows]).proof!)).toBeLessThan(1e-12);
      }),
    );
  });
  it("grows with temperature", () => {
    fc.assert(
      fc.property(between(0, 79), between(0, 1), (T, step) => {
        expect(kern("TEMPERATURE_ADJUSTED_AGE", [[T + step, 1]])).toBeGreaterThanOrEqual(
          kern("TEMPERATURE_ADJUSTED_AGE", [[T, 1]]),
        );
      }),
    );
  });
});

describe("shrinkage", () => {
  it("starts at nothing with drying and grows with time", () => {
    fc.assert(
      fc.property(
        strength,
        humidity,
        size,
        between(0, 28),
        between(0, 30000),
        more,
        cement,
        (f, RH, h, ts, span, k, c) => {
          expect(kern("DRYING_SHRINKAGE", h, 0.0005, ts, ts)).toBe(0);
          expect(kern("AUTOGENOUS_SHRINKAGE", f, 0)).toBe(0);
          expect(kern("SHRINKAGE_STRAIN", h, f, c, RH, ts, ts + span * k)).toBeGreaterThanOrEqual(
            kern("SHRINKAGE_STRAIN", h, f, c, RH, ts, ts + span) * (1 - 1e-12),
          );
        },
      ),
    );
  });
  it("falls with humidity and with size", () => {
    fc.assert(
      fc.property(
        strength,
        between(20, 100),
        size,
        between(0, 28),
        between(0, 30000),
        more,
        cement,
        (f, RH, h, ts, span, k, c) => {
          const eps = kern("SHRINKAGE_STRAIN", h, f, c, RH, ts, ts + span);
          expect(kern("SHRINKAGE_STRAIN", h, f, c, Math.min(RH * k, 100), ts, ts + span)).toBeLessThanOrEqual(
            eps * (1 + 1e-12),
          );
          expect(kern("SHRINKAGE_STRAIN", h * k, f, c, RH, ts, ts + span)).toBeLessThanOrEqual(eps * (1 + 1e-12));
        },
      ),
    );
  });
  it("dries no more at 100 % humidity", () => {
    fc.assert(
      fc.property(meanStrength, cement, (f, c) => {
        expect(kern("DRYING_SHRINKAGE_NOMINAL", f, c, 100)).toBe(0);
      }),
    );
  });
});

describe("strength and stiffness in time", () => {
  it("grow with age", () => {
    fc.assert(
      fc.property(strength, between(3.001, 365), more, cement, (f, t, k, c) => {
        expect(kern("CONCRETE_AGE_FACTOR", c, t * k)).toBeGreaterThanOrEqual(kern("CONCRETE_AGE_FACTOR", c, t));
        expect(kern("CONCRETE_STRENGTH_AT_AGE", f, c, t * k, "CHARACTERISTIC")).toBeGreaterThanOrEqual(
          kern("CONCRETE_STRENGTH_AT_AGE", f, c, t, "CHARACTERISTIC") - 1e-9,
        );
      }),
    );
  });
  it("never exceed f_ck", () => {
    fc.assert(
      fc.property(strength, between(3.001, 3650), cement, (f, t, c) => {
        expect(kern("CONCRETE_STRENGTH_AT_AGE", f, c, t, "CHARACTERISTIC")).toBeLessThanOrEqual(f + 1e-9);
      }),
    );
  });
});

describe("relaxation", () => {
  it("grows with stress, time and ρ_1000", () => {
    fc.assert(
      fc.property(
        between(0.3, 0.9),
        between(1, 500000),
        between(0.5, 8),
        more,
        fc.constantFrom(1, 2, 3),
        (mu, t, rho, k, cls) => {
          const loss = kern("RELAXATION_LOSS", 1860, cls, mu * 1860, t, rho);
          expect(kern("RELAXATION_LOSS", 1860, cls, mu * 1860, t * k, rho)).toBeGreaterThanOrEqual(loss * (1 - 1e-12));
          expect(kern("RELAXATION_LOSS", 1860, cls, mu * 1860, t, Math.min(rho * k, 20))).toBeGreaterThanOrEqual(
            loss * (1 - 1e-12),
          );
          expect(kern("RELAXATION_LOSS", 1860, cls, Math.min(mu * k, 0.9) * 1860, t, rho)).toBeGreaterThanOrEqual(
            loss * (1 - 1e-12),
          );
        },
      ),
    );
  });
});

describe("combined loss", () => {
  it("is the sum of its parts, and less than without restraint", () => {
    fc.assert(
      fc.property(
        between(0, 0.001),
        between(0, 150),
        between(0, 30),
        between(-10, 0),
        between(0, 4),
        between(0, 1),
        between(100, 20000),
        between(1e5, 5e6),
        between(1e9, 1e13),
        between(-1500, 1500),
        (eps, rel, sigma, relief, phi, part, Ap, Ac, Ic, z) => {
          const changes = [
            [phi, sigma],
            [part * phi, relief],
          ];
          const section = [Ap, Ac, Ic, z, 195, 35, phi] as const;
          const total = kern("TIME_DEPENDENT_LOSS", ...section, changes, eps, rel);
          const parts =
            kern("TIME_DEPENDENT_LOSS", ...section, changes, null, null, "CREEP") +
            kern("TIME_DEPENDENT_LOSS", ...section, null, eps, null, "SHRINKAGE") +
            kern("TIME_DEPENDENT_LOSS", ...section, null, null, rel, "RELAXATION");
          expect(Math.abs(parts - total)).toBeLessThanOrEqual(1e-12 * Math.max(total, 1));
          const free = eps * 195000 + 0.8 * rel + (195 / 35) * phi * (sigma + part * relief);
          expect(Math.abs(total)).toBeLessThanOrEqual(Math.abs(free) * (1 + 1e-12) + 1e-9);
          // A relief that creeps with the coefficient of the prestress relieves no less than with its own, smaller one.
          const early = [
            [phi, sigma],
            [phi, relief],
          ];
          expect(kern("TIME_DEPENDENT_LOSS", ...section, early, eps, rel)).toBeLessThanOrEqual(total + 1e-9);
        },
      ),
    );
  });
});
