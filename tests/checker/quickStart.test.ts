/** Twelve answers give a whole sheet: nothing is missing, no cell holds an error, and what is proposed keeps the limits. */
import { describe, expect, it } from "vitest";
import { quickStart, type Answers } from "../../src/checker/quickStart/quickStart.ts";
import { widthAt } from "../../src/checker/quickStart/strandLayout.ts";
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
  // One of each method, standard and kind of section; the whole grid of spans takes minutes.
  it.each<[string, Answers]>([
    ["post-tensioned-en1992-2004", { ...beam, L: 30, section: "T", h: 1650 }],
    ["post-tensioned-en1992-2004", { ...beam, L: 20, section: "BOX", h: 1100, gs: 3, ql: 6 }],
    ["pre-tensioned-en1992-2004", { ...plank, L: 20, section: "I", h: 1100 }],
    ["post-tensioned-is1343-1980", { ...beam, fck: 55, demand: 1, product: "IS14268-II-15.2" }],
    ["pre-tensioned-is1343-1980", { ...plank, section: "RECTANGLE", fck: 55, demand: 1, product: "IS14268-II-12.7" }],
  ])("what is found for %s %o fails no check of its sheet", (id, answers) => {
    const { inputs, assumed, proposal, unmet, proposed } = quickStart(templateOf(id), answers);
    const sheet = computedSheet(bare(id), inputs);
    expect(sheet.errors).toEqual([]);
    expect(sheet.refused).toEqual([]);
    expect(sheet.conflicts).toEqual([]);
    expect(assumed.size).toBeGreaterThan(20);
    expect(["L", "h", "fck"].some((one) => assumed.has(one))).toBe(false);
    // Of IS 1343 the tension allowed at transfer is left to the engineer's copy of the standard.
    const allowed = id.includes("is1343") ? ["OK", "LIMIT MISSING"] : ["OK"];
    expect(sheet.checks.filter(({ verdict }) => !allowed.includes(String(verdict)))).toEqual([]);
    expect(unmet).toBeUndefined();
    expect(proposal).toContain(`${answers.product}`);
    expect([...proposed]).toEqual(["strands"]);
  });

  it("takes the tendons that were answered, and proposes none", () => {
    const id = "post-tensioned-en1992-2004";
    const { inputs, proposal, proposed } = quickStart(templateOf(id), { ...beam, h: 1800, tendons: 3, strands: 9 });
    expect(inputs["strands"]).toEqual([9, 9, 9]);
    expect(proposal).toBeUndefined();
    expect([...proposed]).toEqual([]);
    const sheet = computedSheet(bare(id), inputs);
    expect([...sheet.errors, ...sheet.refused, ...sheet.conflicts]).toEqual([]);
  });

  it("where nothing keeps the limits the sheet is built all the same, and what fails is named with the section assumed", () => {
    const id = "pre-tensioned-en1992-2004";
    const { inputs, unmet } = quickStart(templateOf(id), { ...plank, L: 30, h: 900 });
    const sheet = computedSheet(bare(id), inputs);
    expect(sheet.overall).toBe("FAIL");
    expect(unmet).toContain("section assumed (h = 900, bf = 900, tf = 140, bw = 230 mm)");
    const [first] = sheet.checks.filter(({ verdict, id: of }) => verdict === "FAIL" && of !== "failed");
    expect(unmet).toContain(String(first!.where));
  });

  it("strands lie within the concrete at their height", () => {
    const of = { h: 1000, btop: 700, ttop: 150, bwi: 240, bbot: 450, tbot: 200 };
    expect([100, 500, 950].map((y) => widthAt("I", of, y))).toEqual([450, 240, 700]);
    expect(widthAt("BOX", { h: 1000, bbox: 1200, ttopbox: 200, tbotbox: 180, tweb: 200 }, 500)).toBe(0);
    const { inputs } = quickStart(templateOf("pre-tensioned-en1992-2004"), { ...plank, L: 20, section: "I", h: 1100 });
    const list = (id: string): readonly number[] => inputs[id] as readonly number[];
    list("strands").forEach((n, i) => {
      for (const y of [list("yMidIn")[i]!, (list("yEndIn") ?? list("yMidIn"))[i]!])
        expect((n - 1) * list("sh")[i]! + 2 * 40, `row ${i + 1} at ${y}`).toBeLessThanOrEqual(widthAt("I", inputs, y));
    });
  });

  it("marks what nobody answered in the column of marks, once a row or table, and the sheet counts it", () => {
    const id = "post-tensioned-en1992-2004";
    const template = templateOf(id);
    const { inputs, assumed, proposed } = quickStart(template, beam);
    const plan = expand(template, inputs);
    const marks = assumedMarks(plan, assumed, proposed);
    const places = new Set(marks.map(({ row }) => row));
    expect(places.size).toBe(marks.length);
    const rowOf = (of: string): number => plan.meanings.find((one) => one.id === of)!.at.row;
    expect(["mu", "k", "tg", "RH"].every((of) => places.has(rowOf(of)))).toBe(true);
    expect(["L", "h", "fck", "gs"].some((of) => places.has(rowOf(of)))).toBe(false);
    const wordAt = (of: string) => marks.find(({ row }) => row === rowOf(of) || row === tableOf(of))?.value;
    // The mark of a table stands beside its title.
    const tableOf = (of: string): number =>
      Math.max(...plan.cells.filter(({ role, row }) => role === "subtitle" && row < rowOf(of)).map(({ row }) => row));
    expect([wordAt("strands"), wordAt("mu")]).toEqual(["proposed", "assumed"]);
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
