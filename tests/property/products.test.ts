import { describe, expect, it } from "vitest";
import { concreteClass, concreteGrade, formulas, InputError, run, tendonProduct, trace } from "../../src/core/index.ts";
import { products } from "../../src/core/formulas/materials/products.ts";

const find = (id: string) => formulas.find((f) => f.id === id)!;
const kern = (id: string, ...args: readonly string[]): number => run(find(id), args);
const of = (property: string, name: string): number => kern("TENDON_PRODUCT", name, property);
const names = Object.keys(products);
/** Half a unit of the last digit that a table prints, up to three of them after the point. */
const half = (x: number): number => 0.5 * 10 ** -Math.min(3, (String(x).split(".")[1] ?? "").length);

describe.each(names)("%s", (name) => {
  const strength = /^Y(\d{4})/.exec(name)?.[1] ?? /^BS5896-(\d{4})/.exec(name)?.[1];

  it("breaks at its area times its nominal strength, within the rounding of area and load", () => {
    if (strength === undefined) {
      // These names carry no strength: strand of 1725 and 1860 MPa, wire and bar below 1900.
      expect(of("TENSILE_STRENGTH", name)).toBeGreaterThan(900);
      expect(of("TENSILE_STRENGTH", name)).toBeLessThan(1900);
      return;
    }
    const { area, breaking } = products[name]!;
    // Loads of three digits without decimals are rounded to 1 kN for strand and to 5 kN for bars.
    const rounding = breaking >= 500 ? 5 : Number.isInteger(breaking) ? 1 : half(breaking);
    expect(Math.abs((area * Number(strength)) / 1e3 - breaking)).toBeLessThanOrEqual(
      rounding + (half(area) * Number(strength)) / 1e3,
    );
  });

  it("has its proof load below its breaking load, at the share usual for its kind", () => {
    const share = of("PROOF_LOAD", name) / of("BREAKING_LOAD", name);
    expect(share).toBeGreaterThanOrEqual(0.799);
    expect(share).toBeLessThanOrEqual(0.91);
    expect(of("PROOF_STRESS", name)).toBeLessThan(of("TENSILE_STRENGTH", name));
  });

  it("weighs its area times the density of steel, and ribs more", () => {
    const density = of("MASS", name) / (of("AREA", name) * 1e-6);
    const ribs = name.startsWith("Y1050H") ? 1.035 : 1;
    expect(density / ribs).toBeGreaterThan(7750);
    expect(density / ribs).toBeLessThan(7910);
  });

  it("has the area of its diameter: a full circle, or the share of three or seven wires", () => {
    const fill = of("AREA", name) / ((Math.PI / 4) * of("DIAMETER", name) ** 2);
    // Three equal circles fill 9/(2 + √3)², 0.646, of the circle round them.
    const fills: readonly (readonly [RegExp, number, number])[] = [
      [/S3-/, 0.62, 0.66],
      [/S7-|14268|A416/, 0.7, 0.8],
      [/./, 0.995, 1.005],
    ];
    const [, low, high] = fills.find(([of]) => of.test(name))!;
    expect(fill).toBeGreaterThan(low);
    expect(fill).toBeLessThan(high);
  });

  it("has a modulus and a relaxation class that the loss functions accept", () => {
    expect(
      run(find("RELAXATION_LOSS_EN1992_2004"), [
        of("TENSILE_STRENGTH", name),
        of("RELAXATION_CLASS", name),
        0.7 * of("TENSILE_STRENGTH", name),
      ]),
    ).toBeGreaterThan(0);
    expect([195, 200, 205, 210]).toContain(of("MODULUS", name));
  });

  it("says where its row is from memory, and where its proof value is not the 0.1 % one", () => {
    const warnings = trace(find("TENDON_PRODUCT"), [name, "PROOF_STRESS"]).warnings;
    expect(warnings.some((w) => w.includes("from memory"))).toBe(products[name]!.basis.startsWith("memory"));
    expect(warnings.some((w) => w.includes("not the 0.1 % proof value"))).toBe(products[name]!.proof !== "0.1 %");
  });
});

describe("the table of products", () => {
  it("is the list of choices, name by name", () => {
    expect(tendonProduct.values.map(({ value }) => value)).toEqual(names);
    expect(new Set(names.map((name) => name.toUpperCase())).size).toBe(names.length);
  });
  it("refuses a name that is not in it", () => {
    expect(() => of("AREA", "Y1860S7-99")).toThrow(InputError);
  });
  it("ranks strands of one standard by size", () => {
    for (const family of [/^Y1860S7/, /^Y1860S3/, /^IS14268-I-/, /^IS14268-II-/, /^A416/, /^Y1050H/]) {
      const sizes = names.filter((name) => family.test(name));
      expect(sizes.length).toBeGreaterThan(1);
      for (const property of ["DIAMETER", "AREA", "MASS", "BREAKING_LOAD", "PROOF_LOAD"])
        sizes.slice(1).forEach((name, i) => {
          expect(of(property, name), `${property} ${name}`).toBeGreaterThan(of(property, sizes[i]!));
        });
    }
  });
});

describe("concrete by name", () => {
  it("has the strengths that its name says", () => {
    for (const { value } of concreteClass.values) {
      const [, cylinder, cube] = /^C(\d+)\/(\d+)$/.exec(value)!;
      expect(kern("CONCRETE_CLASS_STRENGTH_EN1992_2004", value, "CYLINDER")).toBe(Number(cylinder));
      expect(kern("CONCRETE_CLASS_STRENGTH_EN1992_2004", value, "CUBE")).toBe(Number(cube));
      expect(Number(cylinder) / Number(cube)).toBeGreaterThan(0.77);
      expect(Number(cylinder) / Number(cube)).toBeLessThan(0.87);
    }
    for (const { value } of concreteGrade.values)
      expect(kern("CONCRETE_GRADE_STRENGTH_IS1343_1980", value)).toBe(Number(value.slice(1)));
  });
  it("is refused by any other name", () => {
    expect(() => kern("CONCRETE_CLASS_STRENGTH_EN1992_2004", "C31/37", "CYLINDER")).toThrow(InputError);
    expect(() => kern("CONCRETE_GRADE_STRENGTH_IS1343_1980", "M25")).toThrow(InputError);
  });
});
