/** A design is changed a hundred times: another span or depth on the filled sheet is one entry, and no cell turns to an error. */
import { describe, expect, test } from "vitest";
import { templates } from "../../src/templates/index.ts";
import { computedSheet } from "../draws/sheet.ts";

const spans: Readonly<Record<string, number>> = {
  "post-tensioned-en1992-2004": 26,
  "post-tensioned-is1343-1980": 26,
  "post-tensioned-is1343-2012": 26,
  "pre-tensioned-en1992-2004": 16.3,
  "pre-tensioned-is1343-1980": 13.7,
  "pre-tensioned-is1343-2012": 13.7,
};

describe.each(templates)("$id", (template) => {
  test("another span: the profiles run over it, no error, no conflict", () => {
    const L = spans[template.id]!;
    const computed = computedSheet(template, { L });
    expect(computed.errors).toEqual([]);
    expect(computed.conflicts).toEqual([]);
    expect(["OK", "FAIL", "WARNINGS"]).toContain(computed.overall);
    if (template.id.startsWith("post"))
      expect(computed.valuesOf("cpx")).toEqual([0, L / 2, L, 0, L / 2, L, 0, L / 2, L]);
  });

  test.each([0.9, 1.15])("the depth times %f: the heights are kept, no error, no conflict", (by) => {
    const h = Number(template.example.inputs["h"]) * by;
    const computed = computedSheet(template, { h });
    expect(computed.errors).toEqual([]);
    expect(computed.conflicts).toEqual([]);
    expect(["OK", "FAIL", "WARNINGS"]).toContain(computed.overall);
  });
});

test("a tendon that follows another lies by its offset above it, and one measured from the top by its depth below", () => {
  const post = templates.find(({ id }) => id === "post-tensioned-en1992-2004")!;
  const computed = computedSheet(post, { lift: [0, 25, 0] });
  expect(computed.errors).toEqual([]);
  // The centroid by hand, from the three rectangles: 303014000 mm³ / 456400 mm².
  const yb = 303014000 / 456400;
  const expected = [
    ...[143.922, 113.922, 143.922].map((y) => yb - y),
    ...[168.922, 138.922, 168.922].map((y) => yb - y),
    ...[1200 - 216.078, 263.922, 1200 - 216.078].map((y) => yb - y),
  ];
  (computed.valuesOf("cpe") as number[]).forEach((e, i) => expect(e).toBeCloseTo(expected[i]!, 9));
});
