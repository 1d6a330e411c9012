import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formulas, InputError, NoResult, run, trace, warnings, type Argument } from "../../src/core/index.ts";
import { rows, type Row } from "./regionRows.ts";
import { between } from "./draws.ts";

const found = (id: string) => formulas.find((f) => f.id === id)!;
const call = (id: string, ...args: readonly Argument[]): number => run(found(id), args);

describe("a topping cast later", () => {
  test("each fibre with the moment that makes its stress gives the stresses of the two sections", () => {
    // The weight of both acts on the beam, the variable load on beam and topping; the force on the beam.
    const [A, I, y_b, h, M_1, M_2] = [180000, 5.4e9, 300, 600, 120, 150] as const;
    const topping = [[900, 120, 600, 30]] as const;
    const [I_c, y_c] = [
      call("COMPOSITE_SECTION", A, y_b, I, topping, 36, "INERTIA"),
      call("COMPOSITE_SECTION", A, y_b, I, topping, 36, "CENTROID"),
    ];
    const [P, e] = [900, 180] as const;
    const stress = (s: number): number =>
      call("FIBRE_STRESS", A, I, e, P, M_1, y_b - s) + call("FIBRE_STRESS", A, I_c, 0, 0, M_2, y_c - s);
    const row = (s: number, fibre: string) => {
      const y = y_b - s;
      const loads = call("FIBRE_STRESS", A, I, 0, 0, M_1, y) + call("FIBRE_STRESS", A, I_c, 0, 0, M_2, y_c - s);
      return [(-loads * I) / y / 1e6, 1, 18, -2, A, I, y_b, h, fibre];
    };
    const margins = [0, h].map((s) => Math.min(stress(s) + 2, 18 - stress(s)));
    expect(call("REGION_MARGIN", [row(0, "BOTTOM"), row(h, "TOP")], P, e, "MARGIN")).toBeCloseTo(
      Math.min(...margins),
      9,
    );
  });
});

describe("closed forms", () => {
  const rectangle = (b: number, h: number, M: number, f_c: number, f_t: number): Row => [
    M,
    1,
    f_c,
    f_t,
    b * h,
    (b * h ** 3) / 12,
    h / 2,
    h,
    "BOTH",
  ];

  test("a rectangle without load and without tension keeps the force in its kern, h/6 each way", () => {
    fc.assert(
      fc.property(between(100, 1500), between(200, 3000), between(10, 500), (b, h, P) => {
        const all = [rectangle(b, h, 0, 200, 0)];
        expect(call("FEASIBLE_ECCENTRICITY", all, -h / 2, h / 2, P, "MAX")).toBeCloseTo(h / 6, 6);
        expect(call("FEASIBLE_ECCENTRICITY", all, -h / 2, h / 2, P, "MIN")).toBeCloseTo(-h / 6, 6);
        expect(call("KERN_DISTANCE", (b * h * h) / 6, b * h)).toBeCloseTo(h / 6, 6);
      }),
    );
  });

  test("its greatest force is f_c·A at no eccentricity and half of that at the edge of the kern", () => {
    const all = [rectangle(300, 600, 0, 15, 0)];
    expect(call("FEASIBLE_FORCE", all, 0, "MAX")).toBeCloseTo(15 * 180, 9);
    expect(call("FEASIBLE_FORCE", all, 99.9999999, "MAX")).toBeCloseTo((15 * 180) / 2, 4);
  });

  test("with a moment and no tension the least force is M/(e + h/6)", () => {
    const all = [rectangle(300, 600, 200, 200, 0)];
    expect(call("FEASIBLE_FORCE", all, 200, "MIN")).toBeCloseTo(200e3 / 300, 9);
    expect(call("REGION_MIN_FORCE", all, -250, 250, "FORCE")).toBeCloseTo(200e3 / 350, 9);
    expect(call("REGION_MIN_FORCE", all, -250, 250, "ECCENTRICITY")).toBeCloseTo(250, 9);
  });

  test("the region of the loaded rectangle without tension has its corners at the kern points shifted by M/P", () => {
    // 300 × 600: the bottom keeps P(e + 100) ≥ M, the top P(e − 100) ≤ M: at P = 1000 kN and M = 200 kN·m from 100 to 300 mm.
    const all = [rectangle(300, 600, 200, 200, 0)];
    expect(call("FEASIBLE_ECCENTRICITY", all, -300, 300, 1000, "MIN")).toBeCloseTo(100, 9);
    expect(call("FEASIBLE_ECCENTRICITY", all, -300, 400, 1000, "MAX")).toBeCloseTo(300, 9);
  });
});

describe("what has no answer", () => {
  const transfer = [100, 1, 5, 0, 180000, 5.4e9, 300, 600, "BOTH"] as const;
  const service = [300, 0.8, 20, 0, 180000, 5.4e9, 300, 600, "BOTH"] as const;

  test("conditions in conflict are named", () => {
    // The bottom asks for P(e + 100 mm) of 375 kN·m in service and may take 190 kN·m at transfer.
    expect(() => call("REGION_MIN_FORCE", [transfer, service], -250, 250, "FORCE")).toThrow(
      "no force and eccentricity keep the limits of all conditions: compression at the bottom in condition " +
        "1 and tension at the bottom in condition 2 exclude each other",
    );
    expect(() => call("FEASIBLE_ECCENTRICITY", [transfer, service], -250, 250, 1500, "MIN")).toThrow(
      "tension at the bottom in condition 2 and compression at the bottom in condition 1 exclude each other",
    );
    expect(() => call("FEASIBLE_FORCE", [transfer, service], 200, "MIN")).toThrow(NoResult);
  });

  /** The conditions with every limit loosened but those named; the first row keeps the centroid that e counts from. */
  function onlyNamed(all: readonly Row[], message: string): readonly Row[] {
    const loose = [...all[0]!].with(2, 200).with(3, -200) as unknown as Row;
    const named = [...message.matchAll(/(tension|compression) at the (top|bottom) in condition (\d)/g)];
    return [
      loose,
      ...named.map(([, sense, fibre, i]) => {
        const row = all[Number(i) - 1]!;
        const one = sense === "tension" ? row.with(2, 200) : row.with(3, -200);
        return one.with(8, fibre!.toUpperCase()) as unknown as Row;
      }),
    ];
  }

  test("at most three limits are named, and they alone leave nothing", () => {
    // Every second condition has up to 10 800 kN·m, so that many draws leave nothing.
    const heavy = rows.map((all) =>
      all.map((one, i) => (i % 2 === 1 ? (one.with(0, 6 * one[0]) as unknown as Row) : one)),
    );
    let refused = 0;
    fc.assert(
      fc.property(heavy, (all) => {
        try {
          call("REGION_VERTEX", all, -50, 50, null, "COUNT", 100, 20000);
        } catch (error) {
          if (!(error instanceof NoResult)) throw error;
          refused++;
          const { message } = error;
          const named = message.match(/(tension|compression) at the (top|bottom) in condition \d|the bound/g) ?? [];
          expect(named.length).toBeGreaterThanOrEqual(1);
          expect(named.length).toBeLessThanOrEqual(3);
          const bound = (words: string, own: number, wide: number): number => (message.includes(words) ? own : wide);
          expect(() =>
            call(
              "REGION_VERTEX",
              onlyNamed(all, message),
              bound("e ≥", -50, -2000),
              bound("e ≤", 50, 2000),
              null,
              "COUNT",
              bound("P ≥", 100, 1),
              bound("P ≤", 20000, 1e6),
            ),
          ).toThrow(NoResult);
        }
      }),
    );
    expect(refused).toBeGreaterThan(10);
  });

  test("a member that needs no prestress is bounded by the least force considered, with a warning", () => {
    const idle = [[10, 1, 20, -5, 180000, 5.4e9, 300, 600]].map((r) => [...r, ""]);
    expect(call("FEASIBLE_FORCE", idle, 0, "MIN")).toBe(1);
    expect(call("REGION_MIN_FORCE", idle, -250, 250, "FORCE", 50)).toBeCloseTo(50, 9);
    expect(warnings(found("FEASIBLE_FORCE"), [idle, 0, "MIN"])).toContainEqual(
      "the bound P ≥ 1 kN decides, not a limit of stress",
    );
    expect(warnings(found("REGION_MIN_FORCE"), [idle, -250, 250, "FORCE", 50])).toContainEqual(
      "the bound P ≥ 50 kN decides, not a limit of stress",
    );
    expect(
      warnings(found("REGION_MIN_FORCE"), [[[200, 1, 20, 0, 180000, 5.4e9, 300, 600, ""]], -250, 250, "FORCE"]),
    ).toEqual([]);
    expect(warnings(found("FEASIBLE_ECCENTRICITY"), [idle, -10, 10, 100, "MAX"])).toContainEqual(
      "the bound e ≤ 10 mm decides, not a limit of stress",
    );
  });

  test("limits the wrong way round, a centroid outside and crossed bounds are refused by name", () => {
    expect(() => call("REGION_MARGIN", [[0, 1, 0, 5, 180000, 5.4e9, 300, 600, ""]], 1000, 0, "MARGIN")).toThrow(
      /row 1.*tension limit must be below/,
    );
    expect(() => call("REGION_MARGIN", [[0, 1, 10, 0, 180000, 5.4e9, 600, 600, ""]], 1000, 0, "MARGIN")).toThrow(
      InputError,
    );
    expect(() => call("REGION_MIN_FORCE", [transfer], 100, 50, "FORCE")).toThrow(/below 100 mm/);
  });

  test("the trace names the condition that governs", () => {
    const step = trace(found("FEASIBLE_FORCE"), [
      [
        [50, 1, 20, -5, 180000, 5.4e9, 300, 600, ""],
        [200, 0.8, 20, 0, 180000, 5.4e9, 300, 600, ""],
      ],
      250,
      "MIN",
    ]).steps.find(({ name }) => name === "i")!;
    expect(step.value).toBe(2);
  });
});
