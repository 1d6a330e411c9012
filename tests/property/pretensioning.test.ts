import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formulas, InputError, run, type Argument } from "../../src/core/index.ts";
import { between, runs } from "./draws.ts";

const kern = (id: string, ...args: Argument[]): number =>
  run(
    formulas.find((f) => f.id === id)!,
    args,
  );
const close = (found: number, expected: number, scale = Math.abs(expected)): void =>
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(1e-9 * Math.max(scale, 1e-9));

describe("bond and transmission", () => {
  it("builds up in a straight line from the end of debonding and is whole after the transmission length", () => {
    fc.assert(
      fc.property(between(8, 40), between(0, 1.5), between(200, 1500), between(0, 1), (L, a, lpt, part) => {
        expect(kern("BOND_FRACTION", L, a, a, lpt, a * part)).toBe(0);
        close(kern("BOND_FRACTION", L, a, a, lpt, a + (part * lpt) / 1000), part, 1);
        close(kern("BOND_FRACTION", L, a, a, lpt, L / 2), 1);
        close(kern("TRANSMISSION_END", a, lpt), a + lpt / 1000);
        expect(
          kern("BOND_FRACTION", L, a, a, lpt, Math.min(L / 2, kern("TRANSMISSION_END", a, lpt) + 1e-9)),
        ).toBeCloseTo(1, 9);
      }),
    );
  });
  it("is the same seen from the right end", () => {
    fc.assert(
      fc.property(
        between(8, 40),
        between(0, 1.5),
        between(0, 1.5),
        between(200, 1500),
        between(0, 1),
        (L, a, b, lpt, part) => {
          close(kern("BOND_FRACTION", L, a, b, lpt, L * part), kern("BOND_FRACTION", L, b, a, lpt, L - L * part), 1e-3);
        },
      ),
    );
  });
  it("has a lower and an upper length, and a fifth less and more of the basic one between", () => {
    fc.assert(
      fc.property(
        between(5, 18),
        between(500, 1450),
        between(1, 5),
        fc.constantFrom("STRAND", "INDENTED_WIRE"),
        (phi, sigma, f, tendon) => {
          const basic = kern("TRANSMISSION_LENGTH_EN1992_2004", phi, tendon, f, sigma, "GRADUAL");
          close(
            kern("TRANSMISSION_LENGTH_BOUND_EN1992_2004", basic, "LOWER") +
              kern("TRANSMISSION_LENGTH_BOUND_EN1992_2004", basic, "UPPER"),
            2 * basic,
          );
          close(kern("TRANSMISSION_LENGTH_EN1992_2004", phi, tendon, f, sigma, "SUDDEN"), 1.25 * basic);
          expect(kern("DISPERSION_LENGTH_EN1992_2004", basic, 400)).toBeGreaterThan(basic);
          const upper = kern("TRANSMISSION_LENGTH_BOUND_EN1992_2004", basic, "UPPER");
          expect(kern("ANCHORAGE_LENGTH_EN1992_2004", upper, phi, tendon, f, sigma, sigma)).toBe(upper);
          expect(kern("ANCHORAGE_LENGTH_EN1992_2004", upper, phi, tendon, f, sigma + 200, sigma)).toBeGreaterThan(
            upper,
          );
        },
      ),
    );
  });
  it("needs a longer way in weaker concrete", () => {
    fc.assert(
      fc.property(between(1, 3), between(1.01, 2), (f, more) => {
        const weak = kern("BOND_STRENGTH_EN1992_2004", f, "STRAND", "TRANSMISSION", "GOOD"),
          strong = kern("BOND_STRENGTH_EN1992_2004", f * more, "STRAND", "TRANSMISSION", "GOOD");
        expect(strong).toBeGreaterThan(weak);
        close(kern("BOND_STRENGTH_EN1992_2004", f, "STRAND", "TRANSMISSION", "OTHER"), 0.7 * weak);
      }),
    );
  });
  it("builds up the member's length less the debonded and transmission lengths", () => {
    // Area under the line, by the midpoint rule.
    fc.assert(
      fc.property(between(10, 40), between(0, 3), between(0, 3), between(200, 1500), (L, a, b, lpt) => {
        const n = 4000;
        let area = 0;
        for (let i = 0; i < n; i++) area += (kern("BOND_FRACTION", L, a, b, lpt, ((i + 0.5) * L) / n) * L) / n;
        expect(Math.abs(area - (L - a - b - lpt / 1000))).toBeLessThan(L / n);
      }),
      { numRuns: runs(10) },
    );
  });
  it("rests on the design tensile strength at release, and on that of 28 days for the anchorage", () => {
    fc.assert(
      fc.property(between(0.5, 4), between(1, 2), between(0.5, 1), (f, gammaC, alphaCt) => {
        const design = kern("CONCRETE_DESIGN_STRENGTH_EN1992_2004", f, "TENSION_AT_RELEASE", alphaCt, gammaC);
        close(kern("BOND_STRENGTH_EN1992_2004", f, "STRAND", "TRANSMISSION", "GOOD", gammaC, alphaCt) / design, 3.2);
        close(
          kern("BOND_STRENGTH_EN1992_2004", f, "INDENTED_WIRE", "TRANSMISSION", "GOOD", gammaC, alphaCt) / design,
          2.7,
        );
        // The lower fractile is 0.7 of the mean: the same design strength.
        close(
          kern("BOND_STRENGTH_EN1992_2004", 0.7 * f, "STRAND", "ANCHORAGE", "OTHER", gammaC, alphaCt) / design,
          1.2 * 0.7,
        );
        close(
          kern("BOND_STRENGTH_EN1992_2004", 0.7 * f, "INDENTED_WIRE", "ANCHORAGE", "GOOD", gammaC, alphaCt) / design,
          1.4,
        );
      }),
    );
  });
  it("agrees with a calculation by hand", () => {
    // C30 at release: f_ctm 2.896 MPa (Table 3.1 prints 2.9); 0.7·2.896/1.5 = 1.3515; ·3.2 = 4.3248 MPa;
    // 0.19·12.5·1200/4.3248 = 658.99 mm.
    const bond = kern("BOND_STRENGTH_EN1992_2004", 2.896, "STRAND", "TRANSMISSION", "GOOD", 1.5);
    expect(bond).toBeCloseTo(4.3247, 4);
    expect(kern("TRANSMISSION_LENGTH_EN1992_2004", 12.5, "STRAND", bond, 1200, "GRADUAL")).toBeCloseTo(659.01, 2);
  });
});

describe("the bed and heat curing", () => {
  it("counts the hours of heat by (10.2): by hand 1.14^30/30 · (20·4 + 30·6) = 441.5 h", () => {
    expect(
      kern("EQUIVALENT_TIME_HEAT_CURING_EN1992_2004", [
        [40, 4],
        [50, 6],
      ]),
    ).toBeCloseTo((50.9501586 / 30) * 260, 4);
    expect(kern("EQUIVALENT_TIME_HEAT_CURING_EN1992_2004", [[20, 100]])).toBe(0);
    expect(() =>
      kern("EQUIVALENT_TIME_HEAT_CURING_EN1992_2004", [
        [15, 4],
        [50, 6],
      ]),
    ).toThrow(InputError);
  });
  it("starts heat-cured strength at release and ends at 28 days", () => {
    fc.assert(
      fc.property(between(20, 50), between(50, 80), between(0.5, 5), (fp, fcm, tp) => {
        close(kern("HEAT_CURED_STRENGTH_EN1992_2004", fp, fcm, tp, tp), fp);
        close(kern("HEAT_CURED_STRENGTH_EN1992_2004", fp, fcm, 28, tp), fcm);
      }),
    );
  });
  it("loses nothing without a rise in temperature, and half of free expansion otherwise", () => {
    expect(kern("THERMAL_LOSS_EN1992_2004", 195, 20, 20)).toBe(0);
    expect(kern("THERMAL_LOSS_EN1992_2004", 195, 60, 20)).toBeCloseTo(39, 9);
  });
  it("takes elongation and draw-in by one law of elasticity", () => {
    fc.assert(
      fc.property(between(20, 150), between(185, 205), between(500, 1450), (bed, E, sigma) => {
        // A slip of the elongation under σ takes all of σ.
        close(kern("LOCK_OFF", bed, E, 1, "LOSS") * kern("BED_ELONGATION", bed, E, sigma), sigma);
      }),
    );
  });
  it("stretches 100 m of strand at 1395 MPa by 715.4 mm, and loses what the general draw-in without friction loses", () => {
    expect(kern("BED_ELONGATION", 100, 195, 1395)).toBeCloseTo(715.3846, 4);
    fc.assert(
      fc.property(between(0.1, 10), between(20, 150), between(185, 205), (slip, bed, E) => {
        close(kern("LOCK_OFF", bed, E, slip, "LOSS"), kern("DRAW_IN_UNIFORM", bed, E, 0, slip, "LOSS"));
      }),
    );
  });
  it("gains strength all the way from release to 28 days, and never beyond", () => {
    fc.assert(
      fc.property(
        between(20, 50),
        between(51, 80),
        between(0.5, 5),
        between(0, 1),
        between(0.001, 1),
        (fp, fcm, tp, part, more) => {
          const early = tp + (28 - tp) * part * (1 - more),
            late = early + (28 - early) * more;
          const before = kern("HEAT_CURED_STRENGTH_EN1992_2004", fp, fcm, early, tp),
            after = kern("HEAT_CURED_STRENGTH_EN1992_2004", fp, fcm, Math.min(28, late), tp);
          expect(after).toBeGreaterThan(before);
          expect(after).toBeLessThanOrEqual(fcm * (1 + 1e-12));
        },
      ),
    );
  });
  it("holds down the vertical part of the force, more for a steeper rise, nothing for a straight row", () => {
    // 3-4-5: 0.3 m down over 0.4 m holds 3/5 of the force.
    expect(kern("HOLD_DOWN_FORCE", 100, 400, 0.4, 100)).toBeCloseTo(60, 9);
    expect(kern("HOLD_DOWN_FORCE", 250, 250, 5, 100)).toBe(0);
    fc.assert(
      fc.property(between(10, 5000), between(1, 800), between(1, 10), between(1.01, 3), (P, rise, dev, more) => {
        const force = kern("HOLD_DOWN_FORCE", 0, rise, dev, P);
        close(Math.hypot(force, (P * dev) / Math.hypot(dev, rise / 1000)), P);
        expect(kern("HOLD_DOWN_FORCE", 0, rise, dev * more, P)).toBeLessThan(force);
      }),
    );
  });
  it("draws deflected strands as the general tendon does", () => {
    fc.assert(
      fc.property(between(-300, 300), between(0, 500), between(2, 6), between(0, 1), (end, mid, dev, part) => {
        const L = 14,
          x = L * part;
        const general = kern(
          "TENDON_ECCENTRICITY",
          [
            [0, end, "LINE"],
            [dev, mid, "LINE"],
            [L - dev, mid, "LINE"],
            [L, end, "LINE"],
          ],
          x,
        );
        close(kern("DEFLECTED_ECCENTRICITY", end, mid, dev, L, x), general, 1);
      }),
    );
  });
});

describe("elastic loss at a level", () => {
  it(
    "is the loss by compatibility, both with the force after it on the gross section and with the force " +
      "before it on the transformed one",
    () => {
      fc.assert(
        fc.property(
          between(500, 4000),
          between(50, 500),
          between(0, 500),
          between(1e5, 5e5),
          between(5e9, 5e10),
          between(300, 4000),
          between(185, 205),
          between(22, 38),
          (P, e, Mg, A, I, Ap, Ep, Ec) => {
            const loss = kern("ELASTIC_LOSS_PRETENSION", A, I, e, Ap, Ep, Ec, P, Mg);
            const after = kern("CONCRETE_STRESS_AT_TENDON", A, I, e, P - (loss * Ap) / 1000, Mg);
            close(kern("ELASTIC_LOSS_AT_LEVEL", Ep, Ec, after), loss, 100);
            // A is the concrete alone here, so the steel adds (E_p/E_c) A_p at e.
            const steel = (Ep / Ec) * Ap,
              At = A + steel,
              shift = (steel * e) / At,
              It = I + A * shift ** 2 + steel * (e - shift) ** 2;
            const before = kern("CONCRETE_STRESS_AT_TENDON", At, It, e - shift, P, Mg);
            close(kern("ELASTIC_LOSS_AT_LEVEL", Ep, Ec, before), loss, 100);
          },
        ),
      );
    },
  );
});

describe("relaxation in stages", () => {
  it("never gives stress back, so that one stage's loss can be the next one's sum", () => {
    fc.assert(
      fc.property(
        between(0, 1000),
        between(1e-6, 300),
        fc.constantFrom(1, 2, 3),
        fc.constantFrom(0, 1e-3, 1, 1000),
        (sigma, earlier, c, dt) => {
          const more = kern("RELAXATION_LOSS_STAGED_EN1992_2004", 1860, c, sigma, earlier, dt);
          expect(more).toBeGreaterThanOrEqual(0);
          expect(kern("RELAXATION_LOSS_STAGED_EN1992_2004", 1860, c, sigma, more, dt)).toBeGreaterThanOrEqual(0);
        },
      ),
    );
  });
  it("changes nothing when a stage is split at constant length", () => {
    fc.assert(
      fc.property(
        between(900, 1400),
        fc.constantFrom(1, 2, 3),
        between(10, 1e4),
        between(10, 5e5),
        (sigma, c, first, then) => {
          const f = 1860;
          const before = kern("RELAXATION_LOSS_EN1992_2004", f, c, sigma, first);
          const whole = kern("RELAXATION_LOSS_EN1992_2004", f, c, sigma, first + then);
          // At constant length the stress falls by what has relaxed.
          close(before + kern("RELAXATION_LOSS_STAGED_EN1992_2004", f, c, sigma - before, before, then), whole);
        },
      ),
    );
  });
  it("begins as the plain law where nothing has relaxed before", () => {
    fc.assert(
      fc.property(between(900, 1400), between(10, 5e5), (sigma, t) => {
        close(
          kern("RELAXATION_LOSS_STAGED_EN1992_2004", 1860, 2, sigma, 0, t),
          kern("RELAXATION_LOSS_EN1992_2004", 1860, 2, sigma, t),
        );
      }),
    );
  });
});
