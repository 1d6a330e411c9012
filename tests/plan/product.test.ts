/** A strand, wire or bar picked from the list fills what is left empty; what is typed goes before it. */
import { describe, expect, test } from "vitest";
import { templates } from "../../src/templates/index.ts";
import { computedSheet } from "../draws/sheet.ts";

const templateOf = (id: string) => templates.find((one) => one.id === id)!;
const empty = { As1In: null, fpkIn: null, EpIn: null };
const emptyEn = { ...empty, fp01kIn: null, relaxIn: null };
const one = (sheet: ReturnType<typeof computedSheet>, id: string): unknown => sheet.valuesOf(id)[0];

describe("the product picked", () => {
  // Maker's table of FprEN 10138-3:2009: 12.5 mm: 93 mm², F_m 173 kN, F_p0.1 152 kN; 195 GPa, low relaxation.
  test("fills area, strengths, modulus, class and diameter", () => {
    const sheet = computedSheet(templateOf("pre-tensioned-en1992-2004"), {
      ...emptyEn,
      product: "Y1860S7-12.5",
      diameterIn: null,
    });
    expect(one(sheet, "As1")).toBe(93);
    expect(one(sheet, "fpk")).toBeCloseTo(173e3 / 93, 9);
    expect(one(sheet, "fp01k")).toBeCloseTo(152e3 / 93, 9);
    expect([one(sheet, "Ep"), one(sheet, "relaxationClass"), one(sheet, "diameter")]).toEqual([195, 2, 12.5]);
    expect(sheet.refused).toEqual([]);
    expect(sheet.errors).toEqual([]);
  });

  test("is overwritten by what is typed, one value at a time", () => {
    const sheet = computedSheet(templateOf("post-tensioned-en1992-2004"), {
      ...emptyEn,
      product: "Y1860S7-15.7",
      EpIn: 200,
    });
    expect([one(sheet, "Ep"), one(sheet, "As1"), one(sheet, "fp01k")]).toEqual([200, 150, 1640]);
    expect(sheet.errors).toEqual([]);
  });

  // IS 14268:1995 class II, 12.7 mm: 98.7 mm², 183.7 kN.
  test("to Indian standards", () => {
    const sheet = computedSheet(templateOf("post-tensioned-is1343-1980"), { ...empty, product: "IS14268-II-12.7" });
    expect([one(sheet, "As1"), one(sheet, "Ep")]).toEqual([98.7, 195]);
    expect(one(sheet, "fpk")).toBeCloseTo(183.7e3 / 98.7, 9);
  });

  test("a bar says that its values are from memory, in part", () => {
    const sheet = computedSheet(templateOf("post-tensioned-en1992-2004"), { ...emptyEn, product: "Y1050H-32" });
    expect([one(sheet, "As1"), one(sheet, "relaxationClass")]).toEqual([804, 3]);
    expect(sheet.warnings.join()).toContain("from memory");
  });

  test("without one, what is left empty is missing", () => {
    const sheet = computedSheet(templateOf("post-tensioned-en1992-2004"), { ...emptyEn, product: null });
    expect(sheet.refused).toHaveLength(5);
    expect(sheet.overall).toBe("INCOMPLETE");
  });

  test.each(templates)("$id: the list fits the program's list of choices", (template) => {
    const inputs = template.blocks.flatMap(({ items }) => items);
    const product = inputs.find((item) => "id" in item && item.id === "product")!;
    const choices = "input" in product ? product.input.choices! : [];
    expect(choices.map(({ value }) => value).join().length).toBeLessThanOrEqual(255);
    // Four bars to each standard are left out of the lists for pre-tensioning.
    expect(choices.length).toBeGreaterThan(template.id.startsWith("pre") ? 11 : 15);
  });
});
