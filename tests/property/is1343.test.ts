import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formulas, InputError, run, trace, type Argument } from "../../src/core/index.ts";
import { between } from "./draws.ts";

const kern = (id: string, ...args: Argument[]): number =>
  run(
    formulas.find((f) => f.id === `${id}_IS1343_1980`)!,
    args,
  );

describe("IS 1343:1980", () => {
  it("lets creep fall with the age at loading, between the table's ages too, and refuses ages outside", () => {
    fc.assert(
      fc.property(between(7, 365), between(0, 1), (age, part) => {
        const later = age + (365 - age) * part;
        expect(kern("CREEP_COEFFICIENT", later)).toBeLessThanOrEqual(kern("CREEP_COEFFICIENT", age) + 1e-12);
      }),
    );
    expect(() => kern("CREEP_COEFFICIENT", 3)).toThrow(InputError);
    expect(() => kern("CREEP_COEFFICIENT", 400)).toThrow(InputError);
  });
  it("reads the diagram of compression at transfer at the strength then and at the grade, and takes the lower", () => {
    // By hand, post-tensioned: 0.54 at 30 and 0.37 at 60 MPa; 0.4833 at 40, 0.4267 at 50.
    expect(kern("COMPRESSION_LIMIT", 50, "TRANSFER", 40, "POST")).toBeCloseTo((0.54 - (0.17 * 20) / 30) * 40, 12);
    expect(kern("COMPRESSION_LIMIT", 40, "TRANSFER", 40, "POST")).toBeCloseTo((0.54 - (0.17 * 10) / 30) * 40, 12);
    expect(kern("COMPRESSION_LIMIT", 50, "TRANSFER", 45, "PRE")).toBeCloseTo((0.51 - (0.07 * 10) / 20) * 45, 12);
    expect(kern("COMPRESSION_LIMIT", 45, "TRANSFER", 50, "PRE")).toBeCloseTo((0.51 - (0.07 * 10) / 20) * 50, 12);
    expect(() => kern("COMPRESSION_LIMIT", 65, "TRANSFER", 40, "POST")).toThrow(InputError);
  });
  it("loses m·σ_c by elastic shortening, half of it on average where tendons are stressed one after another", () => {
    // 18.5.2.4, from memory: 195/32.5 = 6, times 10 MPa.
    expect(kern("ELASTIC_LOSS", 195, 32.5, 10, "PRE")).toBeCloseTo(60, 12);
    expect(kern("ELASTIC_LOSS", 195, 32.5, 10, "POST")).toBeCloseTo(30, 12);
  });
  it("has creep linear up to a third of the strength at transfer", () => {
    expect(kern("LINEAR_CREEP_LIMIT", 40)).toBeCloseTo(13.3333, 4);
  });
  it("lets relaxation grow with the stress, from nothing at half the strength, and refuses what the table does not reach", () => {
    fc.assert(
      fc.property(between(0, 0.8), between(0, 1), (ratio, part) => {
        expect(kern("RELAXATION_LOSS", 1800, (ratio + (0.8 - ratio) * part) * 1799.99)).toBeGreaterThanOrEqual(
          kern("RELAXATION_LOSS", 1800, ratio * 1799.99),
        );
      }),
    );
    expect(kern("RELAXATION_LOSS", 1800, 0.5 * 1800)).toBe(0);
    const told = (stress: number): readonly string[] =>
      trace(
        formulas.find((f) => f.id === "RELAXATION_LOSS_IS1343_1980")!,
        [1800, stress],
      ).warnings;
    expect(told(0.5 * 1800)).toEqual([]);
    expect(told(0.4 * 1800)).toEqual([expect.stringContaining("where the table begins")]);
    expect(told(0.81 * 1800)).toEqual([expect.stringContaining("where the table ends: its last value is held")]);
    expect(kern("RELAXATION_LOSS", 1800, 0.81 * 1800)).toBe(kern("RELAXATION_LOSS", 1800, 0.8 * 1800));
    expect(() => kern("RELAXATION_LOSS", 1800, 1.01 * 1800)).toThrow(/the tensile strength/);
  });
  it("shrinks the same before tensioning whatever the age, less the older after it, never above 0.0003 by dryness", () => {
    fc.assert(
      fc.property(between(3, 300), between(1, 3), (t, k) => {
        expect(kern("SHRINKAGE_STRAIN", t, "PRE")).toBe(0.0003);
        expect(kern("SHRINKAGE_STRAIN", t, "PRE", "DRY")).toBe(0.0003);
        expect(kern("SHRINKAGE_STRAIN", t * k, "POST")).toBeLessThanOrEqual(kern("SHRINKAGE_STRAIN", t, "POST"));
        expect(kern("SHRINKAGE_STRAIN", t, "POST", "DRY")).toBeLessThanOrEqual(
          Math.max(0.0003, kern("SHRINKAGE_STRAIN", t, "POST")),
        );
        expect(kern("SHRINKAGE_STRAIN", t, "POST", "DRY")).toBeGreaterThanOrEqual(kern("SHRINKAGE_STRAIN", t, "POST"));
      }),
    );
  });
  it("takes compression limits from the ends of the diagrams, and refuses strengths beyond them", () => {
    const limits: readonly (readonly [string, number, string, number])[] = [
      ["TRANSFER", 30, "POST", 0.54],
      ["TRANSFER", 60, "POST", 0.37],
      ["TRANSFER", 40, "PRE", 0.51],
      ["TRANSFER", 60, "PRE", 0.44],
      ["SERVICE", 30, "I", 0.41],
      ["SERVICE", 60, "I", 0.35],
      ["SERVICE", 30, "II", 0.34],
      ["SERVICE", 60, "II", 0.27],
    ];
    for (const [situation, f, choice, factor] of limits) {
      const more = situation === "TRANSFER" ? [f, choice] : [null, null, choice];
      expect(kern("COMPRESSION_LIMIT", f, situation, ...more), `${situation} ${f} ${choice}`).toBeCloseTo(
        factor * f,
        12,
      );
    }
    expect(() => kern("COMPRESSION_LIMIT", 45, "TRANSFER", 35, "PRE")).toThrow(InputError);
    expect(() => kern("COMPRESSION_LIMIT", 65, "SERVICE", null, null, "I")).toThrow(InputError);
    expect(() => kern("TRANSMISSION_LENGTH", 12.5, "STRAND", 30)).toThrow(InputError);
  });
  it("allows tension by type", () => {
    expect(kern("TENSION_LIMIT", 1)).toBe(0);
    expect(kern("TENSION_LIMIT", 1, "YES")).toBe(0);
    expect(kern("TENSION_LIMIT", 2)).toBe(-3);
    expect(kern("TENSION_LIMIT", 2, "YES")).toBe(-4.5);
    expect(kern("TENSION_LIMIT", 3, "NO", -4.8)).toBe(-4.8);
    expect(() => kern("TENSION_LIMIT", 3)).toThrow(/type 3 needs its hypothetical tension/);
  });
  it("has no jump where a table has a value", () => {
    const across = (f: (x: number) => number, x: number): number => Math.abs(f(x * (1 + 1e-9)) - f(x * (1 - 1e-9)));
    expect(across((age) => kern("CREEP_COEFFICIENT", age), 28)).toBeLessThan(1e-7);
    for (const ratio of [0.5, 0.6, 0.7])
      expect(
        across((s) => kern("RELAXATION_LOSS", 1000, s), ratio * 1000),
        `${ratio}`,
      ).toBeLessThan(1e-5);
    for (const f of [40, 45, 50])
      expect(
        across((f_ck) => kern("HYPOTHETICAL_TENSION", 400, f_ck, "PRE_NEAR_FACE", 0.2), Math.max(f, 40 * (1 + 2e-9))),
        `${f} MPa`,
      ).toBeLessThan(1e-6);
    for (const h of [200, 400, 600, 800, 1000])
      expect(
        across((x) => kern("HYPOTHETICAL_TENSION", x, 40, "POST", 0.1), h),
        `${h} mm`,
      ).toBeLessThan(1e-6);
  });
  it(
    "takes hypothetical tension from the tables: more of it for strength and wider cracks, less for " +
      "depth, none below the table's grades",
    () => {
      const printed: readonly (readonly [number, string, number, number])[] = [
        [30, "POST", 0.1, 3.2],
        [35, "POST", 0.2, 4.4],
        [40, "PRE", 0.1, 4.1],
        [50, "PRE", 0.2, 5.8],
        [60, "PRE", 0.2, 5.8],
        [45, "PRE_NEAR_FACE", 0.1, 5.8],
        [60, "PRE_NEAR_FACE", 0.2, 7.3],
      ];
      for (const [f, tendons, w, tension] of printed)
        expect(kern("HYPOTHETICAL_TENSION", 400, f, tendons, w), `${f} ${tendons} ${w}`).toBeCloseTo(-tension, 12);
      expect(kern("HYPOTHETICAL_TENSION", 150, 40, "PRE", 0.1)).toBeCloseTo(-4.1 * 1.1, 12);
      expect(kern("HYPOTHETICAL_TENSION", 1500, 40, "PRE", 0.1)).toBeCloseTo(-4.1 * 0.7, 12);
      fc.assert(
        fc.property(
          between(40, 60),
          between(0, 1),
          fc.constantFrom("PRE", "POST", "PRE_NEAR_FACE"),
          between(100, 1500),
          between(1, 2),
          (f, part, tendons, h, deeper) => {
            const here = kern("HYPOTHETICAL_TENSION", h, f, tendons, 0.1);
            expect(kern("HYPOTHETICAL_TENSION", h, f + (60 - f) * part, tendons, 0.1)).toBeLessThanOrEqual(
              here + 1e-12,
            );
            expect(kern("HYPOTHETICAL_TENSION", h, f, tendons, 0.2)).toBeLessThan(here);
            expect(kern("HYPOTHETICAL_TENSION", h * deeper, f, tendons, 0.1)).toBeGreaterThanOrEqual(here - 1e-12);
            expect(here).toBeGreaterThan(-f / 4);
            expect(kern("TENSION_LIMIT", 3, "NO", here)).toBe(here);
          },
        ),
      );
      expect(() => kern("HYPOTHETICAL_TENSION", 400, 35, "PRE", 0.1)).toThrow(/where the table begins/);
      expect(() => kern("HYPOTHETICAL_TENSION", 400, 40, "PRE", 0.15)).toThrow(InputError);
    },
  );
});
