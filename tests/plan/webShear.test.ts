/**
 * Shear for the check of the web: of point loads by statics, of entered moments only as entered; empty ends of the web
 * and shears withhold OK without error cells.
 */
import { describe, expect, test } from "vitest";
import type { Inputs } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { computedSheet } from "../draws/sheet.ts";

const templateOf = (id: string) => templates.find((one) => one.id === id)!;
const sheet = (id: string, set?: Inputs) => computedSheet(templateOf(id), { ...set });
const post = "post-tensioned-en1992-2004";
const pre = "pre-tensioned-en1992-2004";
type Computed = ReturnType<typeof sheet>;
/** A column by the station in mm. */
const byStation = (computed: Computed, id: string) => {
  const values = computed.valuesOf(id);
  return new Map(computed.valuesOf("x").map((x, i) => [Math.round(Number(x) * 1000), values[i]]));
};

describe("point loads", () => {
  test("post-tensioned: by the reactions, a load at a station on the side of the nearer support", () => {
    const computed = sheet(post, { loads: "FURTHER", pointLoads: 2, plX: [6, 18], plS: [0, 40], plQ: [100, 0] });
    const [Vs, Vq] = [byStation(computed, "Vs"), byStation(computed, "Vq")];
    // Span 24 m; g_s = 6, q = 15 kN/m. Reactions of 100 kN at 6 m: 75 and 25; of 40 kN at 18 m: 10 and 30.
    for (const [x, s, q] of [
      [0, 6 * 12 + 10, 15 * 12 + 75],
      [3000, 6 * 9 + 10, 15 * 9 + 75],
      [6000, 6 * 6 + 10, 15 * 6 + 75],
      [9000, 6 * 3 + 10, 15 * 3 - 25],
      [18000, -6 * 6 - 30, -15 * 6 - 25],
      [21000, -6 * 9 - 30, -15 * 9 - 25],
    ] as const) {
      expect(Vs.get(x), `x = ${x}`).toBeCloseTo(s, 9);
      expect(Vq.get(x), `x = ${x}`).toBeCloseTo(q, 9);
    }
    expect(["OK", "FAIL"]).toContain(computed.check("uWeb").verdict);
    expect(computed.check("uWeb").utilisation).toBeGreaterThan(sheet(post).check("uWeb").utilisation as number);
  });

  test("pre-tensioned: the load stands again at the other end, one at midspan once", () => {
    const computed = sheet(pre, { loads: "FURTHER", pointLoads: 2, plX: [3.75, 7.5], plQ: [10, 8] });
    const Vq = byStation(computed, "Vq");
    const q = templateOf(pre).example.inputs["ql"] as number;
    expect(Vq.get(0)).toBeCloseTo(q * 7.5 + 10 + 4, 9);
    expect(Vq.get(3750)).toBeCloseTo(q * 3.75 + 10 + 4, 9);
    expect(Vq.get(5625)).toBeCloseTo(q * 1.875 + 4, 9);
    expect(Vq.get(7500)).toBeCloseTo(4, 9);
  });
});

describe("entered moments", () => {
  const places = [0, 3, 6, 9, 12, 15, 18, 21, 24];
  const moment = (w: number) => places.map((x) => (w * x * (24 - x)) / 2);
  const shear = (w: number) => places.map((x) => w * (12 - x));
  const { gs: _gs, ql: _ql, ...rest } = templateOf(post).example.inputs;
  const entered = (set: Inputs): Computed =>
    computedSheet(
      { ...templateOf(post), example: { ...templateOf(post).example, inputs: rest } },
      {
        loads: "MOMENTS",
        momentPoints: 9,
        furX: places,
        furG: moment(11),
        furS: moment(6),
        furQ: moment(15),
        ...set,
      },
    );
  const shears = { furVg: shear(11), furVs: shear(6), furVq: shear(15) };

  test("with the shear of uniform loads they give the web of the uniform loads", () => {
    const [own, uniform] = [entered(shears), sheet(post)];
    expect(own.conflicts).toEqual([]);
    const [V, expected] = [byStation(own, "Vq"), byStation(uniform, "Vq")];
    for (const x of places) expect(V.get(x * 1000)).toBeCloseTo(Number(expected.get(x * 1000)), 9);
    expect(own.check("uWeb").verdict).toBe("OK");
    // Every station is checked, as the supports are not known.
    expect(own.valuesOf("inWeb").every((one) => one === 1)).toBe(true);
  });

  test("without the shear of one action OK is withheld", () => {
    for (const id of Object.keys(shears)) {
      const computed = entered({ ...shears, [id]: places.map(() => null) });
      expect(computed.check("uWeb")).toMatchObject({
        verdict: "LIMIT MISSING",
        where: "enter the moments’ shear",
      });
      expect(computed.errors).toEqual([]);
    }
  });

  test("shears of the wrong sign or in N are a conflict that names the moments", () => {
    const wrong = entered({ ...shears, furVs: shear(-6) });
    expect(wrong.conflicts[0]).toMatch(/Vs,i = .* do not go with the moments/);
    expect(entered({ ...shears, furVq: shear(-15) }).conflicts.length).toBeGreaterThan(0);
    expect(entered({ ...shears, furVg: shear(11_000) }).conflicts.length).toBeGreaterThan(0);
    // An envelope of the variable load lies above the slope of its moments.
    expect(entered({ ...shears, furVq: places.map((x) => Math.sign(12 - x) * 250) }).conflicts).toEqual([]);
  });
});

describe.each(templates.map(({ id }) => id))("%s: an outline without the ends of its web", (id) => {
  const { h } = templateOf(id).example.inputs as { readonly h: number };
  const outline = { section: "OUTLINE", corners: 4, ox: [-250, 250, 250, -250], oy: [0, 0, h, h] };

  test.each([
    ["both", {}],
    ["the upper", { webLow: 100 }],
    ["the lower", { webUp: h - 100 }],
  ])("%s left empty: MISSING, no error cells, and the check says what to enter", (_which, ends) => {
    const computed = sheet(id, { ...outline, ...ends });
    expect(computed.errors).toEqual([]);
    expect(computed.refused.length).toBe(2 - Object.keys(ends).length);
    expect(computed.check("uWeb")).toMatchObject({ verdict: "LIMIT MISSING", where: "enter both ends of the web" });
    expect(computed.overall).toBe("INCOMPLETE");
  });

  test("as text: MISSING too", () => {
    expect(sheet(id, { ...outline, webLow: "–", webUp: "–" }).errors).toEqual([]);
  });
});
