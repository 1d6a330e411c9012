import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formulas, InputError, run, type Argument } from "../../src/core/index.ts";

const kern = (id: string, ...args: Argument[]): number => run(formulas.find((f) => f.id === `${id}_IS1343_1980`)!, args);
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("IS 1343:1980", () => {
  it("lets creep fall with the age at loading, between the table's ages too, and refuses ages outside", () => {
    fc.assert(fc.property(between(7, 365), between(0, 1), (age, part) => {
      const later = age + (365 - age) * part;
      expect(kern("CREEP_COEFFICIENT", later)).toBeLessThanOrEqual(kern("CREEP_COEFFICIENT", age) + 1e-12);
    }));
    expect(() => kern("CREEP_COEFFICIENT", 3)).toThrow(InputError);
    expect(() => kern("CREEP_COEFFICIENT", 400)).toThrow(InputError);
  });
  it("lets relaxation grow with the stress, from nothing at half the strength, and refuses what the table does not reach", () => {
    fc.assert(fc.property(between(0, 0.8), between(0, 1), (ratio, part) => {
      expect(kern("RELAXATION_LOSS", (ratio + (0.8 - ratio) * part) * 1799.99, 1800)).toBeGreaterThanOrEqual(kern("RELAXATION_LOSS", ratio * 1799.99, 1800));
    }));
    expect(kern("RELAXATION_LOSS", 0.5 * 1800, 1800)).toBe(0);
    expect(() => kern("RELAXATION_LOSS", 0.81 * 1800, 1800)).toThrow(/80 % of the tensile strength/);
  });
  it("shrinks the same before tensioning whatever the age, less the older after it, never above 0.0003 by dryness", () => {
    fc.assert(fc.property(between(3, 300), between(1, 3), (t, k) => {
      expect(kern("SHRINKAGE_STRAIN", "PRE", t)).toBe(0.0003);
      expect(kern("SHRINKAGE_STRAIN", "PRE", t, "DRY")).toBe(0.0003);
      expect(kern("SHRINKAGE_STRAIN", "POST", t * k)).toBeLessThanOrEqual(kern("SHRINKAGE_STRAIN", "POST", t));
      expect(kern("SHRINKAGE_STRAIN", "POST", t, "DRY")).toBeLessThanOrEqual(Math.max(0.0003, kern("SHRINKAGE_STRAIN", "POST", t)));
      expect(kern("SHRINKAGE_STRAIN", "POST", t, "DRY")).toBeGreaterThanOrEqual(kern("SHRINKAGE_STRAIN", "POST", t));
    }));
  });
  it("takes compression limits from the ends of the diagrams, and refuses strengths beyond them", () => {
    const limits: readonly (readonly [string, number, string, number])[] = [
      ["COMPRESSION_LIMIT_TRANSFER", 30, "POST", 0.54], ["COMPRESSION_LIMIT_TRANSFER", 60, "POST", 0.37], ["COMPRESSION_LIMIT_TRANSFER", 40, "PRE", 0.51], ["COMPRESSION_LIMIT_TRANSFER", 60, "PRE", 0.44],
      ["COMPRESSION_LIMIT_SERVICE", 30, "I", 0.41], ["COMPRESSION_LIMIT_SERVICE", 60, "I", 0.35], ["COMPRESSION_LIMIT_SERVICE", 30, "II", 0.34], ["COMPRESSION_LIMIT_SERVICE", 60, "II", 0.27],
    ];
    for (const [id, f, choice, factor] of limits) expect(kern(id, f, choice), `${id} ${f} ${choice}`).toBeCloseTo(factor * f, 12);
    expect(() => kern("COMPRESSION_LIMIT_TRANSFER", 35, "PRE")).toThrow(InputError);
    expect(() => kern("COMPRESSION_LIMIT_SERVICE", 65, "I")).toThrow(InputError);
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
});
