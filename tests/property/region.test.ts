import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formulas, InputError, NoResult, run, trace, warnings, type Argument } from "../../src/core/index.ts";

const found = (id: string) => formulas.find((f) => f.id === id)!;
const call = (id: string, ...args: readonly Argument[]): number => run(found(id), args);
const double = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** Nothing where there is no result. */
function maybe<T>(compute: () => T): T | undefined {
  try {
    return compute();
  } catch (error) {
    if (error instanceof NoResult) return undefined;
    throw error;
  }
}

type Row = readonly [M: number, r: number, f_c: number, f_t: number, A: number, I: number, y_b: number, h: number, fibre: string];
const row = fc.tuple(double(0, 1800), double(0.75, 1.1), double(15, 40), double(-6, 0.5), double(6e5, 7e5), double(1.3e11, 1.6e11), double(650, 800), fc.constant(1500), fc.constantFrom("BOTH", "BOTH", "TOP", "BOTTOM"));
const rows = fc.array(row, { minLength: 1, maxLength: 5 }) as fc.Arbitrary<readonly Row[]>;
const bounds = [-900, 700, 10, 60000] as const;

/** The stresses of all checked fibres through FIBRE_STRESS, each with the distance to the nearer limit. */
function least(all: readonly Row[], P: number, e: number): number {
  return Math.min(...all.flatMap(([M, r, f_c, f_t, A, I, y_b, h, fibre]) => {
    const ys = [...(fibre === "TOP" ? [] : [y_b]), ...(fibre === "BOTTOM" ? [] : [y_b - h])];
    return ys.map((y) => {
      const stress = call("FIBRE_STRESS", r * P, e + y_b - all[0]![6], M, A, I, y);
      return Math.min(stress - f_t, f_c - stress);
    });
  }));
}

interface Corner {
  readonly u: number;
  readonly e: number;
}
const outline = (all: readonly Row[], given: readonly number[] = bounds): readonly Corner[] | undefined => maybe(() => {
  const n = call("REGION_VERTEX_COUNT", all, ...given);
  return Array.from({ length: n }, (_, k) => ({ u: call("REGION_VERTEX_RECIPROCAL", k + 1, all, ...given) / 1000, e: call("REGION_VERTEX_ECCENTRICITY", k + 1, all, ...given) }));
});
/** Turn from one edge to the next, scaled to the extent of the region. */
function turn(p: Corner, q: Corner, r: Corner): number {
  return (q.e - p.e) * (r.u - q.u) - (q.u - p.u) * (r.e - q.e);
}

describe("the region of force and eccentricity", () => {
  test("is convex, against the clock, begins at the least force and closes with its first vertex", () => {
    let seen = 0;
    fc.assert(fc.property(rows, fc.integer({ min: 1, max: 5 }), (all, more) => {
      const corners = outline(all);
      if (!corners) return;
      seen++;
      const size = (Math.max(...corners.map(({ e }) => e)) - Math.min(...corners.map(({ e }) => e))) * Math.max(...corners.map(({ u }) => u));
      corners.forEach((p, i) => expect(turn(p, corners[(i + 1) % corners.length]!, corners[(i + 2) % corners.length]!)).toBeGreaterThan(-1e-12 * size));
      expect(corners[0]!.u).toBeGreaterThanOrEqual(Math.max(...corners.map(({ u }) => u)) * (1 - 1e-9));
      for (const name of ["RECIPROCAL", "ECCENTRICITY", "FORCE"]) expect(call(`REGION_VERTEX_${name}`, corners.length + more, all, ...bounds)).toBe(call(`REGION_VERTEX_${name}`, 1, all, ...bounds));
      expect(call("REGION_VERTEX_FORCE", 1, all, ...bounds) * corners[0]!.u).toBeCloseTo(1, 9);
    }));
    expect(seen).toBeGreaterThan(20);
  });

  test("has on its edge a limit just reached, or a bound; FIBRE_STRESS says so", () => {
    fc.assert(fc.property(rows, double(0, 1), (all, share) => {
      const corners = outline(all);
      corners?.forEach((p, i) => {
        const next = corners[(i + 1) % corners.length]!;
        const [u, e] = [p.u + share * (next.u - p.u), p.e + share * (next.e - p.e)];
        const P = 1 / u;
        const onBound = Math.min(Math.abs(e - bounds[0]), Math.abs(e - bounds[1])) < 1e-6 || Math.abs(P / bounds[2] - 1) < 1e-9 || Math.abs(P / bounds[3] - 1) < 1e-9;
        const gap = least(all, P, e);
        // Stresses of great forces have fewer digits left in the difference to the limit.
        const digits = 1e-9 * (1 + P / 1000);
        expect(gap).toBeGreaterThan(-digits);
        if (!onBound) expect(gap).toBeLessThan(digits);
      });
    }));
  });

  test("holds inside it no violation, and outside at least one", () => {
    fc.assert(fc.property(rows, fc.array(fc.tuple(double(0, 1), double(0, 1)), { minLength: 30, maxLength: 30 }), (all, places) => {
      const corners = outline(all);
      if (!corners) {
        for (const [s, t] of places) expect(least(all, bounds[2] * (bounds[3] / bounds[2]) ** s, bounds[0] + t * (bounds[1] - bounds[0]))).toBeLessThan(1e-9);
        return;
      }
      const reach = Math.max(...corners.map(({ u }) => u));
      for (const [s, t] of places) {
        const p = { u: 1 / bounds[3] + s * (1.2 * reach - 1 / bounds[3]), e: bounds[0] + t * (bounds[1] - bounds[0]) };
        if (p.u > 1 / bounds[2]) continue;
        const turns = corners.map((corner, i) => turn(corner, corners[(i + 1) % corners.length]!, p) / (reach * (bounds[1] - bounds[0])));
        if (turns.some((value) => Math.abs(value) < 1e-9)) continue;
        const margin = least(all, 1 / p.u, p.e);
        if (turns.every((value) => value > 0)) expect(margin).toBeGreaterThan(-1e-9);
        else expect(margin).toBeLessThan(1e-9);
      }
    }));
  });

  test("has its least force where a search over all eccentricities finds it", () => {
    fc.assert(fc.property(rows, (all) => {
      const P = maybe(() => call("REGION_LEAST_FORCE", all, ...bounds));
      const n = 400;
      const searched = Array.from({ length: n + 1 }, (_, i) => maybe(() => call("FEASIBLE_FORCE_LEAST", bounds[0] + ((bounds[1] - bounds[0]) * i) / n, all, bounds[2], bounds[3]))).filter((p) => p !== undefined);
      if (P === undefined) {
        expect(searched).toEqual([]);
        return;
      }
      for (const other of searched) expect(other).toBeGreaterThanOrEqual(P * (1 - 1e-9));
      const e = call("REGION_LEAST_FORCE_ECCENTRICITY", all, ...bounds);
      expect(least(all, P, e)).toBeGreaterThan(-1e-9 * (1 + P / 1000));
      expect(least(all, P * (1 - 1e-6), e) < 1e-9 || Math.abs(P - bounds[2]) < 1e-6).toBe(true);
    }), { numRuns: 25 });
  });

  test("has at a force the eccentricities between its edges, at an eccentricity the forces", () => {
    fc.assert(fc.property(rows, double(500, 15000), double(-300, 600), (all, P, e) => {
      const [low, high] = [maybe(() => call("FEASIBLE_ECCENTRICITY_LEAST", P, all, -900, 700)), maybe(() => call("FEASIBLE_ECCENTRICITY_GREATEST", P, all, -900, 700))];
      expect(low === undefined).toBe(high === undefined);
      if (low !== undefined && high !== undefined) {
        for (const [end, outward] of [[low, -1], [high, 1]] as const) {
          expect(least(all, P, end)).toBeGreaterThan(-1e-7);
          if (end > -900 && end < 700) expect(least(all, P, end + outward * 0.01)).toBeLessThan(0);
        }
      }
      const [less, more] = [maybe(() => call("FEASIBLE_FORCE_LEAST", e, all)), maybe(() => call("FEASIBLE_FORCE_GREATEST", e, all))];
      expect(less === undefined).toBe(more === undefined);
      if (less !== undefined && more !== undefined) {
        expect(least(all, less, e)).toBeGreaterThan(-1e-7);
        expect(least(all, more, e)).toBeGreaterThan(-1e-7);
        if (less > 1) expect(least(all, less * 0.9999, e)).toBeLessThan(1e-9);
        if (more < 1e6) expect(least(all, more * 1.0001, e)).toBeLessThan(1e-9);
      }
    }));
  });

  test("takes a bound into account: less room never lowers the least force", () => {
    fc.assert(fc.property(rows, double(-200, 700), (all, e_max) => {
      const narrow = maybe(() => call("REGION_LEAST_FORCE", all, -900, e_max, 10, 60000));
      if (narrow !== undefined) expect(narrow).toBeGreaterThanOrEqual(call("REGION_LEAST_FORCE", all, ...bounds) * (1 - 1e-9));
    }));
  });
});

describe("a design in the region", () => {
  test("has the margin of its closest fibre stress, in the condition named", () => {
    fc.assert(fc.property(rows, double(500, 15000), double(-300, 600), (all, P, e) => {
      const margin = call("REGION_MARGIN", P, e, all);
      expect(margin).toBeCloseTo(least(all, P, e), 8);
      const i = call("REGION_GOVERNING_CONDITION", P, e, all);
      const base = all[0]![6];
      expect(least([all[i - 1]!], P, e + all[i - 1]![6] - base)).toBeCloseTo(margin, 8);
    }));
  });
});

describe("the cable zone", () => {
  test("is that of the region for one stage, and puts a limit on a fibre exactly", () => {
    fc.assert(fc.property(row, double(500, 15000), (one, P) => {
      const [M, r, f_c, f_t, A, I, y_b, h] = one;
      const zone = (which: string): number => call(`CABLE_ZONE_${which}`, P, M, f_c, f_t, A, I, y_b, h, r);
      const all = [[...one.slice(0, 8), "BOTH"]] as unknown as readonly Row[];
      const [low, high] = [zone("LEAST"), zone("GREATEST")];
      const region = maybe(() => [call("FEASIBLE_ECCENTRICITY_LEAST", P, all, -10000, 10000), call("FEASIBLE_ECCENTRICITY_GREATEST", P, all, -10000, 10000)]);
      if (low <= high) {
        expect(region![0]).toBeCloseTo(low, 6);
        expect(region![1]).toBeCloseTo(high, 6);
        expect(warnings(found("CABLE_ZONE_LEAST"), [P, M, f_c, f_t, A, I, y_b, h, r]).filter((w) => w.startsWith("no eccentricity"))).toEqual([]);
      } else {
        expect(region).toBeUndefined();
        expect(warnings(found("CABLE_ZONE_LEAST"), [P, M, f_c, f_t, A, I, y_b, h, r]).filter((w) => w.startsWith("no eccentricity"))).toHaveLength(1);
      }
      const stresses = (e: number) => [y_b, y_b - h].map((y) => call("FIBRE_STRESS", r * P, e, M, A, I, y));
      expect(Math.min(Math.abs(stresses(low)[0]! - f_t), Math.abs(stresses(low)[1]! - f_c))).toBeLessThan(1e-9);
      expect(Math.min(Math.abs(stresses(high)[0]! - f_c), Math.abs(stresses(high)[1]! - f_t))).toBeLessThan(1e-9);
    }));
  });

  test("moves down with a sagging moment by M/P", () => {
    const zone = (M: number): number => call("CABLE_ZONE_LEAST", 2000, M, 20, 0, 4e5, 2e10, 400, 800);
    expect(zone(500) - zone(0)).toBeCloseTo((500 / 2000) * 1000, 9);
  });
});

describe("a topping cast later", () => {
  test("each fibre with the moment that makes its stress gives the stresses of the two sections", () => {
    // The weight of both acts on the beam, the variable load on beam and topping; the force on the beam.
    const [A, I, y_b, h, M_1, M_2] = [180000, 5.4e9, 300, 600, 120, 150] as const;
    const topping = [[900, 120, 600, 30]] as const;
    const [I_c, y_c] = [call("COMPOSITE_INERTIA", A, y_b, I, topping, 36), call("COMPOSITE_CENTROID", A, y_b, I, topping, 36)];
    const [P, e] = [900, 180] as const;
    const stress = (s: number): number => call("FIBRE_STRESS", P, e, M_1, A, I, y_b - s) + call("FIBRE_STRESS", 0, 0, M_2, A, I_c, y_c - s);
    const row = (s: number, fibre: string) => {
      const y = y_b - s;
      const loads = call("FIBRE_STRESS", 0, 0, M_1, A, I, y) + call("FIBRE_STRESS", 0, 0, M_2, A, I_c, y_c - s);
      return [(-loads * I) / y / 1e6, 1, 18, -2, A, I, y_b, h, fibre];
    };
    const margins = [0, h].map((s) => Math.min(stress(s) + 2, 18 - stress(s)));
    expect(call("REGION_MARGIN", P, e, [row(0, "BOTTOM"), row(h, "TOP")])).toBeCloseTo(Math.min(...margins), 9);
  });
});

describe("closed forms", () => {
  const rectangle = (b: number, h: number, M: number, f_c: number, f_t: number): Row => [M, 1, f_c, f_t, b * h, (b * h ** 3) / 12, h / 2, h, "BOTH"];

  test("a rectangle without load and without tension keeps the force in its kern, h/6 each way", () => {
    fc.assert(fc.property(double(100, 1500), double(200, 3000), double(10, 500), (b, h, P) => {
      const all = [rectangle(b, h, 0, 200, 0)];
      expect(call("FEASIBLE_ECCENTRICITY_GREATEST", P, all, -h / 2, h / 2)).toBeCloseTo(h / 6, 6);
      expect(call("FEASIBLE_ECCENTRICITY_LEAST", P, all, -h / 2, h / 2)).toBeCloseTo(-h / 6, 6);
      expect(call("KERN_DISTANCE", (b * h * h) / 6, b * h)).toBeCloseTo(h / 6, 6);
    }));
  });

  test("its greatest force is f_c·A at no eccentricity and half of that at the edge of the kern", () => {
    const all = [rectangle(300, 600, 0, 15, 0)];
    expect(call("FEASIBLE_FORCE_GREATEST", 0, all)).toBeCloseTo(15 * 180, 9);
    expect(call("FEASIBLE_FORCE_GREATEST", 99.9999999, all)).toBeCloseTo((15 * 180) / 2, 4);
  });

  test("with a moment and no tension the least force is M/(e + h/6)", () => {
    const all = [rectangle(300, 600, 200, 200, 0)];
    expect(call("FEASIBLE_FORCE_LEAST", 200, all)).toBeCloseTo(200e3 / 300, 9);
    expect(call("REGION_LEAST_FORCE", all, -250, 250)).toBeCloseTo(200e3 / 350, 9);
    expect(call("REGION_LEAST_FORCE_ECCENTRICITY", all, -250, 250)).toBeCloseTo(250, 9);
  });

  test("the region of the loaded rectangle without tension has its corners at the kern points shifted by M/P", () => {
    // 300 × 600: the bottom keeps P(e + 100) ≥ M, the top P(e − 100) ≤ M: at P = 1000 kN and M = 200 kN·m from 100 to 300 mm.
    const all = [rectangle(300, 600, 200, 200, 0)];
    expect(call("FEASIBLE_ECCENTRICITY_LEAST", 1000, all, -300, 300)).toBeCloseTo(100, 9);
    expect(call("FEASIBLE_ECCENTRICITY_GREATEST", 1000, all, -300, 400)).toBeCloseTo(300, 9);
  });
});

describe("what has no answer", () => {
  const transfer = [100, 1, 5, 0, 180000, 5.4e9, 300, 600, "BOTH"] as const;
  const service = [300, 0.8, 20, 0, 180000, 5.4e9, 300, 600, "BOTH"] as const;

  test("conditions in conflict are named", () => {
    // The bottom asks for P(e + 100 mm) of 375 kN·m in service and may take 190 kN·m at transfer.
    expect(() => call("REGION_LEAST_FORCE", [transfer, service], -250, 250)).toThrow("no force and eccentricity keep all limits: compression at the bottom in condition 1 and tension at the bottom in condition 2 exclude each other");
    expect(() => call("FEASIBLE_ECCENTRICITY_LEAST", 1500, [transfer, service], -250, 250)).toThrow("tension at the bottom in condition 2 and compression at the bottom in condition 1 exclude each other");
    expect(() => call("FEASIBLE_FORCE_LEAST", 200, [transfer, service])).toThrow(NoResult);
  });

  test("at most three limits are named, and they alone leave nothing", () => {
    fc.assert(fc.property(rows, (all) => {
      try {
        call("REGION_VERTEX_COUNT", all, -50, 50, 100, 20000);
      } catch (error) {
        if (!(error instanceof NoResult)) throw error;
        const named = [...error.message.matchAll(/(tension|compression) at the (top|bottom) in condition (\d)|the bound/g)];
        expect(named.length).toBeGreaterThanOrEqual(1);
        expect(named.length).toBeLessThanOrEqual(3);
      }
    }));
  });

  test("a member that needs no prestress is bounded by the least force considered, with a warning", () => {
    const idle = [[10, 1, 20, -5, 180000, 5.4e9, 300, 600]].map((r) => [...r, ""]);
    expect(call("FEASIBLE_FORCE_LEAST", 0, idle)).toBe(1);
    expect(call("REGION_LEAST_FORCE", idle, -250, 250, 50)).toBeCloseTo(50, 9);
    expect(warnings(found("FEASIBLE_FORCE_LEAST"), [0, idle])).toContainEqual("the bound P ≥ 1 kN decides, not a limit of stress");
    expect(warnings(found("REGION_LEAST_FORCE"), [idle, -250, 250, 50])).toContainEqual("the bound P ≥ 50 kN decides, not a limit of stress");
    expect(warnings(found("REGION_LEAST_FORCE"), [[[200, 1, 20, 0, 180000, 5.4e9, 300, 600, ""]], -250, 250])).toEqual([]);
    expect(warnings(found("FEASIBLE_ECCENTRICITY_GREATEST"), [100, idle, -10, 10])).toContainEqual("the bound e ≤ 10 mm decides, not a limit of stress");
  });

  test("limits the wrong way round, a centroid outside and crossed bounds are refused by name", () => {
    expect(() => call("REGION_MARGIN", 1000, 0, [[0, 1, 0, 5, 180000, 5.4e9, 300, 600, ""]])).toThrow(/row 1.*tension limit must be below/);
    expect(() => call("REGION_MARGIN", 1000, 0, [[0, 1, 10, 0, 180000, 5.4e9, 600, 600, ""]])).toThrow(InputError);
    expect(() => call("REGION_LEAST_FORCE", [transfer], 100, 50)).toThrow(/below 100 mm/);
  });

  test("the trace names the condition that governs", () => {
    const step = trace(found("FEASIBLE_FORCE_LEAST"), [250, [[50, 1, 20, -5, 180000, 5.4e9, 300, 600, ""], [200, 0.8, 20, 0, 180000, 5.4e9, 300, 600, ""]]]).steps.find(({ name }) => name === "i")!;
    expect(step.value).toBe(2);
  });
});
