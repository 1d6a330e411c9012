/**
 * What linked sheets and their stress check say of the same thing must agree, or the sheet warns with both numbers.
 * Common practice, no source; the examples are invented.
 */
import { describe, expect, test } from "vitest";
import type { Inputs } from "../../src/sheet/index.ts";
import { linkedTemplates } from "../../src/templates/index.ts";
import { exampleOf, planned } from "./builtSheet.ts";

/** The warnings of a linked sheet, and the words of its status cells. */
function said(id: string, set: Inputs): { readonly warnings: readonly string[]; readonly statuses: readonly string[] } {
  const template = linkedTemplates.find((one) => one.id === id)!;
  const { plan, values } = planned(template, { ...exampleOf(template), ...set });
  const { warnings } = plan.summary;
  const lines = values
    .slice(warnings.row, warnings.row + warnings.rows)
    .map((line) => line[warnings.column]!.text.trim());
  const statuses = plan.cells
    .filter(({ role }) => role === "verdict")
    .map(({ row, column }) => values[row]![column]!.text);
  return { warnings: lines.filter((line) => line !== ""), statuses };
}

describe.each(["composite-post-tensioned-en1992-2004", "composite-post-tensioned-is1343-1980"])("%s", (id) => {
  // 25 kN/m³ · 1.5 m · 0.12 m = 4.5 kN/m.
  const heavy = { inTt: 120, gs: 9 };
  test("tells both weights of the topping where they differ by more than a value rounded to one decimal", () => {
    const { warnings } = said(id, { ...heavy, gsTop: 2 });
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toContain("gt = 4.5 kN/m");
    expect(warnings[0]).toContain("gs,t = 2 kN/m");
    expect(said(id, { ...heavy, gsTop: 4.46 }).warnings).toEqual([]);
    expect(said(id, { ...heavy, gsTop: 4.4 }).warnings).toHaveLength(1);
  });
  test("asks whether g_s holds the wet topping where the stress check does not name it", () => {
    const { warnings } = said(id, { ...heavy, gsTop: null });
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toMatch(/gt = 4.5 kN\/m of the wet topping is not named on the stress check/);
  });
  test("warns where the topping is cast long before or after its weight acts on the stress check, at 60 days", () => {
    for (const inTc of [29, 121]) {
      const { warnings } = said(id, { inTc });
      expect(warnings).toHaveLength(1);
      expect(warnings[0]).toContain(`tc = ${inTc} days`);
      expect(warnings[0]).toContain("tg = 60 days");
    }
    for (const inTc of [31, 119]) expect(said(id, { inTc }).warnings).toEqual([]);
    expect(said(id, { inTc: 121, inProp: "PROPPED", gsTop: 0 }).warnings).toEqual([]);
  });
  test("says nothing of a weight of 0 while thickness, width or unit weight is missing", () => {
    for (const missing of ["inTt", "inBs", "inGt"])
      expect(said(id, { [missing]: null }).warnings.join()).not.toContain("gt = 0");
  });
  test("is in conflict where props carry a topping that g_s holds too", () => {
    expect(said(id, { inProp: "PROPPED" }).statuses).toContain("CONFLICT");
    const apart = said(id, { inProp: "PROPPED", gsTop: null });
    expect(apart.statuses).not.toContain("CONFLICT");
    // g_s stays 6 kN/m: nobody has said that the topping is no longer in it.
    expect(apart.warnings).toHaveLength(1);
    expect(apart.warnings[0]).toMatch(/PROPPED.*gt = 3 kN\/m.*must hold none of it.*enter 0/);
    expect(said(id, { inProp: "PROPPED", gsTop: 0 }).warnings).toEqual([]);
  });
});

describe.each(["end-zones-post-tensioned-en1992-2004", "end-zones-post-tensioned-is1343-1980"])("%s", (id) => {
  test.each<readonly [string, Inputs, readonly string[]]>([
    ["another width", { detWidth: 500 }, ["beb = 640 mm", "bd = 500 mm"]],
    ["no widened end there", { detWidth: null }, ["beb = 640 mm", "bd = 0 mm"]],
    ["a width there that reaches nowhere", { detFrom: 0 }, ["beb = 640 mm", "bd = 0 mm"]],
    ["no end block here", { ebWidth: null, ebLength: null }, ["beb = 0 mm", "bd = 640 mm"]],
    ["another length", { detFrom: 1.5 }, ["leb = 1300 mm", "xd = 1.5 m"]],
  ])("tells the end block and the widened end of the stress check: %s", (_, set, both) => {
    const { warnings } = said(id, set);
    expect(warnings).toHaveLength(1);
    for (const word of both) expect(warnings[0]).toContain(word);
  });
  test("says nothing where they agree, or where the stress check has no such input", () => {
    expect(said(id, {}).warnings).toEqual([]);
    expect(said(id, { detailing: "NO" }).warnings).toEqual([]);
  });
  test("warns where no edge distance is asked for and less than the least cover lies below a plate", () => {
    // By hand: plates 287 mm high, their axes 143.9 mm above the soffit, end 0.4 mm above it; at 230 mm, 28.9 mm.
    const high = [287, 287, 430];
    const { warnings } = said(id, { aiV: [high, high], edgeMin: 0, spaceMin: 0 });
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toMatch(/ce,min = 0 mm.*cp = 0\.4\d* mm.*ccov = 20 mm/);
    expect(said(id, { edgeMin: 0, spaceMin: 0 }).warnings).toEqual([]);
  });
  test("takes layers near the face and no distance by the approval for usual, metres in place of mm not", () => {
    const first = [35, 35, 35, 35, 35, 35];
    expect(said(id, { siFirst: [first, first], edgeMin: 0, spaceMin: 0 }).warnings).toEqual([]);
    expect(said(id, { siFirst: [first.map((x) => x / 1000), first] }).warnings.join()).toContain("x0");
    expect(said(id, { edgeMin: 0.14 }).warnings.join()).toContain("0.14 mm is outside the everyday range");
    expect(said(id, { spaceMin: 0.27 }).warnings.join()).toContain("0.27 mm is outside the everyday range");
  });
});

describe.each(["end-zones-pre-tensioned-en1992-2004", "end-zones-pre-tensioned-is1343-1980"])("%s", (id) => {
  test("tells that the widened end of the stress check is not on it", () => {
    const { warnings } = said(id, { detFrom: 1, detWidth: 600 });
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toContain("bd = 600 mm");
  });
  test("takes a first layer of links at 35 mm for usual", () => {
    expect(said(id, { siFirst: 35 }).warnings).toEqual([]);
  });
});
