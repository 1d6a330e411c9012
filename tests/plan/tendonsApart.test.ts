/** Two tendons in one place are no design, also where spacing is not checked against a limit. Geometry, no source. */
import { describe, expect, test } from "vitest";
import { allTemplates } from "../../src/templates/index.ts";
import { builtSheet } from "./builtSheet.ts";

const post = ["post-tensioned-en1992-2004", "post-tensioned-is1343-1980"] as const;
const pre = ["pre-tensioned-en1992-2004", "pre-tensioned-is1343-1980"] as const;
const built = (id: string, changes: object) => {
  const { example } = allTemplates.find((one) => one.id === id)!;
  return builtSheet(id, { ...example.inputs, detailing: "NO", ...changes });
};

describe.each(post)("%s", (id) => {
  test("tendons beside each other are apart by their centre distance less a duct", () => {
    const sheet = built(id, {});
    expect(sheet.column("uSpacing")).toEqual(["apart"]);
    // Tendons 1 and 2 lie at one level, 85 mm to either side, in ducts of 65 mm; at the ends the third is far above.
    expect(Math.max(...(sheet.column("dApart") as readonly number[]))).toBeCloseTo(170 - 65, 9);
    expect(sheet.errors()).toEqual([]);
  });
  test("a tendon that lies on another fails", () => {
    const sheet = built(id, { zt: [0, 0, 0] });
    expect(sheet.column("uSpacing")).toEqual(["touching"]);
    expect(sheet.column("overall")).toEqual(["FAIL"]);
  });
  test("one tendon touches none", () => {
    const { example } = allTemplates.find((one) => one.id === id)!;
    const first = (value: unknown) => (Array.isArray(value) && value.length === 3 ? value.slice(0, 1) : value);
    const one = Object.fromEntries(Object.entries(example.inputs).map(([key, value]) => [key, first(value)]));
    const sheet = built(id, { ...one, tendons: 1, order: [1] });
    expect(sheet.column("uSpacing")).toEqual(["one"]);
  });
});

test.each(pre)("%s: rows of strands at one height and place fail", (id) => {
  expect(built(id, {}).column("uSpacing")).toEqual(["apart"]);
  const second = { yEndIn: [60, 60, 500, 60], yMidIn: [60, 60, 110, 60] };
  // Eight strands at ±25, ±75 … and two between them at ±150: 25 mm less a strand are left.
  const left = 25 - (built(id, second).column("diameter")[0] as number);
  expect(built(id, second).column("dApart").at(-1)).toBeCloseTo(left, 9);
  expect(built(id, { ...second, sh: [50, 50, 50, 100] }).column("uSpacing")).toEqual(["touching"]);
});
