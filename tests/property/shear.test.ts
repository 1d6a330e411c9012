import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formulas, NoResult, run, type Argument } from "../../src/core/index.ts";
import { between, runs } from "./draws.ts";

const call = (id: string, ...args: readonly Argument[]): number =>
  run(
    formulas.find((f) => f.id === id)!,
    args,
  );

/** An I-section by rectangles from the soffit up: width, height. */
const parts = [
  [500, 180],
  [160, 620],
  [800, 150],
] as const;
const height = parts.reduce((sum, [, h]) => sum + h, 0);
const widthOf = (y: number): number => {
  let top = 0;
  for (const [b, h] of parts) if (y < (top += h)) return b;
  return 0;
};
const iSection = [
  [-250, 0],
  [250, 0],
  [250, 180],
  [80, 180],
  [80, 800],
  [400, 800],
  [400, 950],
  [-400, 950],
  [-400, 800],
  [-80, 800],
  [-80, 180],
  [-250, 180],
];
const slices = 19_000;

describe("shear of the uncracked web", () => {
  it("is the lowest on a dense grid of slices", () => {
    const step = height / slices;
    const at = (i: number): number => (i + 0.5) * step;
    const all = Array.from({ length: slices }, (_, i) => widthOf(at(i)) * step);
    const A = all.reduce((sum, a) => sum + a, 0);
    const y_b = all.reduce((sum, a, i) => sum + a * at(i), 0) / A;
    const I = all.reduce((sum, a, i) => sum + a * (at(i) - y_b) ** 2, 0);
    fc.assert(
      fc.property(
        between(500, 3000),
        between(0, 300),
        between(0, 600),
        between(0.8, 2),
        between(0, 80),
        (P, e, M, f, ducts) => {
          const compressed = (y: number): number => (P * 1e3) / A + ((P * 1e3 * e - M * 1e6) * (y_b - y)) / I;
          if (Math.min(compressed(0), compressed(height)) < -0.9 * f) return;
          let [S, least] = [0, Infinity];
          for (let i = slices - 1; i > 0; i--) {
            S += all[i]! * (at(i) - y_b);
            const y = i * step;
            const b = Math.min(widthOf(y - 1e-6), widthOf(y)) - ducts;
            least = Math.min(least, ((I * b) / S) * Math.sqrt(Math.max(0, f * f + compressed(y) * f)));
          }
          const V = call("SHEAR_RESISTANCE_WEB_EN1992_2004", iSection, f, P, e, M, ducts);
          expect(V / (least / 1e3)).toBeCloseTo(1, 3);
          expect(V).toBeLessThan((least / 1e3) * 1.0002);
        },
      ),
      { numRuns: runs(12) },
    );
  });

  it("is 0 where bending alone cracks an edge, however shallow the crack", () => {
    // M is what the rectangle bears without a crack, b·h²/6·f_ctd, and a little more: the rest of the section is whole.
    const rectangle = [
      [0, 0],
      [300, 0],
      [300, 1000],
      [0, 1000],
    ];
    const cracking = ((300 * 1000 ** 2) / 6) * 2e-6;
    expect(call("SHEAR_RESISTANCE_WEB_EN1992_2004", rectangle, 2, 0, 0, cracking * 1.001, 0)).toBe(0);
    expect(call("SHEAR_RESISTANCE_WEB_EN1992_2004", rectangle, 2, 0, 0, -cracking * 1.001, 0)).toBe(0);
    expect(call("SHEAR_RESISTANCE_WEB_EN1992_2004", rectangle, 2, 0, 0, cracking * 0.99, 0)).toBeGreaterThan(100);
  });

  it("is the lowest of all heights of a web that tapers, whichever strip it lies in", () => {
    // Half widths by height, straight between.
    fc.assert(
      fc.property(
        fc.array(between(60, 400), { minLength: 5, maxLength: 12 }),
        between(0, 4000),
        between(-200, 400),
        between(-300, 300),
        between(0.8, 2.5),
        (halves, P, e, M, f) => {
          const H = 1200;
          const part = H / (halves.length - 1);
          const right = halves.map((half, i) => [half, part * i] as const);
          const tapered = [...right, ...right.toReversed().map(([x, y]) => [-x, y] as const)];
          const halfAt = (y: number): number => {
            const i = Math.min(halves.length - 2, Math.floor(y / part));
            const u = y / part - i;
            return halves[i]! * (1 - u) + halves[i + 1]! * u;
          };
          const count = 240 * (halves.length - 1);
          const at = (i: number): number => (H * i) / count;
          // Simpson's rule is exact for what is needed of straight edges.
          const sum = (g: (y: number) => number, from: number): number => {
            let total = 0;
            for (let i = from; i < count; i++)
              total += (g(at(i)) + 4 * g(at(i + 0.5)) + g(at(i + 1))) * (H / count / 6);
            return total;
          };
          const b = (y: number): number => 2 * halfAt(y);
          const A = sum(b, 0);
          const y_b = sum((y) => y * b(y), 0) / A;
          const I = sum((y) => (y - y_b) ** 2 * b(y), 0);
          const compressed = (y: number): number => (P * 1e3) / A + ((P * 1e3 * e - M * 1e6) * (y_b - y)) / I;
          if (Math.min(compressed(0), compressed(H)) < -0.98 * f) return;
          let [S, least] = [0, Infinity];
          for (let i = count - 1; i > 0; i--) {
            const [low, middle, high] = [at(i), at(i + 0.5), at(i + 1)];
            S += (((low - y_b) * b(low) + 4 * (middle - y_b) * b(middle) + (high - y_b) * b(high)) * (H / count)) / 6;
            least = Math.min(least, ((I * b(low)) / S) * Math.sqrt(f * f + compressed(low) * f));
          }
          const V = call("SHEAR_RESISTANCE_WEB_EN1992_2004", tapered, f, P, e, M, 0);
          expect(V).toBeLessThanOrEqual((least / 1e3) * (1 + 1e-9));
          expect(V / (least / 1e3)).toBeCloseTo(1, 4);
        },
      ),
      { numRuns: runs(200) },
    );
  });

  it("is (6.4) at the centroid of a rectangle under a central force", () => {
    fc.assert(
      fc.property(between(100, 500), between(200, 1500), between(100, 3000), between(0.8, 2), (b, h, P, f) => {
        const rectangle = [
          [0, 0],
          [b, 0],
          [b, h],
          [0, h],
        ];
        const centroid = call(
          "SHEAR_RESISTANCE_UNCRACKED_EN1992_2004",
          (b * h ** 3) / 12,
          (b * h * h) / 8,
          b,
          f,
          Math.min((P * 1e3) / (b * h), 100),
          "POST",
        );
        if ((P * 1e3) / (b * h) <= 100)
          expect(call("SHEAR_RESISTANCE_WEB_EN1992_2004", rectangle, f, P, 0, 0) / centroid).toBeCloseTo(1, 9);
      }),
      { numRuns: runs(30) },
    );
  });

  it("grows with the prestress that has been transmitted", () => {
    const of = (x: number): number =>
      call("SHEAR_RESISTANCE_UNCRACKED_EN1992_2004", 3e10, 5e7, 160, 1.5, 6, "PRE", x, 800);
    expect(of(0)).toBeCloseTo((3e10 * 160 * 1.5) / 5e7 / 1e3, 9);
    expect(of(0.4)).toBeGreaterThan(of(0.2));
    expect(of(0.9)).toBe(of(5));
    expect(() => call("SHEAR_RESISTANCE_UNCRACKED_EN1992_2004", 3e10, 5e7, 160, 1.5, 6, "PRE")).toThrow(/needs both/);
  });
});

describe("links and struts", () => {
  const given = {
    b: between(100, 500),
    z: between(200, 1500),
    A: between(50, 400),
    f: between(25, 80),
    s: between(0, 8),
  };
  const resistance = (b: number, z: number, A: number, f: number, s: number, low = 1, high = 2.5): number =>
    call("SHEAR_RESISTANCE_LINKS_EN1992_2004", b, z, A, 150, f, s, 500, 0, "FULL", low, high);

  it("take the best cot θ: no other gives more", () => {
    fc.assert(
      fc.property(fc.record(given), between(1, 2.5), ({ b, z, A, f, s }, cot) => {
        expect(resistance(b, z, A, f, s)).toBeGreaterThanOrEqual(resistance(b, z, A, f, s, cot, cot) * (1 - 1e-12));
      }),
    );
  });

  it("give back cot θ and spacing for the shear force that they resist", () => {
    const V = resistance(200, 800, 157, 40, 3);
    const cot = call("STRUT_COTANGENT_EN1992_2004", 200, 800, 40, 3, V);
    expect(call("LINK_SPACING_EN1992_2004", 200, 5000, 800, 157, 40, 500, V, cot)).toBeCloseTo(150, 9);
    expect(() => call("STRUT_COTANGENT_EN1992_2004", 200, 800, 40, 3, 20 * V)).toThrow(NoResult);
  });

  it("balance an inclined cut: links, struts and chord in equilibrium", () => {
    // A cut along a strut meets the links of a length z·cot θ; one along the links meets the struts of z(cot θ + cot α).
    const [z, pull, cot, alpha] = [700, 300, 1.8, 1];
    const V = pull * (1 / Math.SQRT2) * z * (cot + alpha);
    const links = call(
      "SHEAR_RESISTANCE_LINKS_EN1992_2004",
      4000,
      z,
      pull,
      1,
      90,
      0,
      1.15 * 100,
      alpha,
      "FULL",
      cot,
      cot,
    );
    expect(links).toBeCloseTo((V * 100) / 1e3, 6);
    const added = call("ADDED_TENSION_EN1992_2004", z, 400, 0, 1e6, cot, alpha);
    expect(added).toBeCloseTo(0.5 * 400 * (cot - alpha), 9);
    expect(call("ADDED_TENSION_EN1992_2004", z, 400, 990, 1000, cot, 0)).toBeCloseTo(10 / 0.7, 9);
  });

  it("crush at the shear force that more links do not raise", () => {
    fc.assert(
      fc.property(between(150, 500), between(400, 1500), between(25, 50), between(0, 8), (b, z, f_ck, sigma) => {
        const crushing = call("STRUT_RESISTANCE_EN1992_2004", b, z, f_ck, sigma, 1);
        const many = call("SHEAR_RESISTANCE_LINKS_EN1992_2004", b, z, 90_000, 50, f_ck, sigma, 500);
        expect(many / crushing).toBeCloseTo(1, 12);
        const cot = call("STRUT_COTANGENT_EN1992_2004", b, z, f_ck, sigma, 0.8 * crushing);
        expect(call("STRUT_RESISTANCE_EN1992_2004", b, z, f_ck, sigma, cot) / crushing).toBeCloseTo(0.8, 9);
      }),
      { numRuns: runs(30) },
    );
  });

  it("lose width to ducts by kind and size", () => {
    const of = (phi: number, sum: number, ducts: string): number =>
      call("WEB_WIDTH_LESS_DUCTS_EN1992_2004", 400, phi, sum, ducts);
    expect(of(50, 100, "GROUTED")).toBe(400);
    expect(of(60, 120, "GROUTED")).toBe(340);
    expect(of(50, 100, "OTHER")).toBeCloseTo(280, 12);
    expect(() => of(60, 400, "OTHER")).toThrow(NoResult);
  });
});

describe("shear without links", () => {
  it("never falls with compression, steel or strength", () => {
    fc.assert(
      fc.property(between(200, 1500), between(0, 4000), between(20, 80), between(-1, 8), (d, A, f, s) => {
        const of = (steel: number, strength: number, stress: number): number =>
          call("SHEAR_RESISTANCE_CRACKED_EN1992_2004", 200, d, steel, strength, stress);
        expect(of(A + 100, f, s)).toBeGreaterThanOrEqual(of(A, f, s));
        expect(of(A, f + 5, s)).toBeGreaterThanOrEqual(of(A, f, s));
        expect(of(A, f, s + 1)).toBeGreaterThanOrEqual(of(A, f, s));
      }),
    );
  });

  it("of the Indian standard has a floor in cracked sections", () => {
    const of = (M_0: number): number =>
      call("SHEAR_RESISTANCE_CRACKED_IS1343_1980", 150, 700, 40, 1600, 900, 0.5, M_0, 120, 600);
    expect(of(0)).toBeCloseTo((0.1 * 150 * 700 * Math.sqrt(40)) / 1e3, 9);
    expect(of(400)).toBeCloseTo(((1 - (0.55 * 900) / 1600) * 0.5 * 150 * 700) / 1e3 + (400 * 120) / 600, 9);
  });

  it("of the Indian standard spaces links by force, minimum and depth", () => {
    const of = (V: number): number => call("LINK_SPACING_IS1343_1980", 150, 700, 100, 415, V, 100);
    expect(of(90)).toBeCloseTo(Math.min((100 * 0.87 * 415) / (0.4 * 150), 525), 9);
    expect(of(190)).toBeCloseTo((100 * 0.87 * 415 * 700) / 90e3, 9);
  });
});

describe("the narrowest width between two heights", () => {
  const narrowest = (from: number, to: number): number => call("OUTLINE_NARROWEST_WIDTH", iSection, from, to);
  it("is that of the web where the web lies between them, else of the narrower flange", () => {
    expect(narrowest(100, 850)).toBe(160);
    expect(narrowest(0, 950)).toBe(160);
    expect(narrowest(0, 100)).toBe(500);
    expect(narrowest(810, 950)).toBe(800);
    expect(narrowest(100, 180)).toBe(500);
    expect(narrowest(180, 800)).toBe(160);
  });
  it("is found at the waist of a web that tapers both ways", () => {
    const waist = [
      [-200, 0],
      [200, 0],
      [60, 500],
      [200, 1000],
      [-200, 1000],
      [-60, 500],
    ];
    expect(call("OUTLINE_NARROWEST_WIDTH", waist, 100, 900)).toBeCloseTo(120, 9);
    expect(call("OUTLINE_NARROWEST_WIDTH", waist, 0, 250)).toBeCloseTo(260, 9);
  });
});
