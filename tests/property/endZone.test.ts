import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formulas, run, type Argument } from "../../src/core/index.ts";
import { between } from "./draws.ts";

const call = (id: string, ...args: readonly Argument[]): number =>
  run(
    formulas.find((f) => f.id === id)!,
    args,
  );

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

/** An I-section, symmetric or with its flanges moved sideways, and anchorages inside its web. */
const skew = fc
  .record({
    h: between(600, 2000),
    bw: between(200, 400),
    b: between(400, 1200),
    shift: between(-60, 60),
    places: fc.array(
      fc.record({ y: between(0.15, 0.85), z: between(-0.4, 0.4), a: between(120, 300), P: between(200, 3000) }),
      { minLength: 1, maxLength: 4 },
    ),
  })
  .map(({ h, bw, b, shift, places }) => {
    const [t, w] = [h / 5, bw / 2];
    const flange = (low: number, high: number): readonly (readonly [number, number])[] => [
      [b / 2 + shift, low],
      [b / 2 + shift, high],
    ];
    const outline = [
      [-b / 2, 0],
      [b / 2, 0],
      [b / 2, t],
      [w, t],
      [w, h - t],
      ...flange(h - t, h),
      [-b / 2 + shift, h],
      [-b / 2 + shift, h - t],
      [-w, h - t],
      [-w, t],
      [-b / 2, t],
    ];
    return { h, outline, anchorages: places.map(({ y, z, a, P }, i) => [y * h, z * bw, a, a, P, i + 1]) };
  });

describe("the end block", () => {
  const force = (anchorages: readonly (readonly number[])[]): number =>
    anchorages.reduce((sum, row) => sum + row[4]!, 0);

  it("is in equilibrium as a whole: no moment is left at its edges, to 1e-9", () => {
    fc.assert(
      fc.property(skew, ({ h, outline, anchorages }) => {
        const size = force(anchorages) * h * 1e-3;
        for (const [direction, edges] of [
          ["VERTICAL", [0, h]],
          ["HORIZONTAL", [-2000, 2000]],
        ] as const)
          for (const edge of edges) {
            // Just inside the last edge of concrete and plates all force counts but that of a millionth of a millimetre.
            const [u, a] = direction === "VERTICAL" ? [0, 2] : [1, 3];
            const ends = [
              ...outline.map((p) => p[1 - u]!),
              ...anchorages.flatMap((row) => [row[u]! - row[a]! / 2, row[u]! + row[a]! / 2]),
            ];
            const last = edge <= 0 ? Math.min(...ends) + 1e-6 : Math.max(...ends) - 1e-6;
            const M = call("END_BLOCK_MOMENT", outline, anchorages, last, direction);
            expect(Math.abs(M) / size).toBeLessThan(1e-9);
          }
      }),
    );
  });

  it("has its largest and lowest moment where the function says: no plane of a dense grid has more", () => {
    fc.assert(
      fc.property(skew, ({ h, outline, anchorages }) => {
        const at = (level: number): number => call("END_BLOCK_MOMENT", outline, anchorages, level, "VERTICAL");
        const most = at(call("END_BLOCK_LEVEL", outline, anchorages, "VERTICAL", "BURSTING"));
        const least = at(call("END_BLOCK_LEVEL", outline, anchorages, "VERTICAL", "SPALLING"));
        const grid = Array.from({ length: 101 }, (_, i) => at((h * i) / 100));
        const size = force(anchorages) * h * 1e-3;
        expect((Math.max(...grid) - most) / size).toBeLessThan(1e-9);
        expect((least - Math.min(...grid)) / size).toBeLessThan(1e-9);
      }),
      { numRuns: 40 },
    );
  });

  it("gives the strut of a single plate in the axis of a rectangle with half the depth as lever arm", () => {
    fc.assert(
      fc.property(between(400, 2000), between(200, 800), between(0.1, 0.9), between(100, 5000), (h, b, part, P) => {
        const outline = [
          [-b / 2, 0],
          [b / 2, 0],
          [b / 2, h],
          [-b / 2, h],
        ];
        const plate = [[h / 2, 0, part * h, 0.5 * b, P, 1]];
        const M = call("END_BLOCK_MOMENT", outline, plate, h / 2, "VERTICAL");
        const strut = call("BURSTING_FORCE_EN1992_2004", part * h, h, 2 * h, P);
        expect(M / (h / 2) / 1e-3 / strut).toBeCloseTo(1, 9);
        const sideways = call("END_BLOCK_MOMENT", outline, plate, 0, "HORIZONTAL");
        expect(sideways / (b / 2) / 1e-3 / ((P / 4) * 0.5)).toBeCloseTo(1, 9);
      }),
    );
  });

  it("counts the tendons stressed so far, and passes over rows without force", () => {
    const outline = [
      [-200, 0],
      [200, 0],
      [200, 1000],
      [-200, 1000],
    ];
    const one = [[300, 0, 200, 200, 1000, 1]];
    const both = [...one, [800, 0, 200, 200, 1000, 2]];
    const alone = call("END_BLOCK_MOMENT", outline, one, 300, "VERTICAL");
    expect(call("END_BLOCK_MOMENT", outline, both, 300, "VERTICAL", 1)).toBe(alone);
    expect(call("END_BLOCK_MOMENT", outline, [...one, [0, 0, 0, 0, 0, 1]], 300, "VERTICAL")).toBe(alone);
    expect(call("END_BLOCK_MOMENT", outline, both, 300, "VERTICAL")).not.toBeCloseTo(alone, 3);
  });

  it("gives each anchorage its prism: to the surface, or half the way to a neighbour", () => {
    const outline = [
      [-300, 0],
      [300, 0],
      [300, 1000],
      [-300, 1000],
    ];
    const three = [
      [200, -140, 200, 200, 1000, 1],
      [200, 140, 200, 200, 1000, 1],
      [800, 0, 200, 200, 1000, 2],
    ];
    const side = (row: number, direction: string): number => call("ANCHORAGE_PRISM", outline, three, row, direction);
    // 200 mm to the soffit; 140 mm to the middle between the lower two; 200 mm to the top.
    expect(side(1, "VERTICAL")).toBe(400);
    expect(side(1, "HORIZONTAL")).toBe(280);
    expect(side(3, "VERTICAL")).toBe(400);
    expect(side(3, "HORIZONTAL")).toBe(600);
    expect(call("ANCHORAGE_EDGE_DISTANCE", outline, three, 1)).toBe(160);
    expect(call("ANCHORAGE_EDGE_DISTANCE", outline, three, 3)).toBe(200);
    // 280 mm beside each other, 600 mm above: the third is nearest to neither.
    expect(call("ANCHORAGE_SPACING_UTILISATION", three, 1, 250)).toBeCloseTo(250 / 280, 12);
    expect(call("ANCHORAGE_SPACING_UTILISATION", three, 3, 250)).toBeCloseTo(250 / 600, 12);
    expect(call("ANCHORAGE_SPACING_UTILISATION", three.slice(2), 1, 250)).toBe(0);
  });

  it("needs no prism across a slit that joins a void to the outside", () => {
    const box = [
      [0, 0],
      [500, 0],
      [500, 1000],
      [-500, 1000],
      [-500, 0],
      [0, 0],
      [0, 200],
      [-300, 200],
      [-300, 800],
      [300, 800],
      [300, 200],
      [0, 200],
    ];
    const plate = [[100, -250, 150, 150, 1000, 1]];
    expect(call("ANCHORAGE_PRISM", box, plate, 1, "VERTICAL")).toBe(200);
    expect(call("ANCHORAGE_PRISM", box, plate, 1, "HORIZONTAL")).toBe(500);
    // In the void there is no concrete to spread into.
    expect(call("ANCHORAGE_PRISM", box, [[500, 0, 150, 150, 1000, 1]], 1, "VERTICAL")).toBe(0);
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
