/** Sizing and the long line: what must hold whatever is drawn. Stresses by FIBRE_STRESS, lengths and sums by themselves. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formulas, NoResult, run, type Argument } from "../../src/core/index.ts";
import { between } from "./draws.ts";

const kern = (id: string, ...args: Argument[]): number =>
  run(
    formulas.find((f) => f.id === id)!,
    args,
  );
const steps = fc.array(fc.tuple(between(5, 80), between(1, 30)), { minLength: 1, maxLength: 6 });

describe("REQUIRED_PRESTRESS", () => {
  it("keeps all limits and reaches one, and less force keeps them at no eccentricity", () => {
    fc.assert(
      fc.property(
        between(0.3, 0.6),
        between(500, 2000),
        between(8, 40),
        between(0, 20),
        between(0, 20),
        (b, h, L, gs, q) => {
          const [A, I] = [b * h * h, (b * h ** 4) / 12];
          const g = (25 * A) / 1e6;
          const limits = [
            [18, -2.5],
            [24, -3.5],
            [18, 0],
          ];
          const args = [A, I, h / 2, h, limits, L, g, gs, q, 0.3, 0.1 * h] as unknown as Argument[];
          let P: number;
          try {
            P = kern("REQUIRED_PRESTRESS", ...args, "FORCE");
          } catch (error) {
            expect(error).toBeInstanceOf(NoResult);
            return;
          }
          const e = kern("REQUIRED_PRESTRESS", ...args, "ECCENTRICITY");
          const loads = [g, g + gs + q, g + gs + 0.3 * q];
          /** The smallest distance from a limit, MPa. */
          const room = (force: number, at: number): number =>
            Math.min(
              ...limits.flatMap(([fc_, ft], i) =>
                [h / 2, -h / 2].map((y) => {
                  const M = (loads[i]! * L * L) / 8;
                  const s = kern("FIBRE_STRESS", A, I, at, force * (i === 0 ? 1.1 : 0.9 * 0.85), M, y);
                  return Math.min(fc_! - s, s - ft!);
                }),
              ),
            );
          expect(room(P, e)).toBeGreaterThan(-1e-6);
          if (P <= 1.001) return;
          const most = 0.4 * h;
          const best = Math.max(...Array.from({ length: 81 }, (_, i) => room(0.995 * P, -most + (i * most) / 40)));
          expect(best).toBeLessThan(0);
        },
      ),
    );
  });
});

describe("TENDON_COUNT, UNITS_ON_LINE, DEPTH_FROM_SPAN", () => {
  it("are enough, and one less is not", () => {
    fc.assert(
      fc.property(between(50, 400), between(100, 9000), between(800, 1500), (A, P, s) => {
        const n = kern("TENDON_COUNT", A, P, s);
        expect(n * A * s).toBeGreaterThanOrEqual(P * 1000 * (1 - 1e-9));
        expect((n - 1) * A * s).toBeLessThan(P * 1000 * (1 + 1e-9));
      }),
    );
    fc.assert(
      fc.property(between(20, 200), between(3, 30), between(0, 2), between(0, 10), (bed, unit, gap, ends) => {
        const n = kern("UNITS_ON_LINE", bed, unit, gap, ends);
        const needed = (k: number): number => k * unit + Math.max(k - 1, 0) * gap + ends;
        if (n > 0) expect(needed(n)).toBeLessThanOrEqual(bed * (1 + 1e-9));
        expect((n + 1) * unit + n * gap + ends).toBeGreaterThan(bed * (1 - 1e-9));
      }),
    );
    fc.assert(
      fc.property(between(5, 60), fc.constantFrom("RECTANGLE", "T", "I", "BOX"), (L, section) => {
        const h = kern("DEPTH_FROM_SPAN", L, section);
        expect(h % 50).toBe(0);
        expect(kern("DEPTH_FROM_SPAN", L, section, 1)).toBeLessThanOrEqual(h);
      }),
    );
  });
});

describe("TENDON_COUNT", () => {
  it("takes no tendon more for the last bits of a division", () => {
    for (const A of [93, 100, 139.1, 150])
      for (const s of [1116.1, 1302.3, 1395.7])
        for (let n = 1; n <= 60; n++) expect(kern("TENDON_COUNT", A, (n * A * s) / 1000, s), `${n} of ${A}`).toBe(n);
  });
});

describe("MATURITY and MATURITY_TIME", () => {
  it("are each other's inverse, and more heat is never later", () => {
    fc.assert(
      fc.property(steps, between(0.05, 1), (history, part) => {
        const all = kern("MATURITY", history);
        const t = kern("MATURITY_TIME", history, part * all);
        let open = t;
        const before = history.map(([T, dt]) => {
          const taken = Math.min(Math.max(open, 0), dt);
          open -= dt;
          return [T, taken] as [number, number];
        });
        expect(Math.abs(kern("MATURITY", before) - part * all)).toBeLessThan(1e-6 * all);
        const warmer = history.map(([T, dt]) => [Math.min(T + 3, 80), dt] as [number, number]);
        expect(kern("MATURITY_TIME", warmer, part * all)).toBeLessThanOrEqual(t * (1 + 1e-9));
      }),
    );
  });
});

describe("LATERAL_STRAIN_WEDGE", () => {
  it("fits steel and concrete together: what the pressure squeezes and opens is what swells", () => {
    fc.assert(
      fc.property(
        between(3, 18),
        between(180, 210),
        between(600, 1500),
        between(20, 45),
        between(0, 1),
        (d, Ep, s, Ec, part) => {
          const grown = kern("LATERAL_STRAIN_WEDGE", d, Ep, s, Ec, "SWELLING", part * s);
          const p = kern("LATERAL_STRAIN_WEDGE", d, Ep, s, Ec, "PRESSURE", part * s);
          const squeezed = (p * (1 - 0.3) * d) / (Ep * 1000);
          const opened = (p * (1 + 0.2) * d) / (Ec * 1000);
          expect(Math.abs(squeezed + opened - grown)).toBeLessThan(1e-12 + 1e-9 * grown);
          expect(kern("LATERAL_STRAIN_WEDGE", d, Ep, s, Ec, "SWELLING", s)).toBe(0);
        },
      ),
    );
  });
});
