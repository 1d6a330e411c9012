/** Factors that the National Annex may change stand in one block, with the recommended values, and decide the limits. */
import { expect, test } from "vitest";
import { templates } from "../../src/templates/index.ts";
import { computedSheet } from "../draws/sheet.ts";

const post = templates.find(({ id }) => id === "post-tensioned-en1992-2004")!;
const values = (set: Parameters<typeof computedSheet>[1], ids: readonly string[]): readonly number[] => {
  const sheet = computedSheet(post, set);
  return ids.map((id) => Number(sheet.valuesOf(id)[0]));
};
const limits = ["fcTransfer", "fcChar", "fcQP", "sigjLimit", "sp0Limit", "spServiceLimit", "rsup", "rinf"];

// f_ck = 40, f_ck(t_0) = 34, f_pk = 1860, f_p0.1k = 1600 MPa; recommended values of EN 1992-1-1.
test("recommended values", () => {
  const expected = [0.6 * 34, 0.6 * 40, 0.45 * 40, 0.9 * 1600, 0.85 * 1600, 0.75 * 1860, 1.1, 0.9];
  values({}, limits).forEach((value, i) => expect(value, limits[i]).toBeCloseTo(expected[i]!, 9));
});

test("others", () => {
  const set = { kTransfer: 0.55, k1c: 0.5, k2c: 0.4, k1p: 0.7, k7p: 0.65, k5p: 0.7, rsupIn: 1.05, rinfIn: 0.95 };
  const expected = [0.55 * 34, 0.5 * 40, 0.4 * 40, 0.7 * 1860, 0.65 * 1860, 0.7 * 1860, 1.05, 0.95];
  values(set, limits).forEach((value, i) => expect(value, limits[i]).toBeCloseTo(expected[i]!, 9));
});
