import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formulas, run, warnings, type Argument } from "../../src/core/index.ts";
import { between, runs } from "./draws.ts";
import { maybe, row, rows, type Row } from "./regionRows.ts";

const found = (id: string) => formulas.find((f) => f.id === id)!;
const call = (id: string, ...args: readonly Argument[]): number => run(found(id), args);
const bounds = [-900, 700, 10, 60000] as const;

const vertex = (all: readonly Row[], k: number, result: string): number =>
  call("REGION_VERTEX", all, bounds[0], bounds[1], k, result, bounds[2], bounds[3]);
const minForce = (all: readonly Row[], result: string): number =>
  call("REGION_MIN_FORCE", all, bounds[0], bounds[1], result, bounds[2], bounds[3]);

/** The stresses of all checked fibres through FIBRE_STRESS, each with the distance to the nearer limit. */
function least(all: readonly Row[], P: number, e: number): number {
  return Math.min(
    ...all.flatMap(([M, r, f_c, f_t, A, I, y_b, h, fibre]) => {
      const ys = [...(fibre === "TOP" ? [] : [y_b]), ...(fibre === "BOTTOM" ? [] : [y_b - h])];
      return ys.map((y) => {
        const stress = call("FIBRE_STRESS", A, I, e + y_b - all[0]![6], r * P, M, y);
        return Math.min(stress - f_t, f_c - stress);
      });
    }),
  );
}

interface Corner {
  readonly u: number;
  readonly e: number;
}
const outline = (all: readonly Row[], given: readonly number[] = bounds): readonly Corner[] | undefined =>
  maybe(() => {
    const corner = (k: number | null, result: string): number =>
      call("REGION_VERTEX", all, given[0], given[1], k, result, ...given.slice(2));
    const n = corner(null, "COUNT");
    return Array.from({ length: n }, (_, k) => ({
      u: corner(k + 1, "RECIPROCAL") / 1000,
      e: corner(k + 1, "ECCENTRICITY"),
    }));
  });
/** Turn from one edge to the next, scaled to the extent of the region. */
function turn(p: Corner, q: Corner, r: Corner): number {
  return (q.e - p.e) * (r.u - q.u) - (q.u - p.u) * (r.e - q.e);
}

describe("the region of force and eccentricity", () => {
  test("is convex, against the clock, begins at the least force and closes with its first vertex", () => {
    let seen = 0;
    fc.assert(
      fc.property(rows, fc.integer({ min: 1, max: 5 }), (all, more) => {
        const corners = outline(all);
        if (!corners) return;
        seen++;
        const size =
          (Math.max(...corners.map(({ e }) => e)) - Math.min(...corners.map(({ e }) => e))) *
          Math.max(...corners.map(({ u }) => u));
        corners.forEach((p, i) =>
          expect(turn(p, corners[(i + 1) % corners.length]!, corners[(i + 2) % corners.length]!)).toBeGreaterThan(
            -1e-12 * size,
          ),
        );
        expect(corners[0]!.u).toBeGreaterThanOrEqual(Math.max(...corners.map(({ u }) => u)) * (1 - 1e-9));
        for (const name of ["RECIPROCAL", "ECCENTRICITY", "FORCE"])
          expect(vertex(all, corners.length + more, name)).toBe(vertex(all, 1, name));
        expect(vertex(all, 1, "FORCE") * corners[0]!.u).toBeCloseTo(1, 9);
      }),
    );
    expect(seen).toBeGreaterThan(20);
  });

  test("has on its edge a limit just reached, or a bound; FIBRE_STRESS says so", () => {
    fc.assert(
      fc.property(rows, between(0, 1), (all, share) => {
        const corners = outline(all);
        corners?.forEach((p, i) => {
          const next = corners[(i + 1) % corners.length]!;
          const [u, e] = [p.u + share * (next.u - p.u), p.e + share * (next.e - p.e)];
          const P = 1 / u;
          const onBound =
            Math.min(Math.abs(e - bounds[0]), Math.abs(e - bounds[1])) < 1e-6 ||
            Math.abs(P / bounds[2] - 1) < 1e-9 ||
            Math.abs(P / bounds[3] - 1) < 1e-9;
          const gap = least(all, P, e);
          // Stresses of great forces have fewer digits left in the difference to the limit.
          const digits = 1e-9 * (1 + P / 1000);
          expect(gap).toBeGreaterThan(-digits);
          if (!onBound) expect(gap).toBeLessThan(digits);
        });
      }),
    );
  });

  test("holds inside it no violation, and outside at least one", () => {
    fc.assert(
      fc.property(
        rows,
        fc.array(fc.tuple(between(0, 1), between(0, 1)), { minLength: 30, maxLength: 30 }),
        (all, places) => {
          const corners = outline(all);
          if (!corners) {
            for (const [s, t] of places)
              expect(
                least(all, bounds[2] * (bounds[3] / bounds[2]) ** s, bounds[0] + t * (bounds[1] - bounds[0])),
              ).toBeLessThan(1e-9);
            return;
          }
          const reach = Math.max(...corners.map(({ u }) => u));
          for (const [s, t] of places) {
            const p = {
              u: 1 / bounds[3] + s * (1.2 * reach - 1 / bounds[3]),
              e: bounds[0] + t * (bounds[1] - bounds[0]),
            };
            if (p.u > 1 / bounds[2]) continue;
            const turns = corners.map(
              (corner, i) => turn(corner, corners[(i + 1) % corners.length]!, p) / (reach * (bounds[1] - bounds[0])),
            );
            if (turns.some((value) => Math.abs(value) < 1e-9)) continue;
            const margin = least(all, 1 / p.u, p.e);
            if (turns.every((value) => value > 0)) expect(margin).toBeGreaterThan(-1e-9);
            else expect(margin).toBeLessThan(1e-9);
          }
        },
      ),
    );
  });

  test("has its least force where a search over all eccentricities finds it", () => {
    fc.assert(
      fc.property(rows, (all) => {
        const P = maybe(() => minForce(all, "FORCE"));
        const n = 400;
        const searched = Array.from({ length: n + 1 }, (_, i) =>
          maybe(() =>
            call("FEASIBLE_FORCE", all, bounds[0] + ((bounds[1] - bounds[0]) * i) / n, "MIN", bounds[2], bounds[3]),
          ),
        ).filter((p) => p !== undefined);
        if (P === undefined) {
          expect(searched).toEqual([]);
          return;
        }
        for (const other of searched) expect(other).toBeGreaterThanOrEqual(P * (1 - 1e-9));
        const e = minForce(all, "ECCENTRICITY");
        expect(least(all, P, e)).toBeGreaterThan(-1e-9 * (1 + P / 1000));
        expect(least(all, P * (1 - 1e-6), e) < 1e-9 || Math.abs(P - bounds[2]) < 1e-6).toBe(true);
      }),
      { numRuns: runs(25) },
    );
  });

  test("has at a force the eccentricities between its edges, at an eccentricity the forces", () => {
    fc.assert(
      fc.property(rows, between(500, 15000), between(-300, 600), (all, P, e) => {
        const [low, high] = [
          maybe(() => call("FEASIBLE_ECCENTRICITY", all, -900, 700, P, "MIN")),
          maybe(() => call("FEASIBLE_ECCENTRICITY", all, -900, 700, P, "MAX")),
        ];
        expect(low === undefined).toBe(high === undefined);
        if (low !== undefined && high !== undefined) {
          for (const [end, outward] of [
            [low, -1],
            [high, 1],
          ] as const) {
            expect(least(all, P, end)).toBeGreaterThan(-1e-7);
            if (end > -900 && end < 700) expect(least(all, P, end + outward * 0.01)).toBeLessThan(0);
          }
        }
        const [less, more] = [
          maybe(() => call("FEASIBLE_FORCE", all, e, "MIN")),
          maybe(() => call("FEASIBLE_FORCE", all, e, "MAX")),
        ];
        expect(less === undefined).toBe(more === undefined);
        if (less !== undefined && more !== undefined) {
          expect(least(all, less, e)).toBeGreaterThan(-1e-7);
          expect(least(all, more, e)).toBeGreaterThan(-1e-7);
          if (less > 1) expect(least(all, less * 0.9999, e)).toBeLessThan(1e-9);
          if (more < 1e6) expect(least(all, more * 1.0001, e)).toBeLessThan(1e-9);
        }
      }),
    );
  });

  test("takes a bound into account: less room never lowers the least force", () => {
    fc.assert(
      fc.property(rows, between(-200, 700), (all, e_max) => {
        const narrow = maybe(() => call("REGION_MIN_FORCE", all, -900, e_max, "FORCE", 10, 60000));
        if (narrow !== undefined) expect(narrow).toBeGreaterThanOrEqual(minForce(all, "FORCE") * (1 - 1e-9));
      }),
    );
  });
});

describe("a design in the region", () => {
  test("has the margin of its closest fibre stress, in the condition named", () => {
    fc.assert(
      fc.property(rows, between(500, 15000), between(-300, 600), (all, P, e) => {
        const margin = call("REGION_MARGIN", all, P, e, "MARGIN");
        expect(margin).toBeCloseTo(least(all, P, e), 8);
        const i = call("REGION_MARGIN", all, P, e, "CONDITION");
        const base = all[0]![6];
        expect(least([all[i - 1]!], P, e + all[i - 1]![6] - base)).toBeCloseTo(margin, 8);
      }),
    );
  });
});

describe("the cable zone", () => {
  test("is that of the region for one stage, and puts a limit on a fibre exactly", () => {
    fc.assert(
      fc.property(row, between(500, 15000), (one, P) => {
        const [M, r, f_c, f_t, A, I, y_b, h] = one;
        const zone = (bound: string): number => call("CABLE_ZONE", A, I, y_b, h, f_c, f_t, P, M, bound, r);
        const all = [[...one.slice(0, 8), "BOTH"]] as unknown as readonly Row[];
        const [low, high] = [zone("MIN"), zone("MAX")];
        const region = maybe(() => [
          call("FEASIBLE_ECCENTRICITY", all, -10000, 10000, P, "MIN"),
          call("FEASIBLE_ECCENTRICITY", all, -10000, 10000, P, "MAX"),
        ]);
        if (low <= high) {
          expect(region![0]).toBeCloseTo(low, 6);
          expect(region![1]).toBeCloseTo(high, 6);
          expect(
            warnings(found("CABLE_ZONE"), [A, I, y_b, h, f_c, f_t, P, M, "MIN", r]).filter((w) =>
              w.startsWith("no eccentricity"),
            ),
          ).toEqual([]);
        } else {
          expect(region).toBeUndefined();
          expect(
            warnings(found("CABLE_ZONE"), [A, I, y_b, h, f_c, f_t, P, M, "MIN", r]).filter((w) =>
              w.startsWith("no eccentricity"),
            ),
          ).toHaveLength(1);
        }
        const stresses = (e: number) => [y_b, y_b - h].map((y) => call("FIBRE_STRESS", A, I, e, r * P, M, y));
        expect(Math.min(Math.abs(stresses(low)[0]! - f_t), Math.abs(stresses(low)[1]! - f_c))).toBeLessThan(1e-9);
        expect(Math.min(Math.abs(stresses(high)[0]! - f_c), Math.abs(stresses(high)[1]! - f_t))).toBeLessThan(1e-9);
      }),
    );
  });

  test("moves down with a sagging moment by M/P", () => {
    const zone = (M: number): number => call("CABLE_ZONE", 4e5, 2e10, 400, 800, 20, 0, 2000, M, "MIN");
    expect(zone(500) - zone(0)).toBeCloseTo((500 / 2000) * 1000, 9);
  });
});
