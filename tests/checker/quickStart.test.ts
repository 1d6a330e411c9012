/** Twelve answers give a whole sheet: nothing is missing, no cell holds an error, and what is proposed keeps the limits. */
import { describe, expect, it } from "vitest";
import { quickStart, type Answers } from "../../src/checker/quickStart/quickStart.ts";
import { sized } from "../../src/checker/quickStart/sizing.ts";
import { Calculation } from "../../src/cells/index.ts";
import { assumedMarks, bookOfSheets } from "../../src/checker/index.ts";
import { expand, plannedSnapshot } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { computedSheet } from "../draws/sheet.ts";

const templateOf = (id: string) => templates.find((one) => one.id === id)!;
/** Without the example: what the quick start does not say is missing. */
const bare = (id: string) => ({ ...templateOf(id), example: { ...templateOf(id).example, inputs: {} } });
const beam: Answers = {
  L: 24,
  section: "I",
  h: 1200,
  fck: 50,
  gs: 5,
  ql: 10,
  demand: "XC2_XC4",
  product: "Y1860S7-15.7",
};
const plank: Answers = { ...beam, L: 12, section: "T", h: 700, product: "Y1860S7-12.5", gs: 4, ql: 5 };

describe("quick start", () => {
  it.each<[string, Answers]>([
    ["post-tensioned-en1992-2004", beam],
    ["post-tensioned-en1992-2004", { ...beam, L: 30, section: "T", h: 1800, tendons: 3, strands: 9 }],
    ["pre-tensioned-en1992-2004", plank],
    ["post-tensioned-is1343-1980", { ...beam, fck: 50, demand: 1, product: "IS14268-II-15.2" }],
    ["pre-tensioned-is1343-1980", { ...plank, fck: 50, demand: 1, product: "IS14268-II-12.7" }],
  ])("%s %o", (id, answers) => {
    const { inputs, assumed } = quickStart(templateOf(id), answers);
    const sheet = computedSheet(bare(id), inputs);
    expect(sheet.errors).toEqual([]);
    expect(sheet.refused).toEqual([]);
    expect(sheet.conflicts).toEqual([]);
    expect(assumed.size).toBeGreaterThan(20);
    expect(["L", "h", "fck"].some((one) => assumed.has(one))).toBe(false);
  });

  it("what is found for a post-tensioned beam fails no check of its sheet", () => {
    const id = "post-tensioned-en1992-2004";
    const { inputs, proposal } = quickStart(templateOf(id), beam);
    const sheet = computedSheet(bare(id), inputs);
    expect(sheet.checks.filter(({ verdict }) => verdict !== "OK")).toEqual([]);
    expect(sheet.overall).toBe("OK");
    expect(proposal).toMatch(/^\d tendons of \d+ Y1860S7-15\.7, stressed to 1410 MPa, e = \d+ mm at midspan$/);
  });

  it("marks what nobody answered in the column of marks, once a row or table, and the sheet counts it", () => {
    const id = "post-tensioned-en1992-2004";
    const template = templateOf(id);
    const { inputs, assumed } = quickStart(template, beam);
    const plan = expand(template, inputs);
    const marks = assumedMarks(plan, assumed);
    const places = new Set(marks.map(({ row }) => row));
    expect(places.size).toBe(marks.length);
    const rowOf = (of: string): number => plan.meanings.find((one) => one.id === of)!.at.row;
    expect(["mu", "k", "tg", "RH"].every((of) => places.has(rowOf(of)))).toBe(true);
    expect(["L", "h", "fck", "gs"].some((of) => places.has(rowOf(of)))).toBe(false);
    const changes = marks.map(({ row, column, value }) => ({ sheet: "S", row, column, value: value ?? null }));
    const calculation = new Calculation(bookOfSheets([plannedSnapshot(plan, "S")]), changes, { everything: true });
    const band = plan.cells.find(({ role }) => role === "bandText")!;
    expect(calculation.valueAt({ sheet: "S", ...band }).value).toContain(`Assumptions not confirmed: ${marks.length}.`);
  });

  // A rectangle of 300 × 1000 mm, 10 m, no load beside its own weight, no tension ever: P (1/A + e/Z) = M/Z at the soffit by hand.
  it("the force found is that of statics", () => {
    const [b, h] = [300, 1000];
    const of = {
      A: b * h,
      I: (b * h ** 3) / 12,
      yb: h / 2,
      h,
      L: 10,
      g: 7.5,
      gs: 20,
      q: 0,
      psi1: 0,
      psi2: 0,
      lowest: 200,
    };
    const limits = { fcTransfer: 30, ftTransfer: -5, fcService: 30, ftService: 0, fcPermanent: 30, ftPermanent: 0 };
    const { P, e } = sized({ ...of, ...limits });
    const Z = (b * h ** 2) / 6;
    const M = ((7.5 + 20) * 10 ** 2 * 1e6) / 8;
    expect(e).toBeCloseTo(300, 6);
    expect(P).toBeCloseTo(M / Z / (0.9 * 0.85 * (1 / (b * h) + 300 / Z)) / 1000, 6);
  });
});
