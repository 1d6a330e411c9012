import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formulas, run, type Argument } from "../../src/core/index.ts";
import { between } from "./draws.ts";

const call = (id: string, ...args: readonly Argument[]): number =>
  run(
    formulas.find((f) => f.id === id)!,
    args,
  );
/** Part of the span, no two nearer to each other than a fiftieth. */
const places = fc.integer({ min: 1, max: 49 }).map((n) => n / 50);
/** Where a tendon is harped; stations closer than 0.01 mm would count once. */
const harps = fc.oneof(between(0.1, 0.499), fc.constant(0.5));
const sides = [between(3, 60), between(1e8, 1e12), between(20, 45), between(100, 20_000)] as const;

/** Stations as a sheet has them: uneven, with every kink among them. */
const stationsOf = (L: number, kinks: readonly number[]): readonly number[] =>
  [...new Set([0, 0.08 * L, 0.22 * L, L / 4, 0.4 * L, L / 2, 0.68 * L, 0.75 * L, 0.9 * L, L, ...kinks])].sort(
    (a, b) => a - b,
  );
const column = (values: readonly number[]): readonly (readonly number[])[] => values.map((value) => [value]);
/** Deflection of a member on two supports whose curvature is known at the stations. */
function bent(
  rows: readonly (readonly [number, number])[],
  left: number,
  right: number,
  x: number,
  what = "DEFLECTION_FROM_CURVATURE",
): number {
  return call(what, column(rows.map(([at]) => at)), column(rows.map(([, kappa]) => kappa)), left, right, x);
}
const midspan = (L: number, at: (x: number) => number, kinks: readonly number[] = []): number =>
  bent(
    stationsOf(L, kinks).map((x) => [x, at(x)] as const),
    0,
    L,
    L / 2,
  );
const close = (found: number, wanted: number): void =>
  expect(Math.abs(found - wanted)).toBeLessThan(1e-9 * (1e-6 + Math.abs(wanted)) + 1e-9);

describe("deflection from curvature", () => {
  const profiles = ["STRAIGHT", "PARABOLA", "HARPED"] as const;
  it.each(profiles)("is the closed form for a tendon of uniform force: %s", (profile) => {
    fc.assert(
      fc.property(...sides, between(20, 900), between(-400, 400), harps, (L, I, E, P, e, end, part) => {
        const a = part * L;
        const bow = (x: number): number => (4 * x * (L - x)) / (L * L);
        const rise = (x: number): number => Math.min(1, x / a, (L - x) / a);
        const at = {
          STRAIGHT: () => e,
          PARABOLA: (x: number) => end + (e - end) * bow(x),
          HARPED: (x: number) => end + (e - end) * rise(x),
        }[profile];
        const kappa = (x: number): number => call("CURVATURE", I, at(x), E, P, 0);
        const more = { STRAIGHT: [], PARABOLA: [end], HARPED: [end, a] }[profile];
        const closed = call("PRESTRESS_CAMBER", L, I, E, P, e, profile, ...more);
        close(midspan(L, kappa, profile === "HARPED" ? [a, L - a] : []), -closed);
      }),
    );
  });

  it("is the closed form for halves of tendons, and for uniform and point loads", () => {
    fc.assert(
      fc.property(...sides, between(20, 900), between(0.05, 0.95), (L, I, E, P, e, part) => {
        const sloping = (x: number): number => call("CURVATURE", I, (e * x) / L, E, P, 0);
        close(midspan(L, sloping), -call("PRESTRESS_CAMBER", L, I, E, P, e, "SLOPING"));
        // Vertex at the left end, level there: e(1 − (x/L)²).
        const half = (x: number): number => call("CURVATURE", I, e * (1 - (x / L) ** 2), E, P, 0);
        close(midspan(L, half), -call("PRESTRESS_CAMBER", L, I, E, P, e, "HALF_PARABOLA"));
        const w = P / 100;
        const F = P / 10;
        const a = part * L;
        const point = (x: number): number => (F * Math.min(x, a) * (L - Math.max(x, a))) / L;
        close(
          midspan(L, (x) => call("CURVATURE", I, 0, E, 0, point(x)), [a]),
          call("DEFLECTION_POINT_LOAD", L, I, E, F, a, L / 2),
        );
        // The moment of a uniform load is a parabola, which stations hold exactly.
        const uniform = (x: number): number => call("CURVATURE", I, 0, E, 0, (w * x * (L - x)) / 2);
        close(midspan(L, uniform), call("DEFLECTION_UNIFORM", L, I, E, w));
      }),
    );
  });

  it("is the closed form for a member on supports away from its ends", () => {
    fc.assert(
      fc.property(...sides, between(0, 0.4), (L, I, E, P, part) => {
        const [w, a] = [P / 100, part * L];
        const moment = (x: number): number => call("MOMENT_UNIFORM", L, w, x, "OVERHANG", a);
        const rows = stationsOf(L, [a, L - a]).map((x) => [x, call("CURVATURE", I, 0, E, 0, moment(x))] as const);
        close(bent(rows, a, L - a, L / 2), call("DEFLECTION_UNIFORM", L, I, E, w, "OVERHANG", a));
      }),
    );
  });

  it("follows Betti's theorem: load and place change places", () => {
    fc.assert(
      fc.property(...sides, places, places, (L, I, E, P, one, two) => {
        const [a, x] = [one * L, two * L];
        const deflection = (load: number, place: number): number => {
          const moment = (s: number): number => (P * Math.min(s, load) * (L - Math.max(s, load))) / L;
          const rows = stationsOf(L, [load, place]).map((s) => [s, call("CURVATURE", I, 0, E, 0, moment(s))] as const);
          return bent(rows, 0, L, place);
        };
        close(deflection(a, x), deflection(x, a));
        close(deflection(a, x), call("DEFLECTION_POINT_LOAD", L, I, E, P, a, x));
      }),
    );
  });

  it("does the work of the prestress on the load: Σ F·v by prestress = ∫ P·e·κ of the loads", () => {
    fc.assert(
      fc.property(...sides, between(20, 900), between(0.1, 0.9), (L, I, E, P, e, part) => {
        const a = part * L;
        const F = 50;
        const tendon = (x: number): number => e * ((4 * x * (L - x)) / (L * L));
        const camber = stationsOf(L, [a]).map((x) => [x, call("CURVATURE", I, tendon(x), E, P, 0)] as const);
        const byLoad = bent(camber, 0, L, a) * F;
        // The other side: the tendon's forces over the deflection of the load. A parabola pushes up 8·P·e/L² all along.
        const upward = (8 * P * e) / 1000 / (L * L);
        const parts = 2000;
        let work = 0;
        for (let i = 0; i < parts; i++) {
          const x = (L * (i + 0.5)) / parts;
          work -= (upward * call("DEFLECTION_POINT_LOAD", L, I, E, F, a, x) * L) / parts;
        }
        expect(Math.abs(byLoad - work)).toBeLessThan(2e-6 * Math.abs(byLoad) + 1e-9);
      }),
      { numRuns: 10 },
    );
  });

  it("takes the stations in any order, and a place once", () => {
    const rows = [
      [0, 0],
      [3, -1],
      [6, -1.5],
      [9, -1],
      [12, 0],
    ] as const;
    const once = bent(rows, 0, 12, 5);
    const mixed = [3, 0, 4, 2, 1, 4].map((i) => rows[i]!);
    expect(bent(mixed, 0, 12, 5)).toBe(once);
    expect(bent(rows, 0, 12, 0)).toBe(0);
  });

  it("refuses a place outside the stations and supports in one place", () => {
    const rows = [
      [0, 1],
      [10, 1],
    ] as const;
    expect(() => bent(rows, 0, 10, 11)).toThrow("x");
    expect(() => bent(rows, 5, 5, 5)).toThrow("b");
  });
});

describe("slope and shortening", () => {
  it("rotate the ends by P·e·L/(2·E·I) under a straight tendon, a third less under a parabola", () => {
    fc.assert(
      fc.property(...sides, between(20, 900), (L, I, E, P, e) => {
        const turned = (P * 1e3 * e * L * 1e3) / (2 * E * 1e3 * I);
        const rows = (at: (x: number) => number) =>
          stationsOf(L, []).map((x) => [x, call("CURVATURE", I, at(x), E, P, 0)] as const);
        const straight = rows(() => e);
        const parabola = rows((x) => (e * 4 * x * (L - x)) / (L * L));
        close(bent(straight, 0, L, 0, "SLOPE_FROM_CURVATURE"), -turned);
        close(bent(straight, 0, L, L, "SLOPE_FROM_CURVATURE"), turned);
        close(bent(parabola, 0, L, 0, "SLOPE_FROM_CURVATURE"), (-2 / 3) * turned);
        close(bent(parabola, 0, L, L / 2, "SLOPE_FROM_CURVATURE"), 0);
      }),
    );
  });

  it("shorten the member by its mean strain", () => {
    fc.assert(
      fc.property(between(3, 60), between(1e-5, 2e-3), (L, eps) => {
        const places = stationsOf(L, []);
        close(call("MEMBER_SHORTENING", column(places), column(places.map(() => eps))), eps * L * 1000);
        const bow = column(places.map((x) => (eps * 4 * x * (L - x)) / (L * L)));
        close(call("MEMBER_SHORTENING", column(places), bow), (2 / 3) * eps * L * 1000);
      }),
    );
  });
});

describe("curvature", () => {
  it("is the same from moment and force as from the stresses of both fibres", () => {
    fc.assert(
      fc.property(
        between(300, 2000),
        between(200, 800),
        between(20, 45),
        between(100, 9000),
        between(-2e3, 4e3),
        (h, b, E, P, M) => {
          const [A, I, e] = [b * h, (b * h ** 3) / 12, 0.3 * h];
          const stress = (y: number): number => call("FIBRE_STRESS", A, I, e, P, M, y);
          close(call("CURVATURE_FROM_STRESSES", h, E, stress(-h / 2), stress(h / 2)), call("CURVATURE", I, e, E, P, M));
        },
      ),
    );
  });

  it("of a cracked section without tendons is the steel strain over the depth below the neutral axis", () => {
    fc.assert(
      fc.property(between(200, 600), between(300, 900), between(300, 3000), between(20, 300), (b, d, As, M) => {
        const [E_c, E_s, h] = [32, 200, d + 50];
        const outline = [
          [0, 0],
          [b, 0],
          [b, h],
          [0, h],
        ] as const;
        const layers = [[As, 50, E_s, 0]] as const;
        const kappa = call("CRACKED_CURVATURE", outline, layers, E_c, 0, M);
        const n = E_s / E_c;
        const rho = As / (b * d);
        const x = d * (Math.sqrt((n * rho) ** 2 + 2 * n * rho) - n * rho);
        const I = (b * x ** 3) / 3 + n * As * (d - x) ** 2;
        expect(kappa / ((M * 1e6) / (E_c * 1e3 * I) / 1e-6)).toBeCloseTo(1, 8);
      }),
    );
  });

  it("has the share of the cracked state 0 until it cracks, 1 − β in the limit just after, rising to 1", () => {
    const share = (ratio: number, loading: string): number => call("CRACKED_SHARE_EN1992_2004", ratio, loading);
    expect(share(1, "SHORT")).toBe(0);
    expect(share(1.5, "SUSTAINED")).toBe(0);
    expect(share(0.999999, "SHORT")).toBeCloseTo(0, 5);
    expect(share(0.999999, "SUSTAINED")).toBeCloseTo(0.5, 5);
    expect(share(0, "SUSTAINED")).toBe(1);
    expect(share(0.5, "SHORT")).toBeCloseTo(0.75, 12);
  });

  it("by shrinkage is (7.21), and moduli divide by 1 + φ", () => {
    expect(call("SHRINKAGE_CURVATURE_EN1992_2004", 5e9, 4e5, 3e-4, 18)).toBeCloseTo(0.432, 12);
    expect(call("EFFECTIVE_MODULUS_EN1992_2004", 35, 1.5)).toBeCloseTo(14, 12);
    expect(call("AGE_ADJUSTED_MODULUS", 35, 1.5, 0.8)).toBeCloseTo(35 / 2.2, 12);
  });
});

describe("a member of which the left half is known", () => {
  it("bends and shortens as the whole one", () => {
    fc.assert(
      fc.property(...sides, between(20, 900), places, (L, I, E, P, e, part) => {
        const half = [0, 0.1, 0.2, 0.35, 0.5].map((at) => at * L);
        const whole = [...half, ...half.slice(0, -1).map((at) => L - at)];
        const kappa = (x: number): number => call("CURVATURE", I, (e * 4 * x * (L - x)) / (L * L), E, P, 0);
        const of = (stations: readonly number[], ...options: readonly string[]): number =>
          call(
            "DEFLECTION_FROM_CURVATURE",
            column(stations),
            column(stations.map(kappa)),
            0,
            L,
            part * L,
            "PARABOLA",
            ...options,
          );
        close(of(half, "MIRRORED"), of(whole));
        const strains = half.map((x) => (x * 1e-3) / L);
        const short = call("MEMBER_SHORTENING", column(half), column(strains), "LINE");
        close(call("MEMBER_SHORTENING", column(half), column(strains), "LINE", "MIRRORED"), 2 * short);
      }),
    );
  });
});
