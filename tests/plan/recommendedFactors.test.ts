/**
 * Factors and choices of linked sheets that are less safe than what the standard recommends, or that the stress check
 * contradicts, are told in words. EN 1992-1-1:2004 with the clause beside each; the examples are invented.
 */
import { expect, test } from "vitest";
import type { Inputs } from "../../src/sheet/index.ts";
import { linkedTemplates } from "../../src/templates/index.ts";
import { builtSheet, exampleOf, planned } from "./builtSheet.ts";

const strength = "strength-post-tensioned-en1992-2004";
const strengthPre = "strength-pre-tensioned-en1992-2004";
const ends = "end-zones-post-tensioned-en1992-2004";
const endsPre = "end-zones-pre-tensioned-en1992-2004";
/** The warnings of a linked sheet and its overall verdict. */
function said(id: string, inputs: Inputs): { readonly warnings: readonly string[]; readonly overall: unknown } {
  const { plan, values } = planned(
    linkedTemplates.find((one) => one.id === id)!,
    inputs,
  );
  const { warnings, overall } = plan.summary;
  const lines = values
    .slice(warnings.row, warnings.row + warnings.rows)
    .map((line) => line[warnings.column]!.text.trim());
  return { warnings: lines.filter((line) => line !== ""), overall: values[overall.row]![overall.column]!.value };
}

test.each<[string, Inputs, string]>([
  // 6.2.3(2) 2.5; 6.2.3(1) 0.9; 9.2.2(5) 0.08; 2.4.2.4(1) 1.5 and 1.15; 2.4.2.2(1) 1.0.
  [strength, { inCot2: 2.6 }, "than the 2.5 recommended in 6.2.3(2)"],
  [strength, { inKz: 0.95 }, "than the 0.9 of 6.2.3(1)"],
  [strength, { inKw: 0.07 }, "than the 0.08 recommended in 9.2.2(5)"],
  [strength, { inGc: 1.4 }, "than the 1.5 recommended in 2.4.2.4(1)"],
  [strength, { inGst: 1.1 }, "than the 1.15 recommended in 2.4.2.4(1)"],
  [strength, { inPf: 1.1 }, "than the 1.0 recommended in 2.4.2.2(1)"],
  // EN 1990, Table A1.2(B): 1.35, 1.0 and 1.5. 3.2.2(3): 400 to 600 MPa. Both from memory.
  [strength, { inGs: 1.3 }, "than the 1.35 recommended in EN 1990"],
  [strength, { inGi: 1.05 }, "than the 1.0 recommended in EN 1990"],
  [strength, { inQ: 1.4 }, "than the 1.5 recommended in EN 1990"],
  [strength, { inFyw: 390 }, "outside the 400 to 600 MPa"],
  [strength, { inFyw: 610 }, "outside the 400 to 600 MPa"],
  [strengthPre, { inGs: 1.3 }, "than the 1.35 recommended in EN 1990"],
  // 8.10.3(4): no check of crack widths up to 300 MPa. 2.4.2.2(3) 1.2.
  [ends, { sigTie: 310 }, "more than the 300 MPa of 8.10.3(4)"],
  [ends, { gPu: 1.1 }, "than the 1.2 recommended in 2.4.2.2(3)"],
  [ends, { gCe: 1.4 }, "than the 1.5 recommended in 2.4.2.4(1)"],
  [ends, { gSe: 1.1 }, "than the 1.15 recommended in 2.4.2.4(1)"],
  // A quarter of 1200 mm. Spalling steel belongs to the loaded face: common practice, no source.
  [ends, { faceDepth: 301 }, "deeper than a quarter of h = 1200 mm"],
  // More tension at sudden release: tests of 1970, second-hand.
  [endsPre, { releaseWay: "SUDDEN" }, "release on the stress check is sudden"],
])("%s %o: %s", (id, changes, words) => {
  const example = exampleOf(linkedTemplates.find((one) => one.id === id)!);
  const { warnings, overall } = said(id, { ...example, ...changes });
  expect(warnings.filter((line) => line.includes(words))).toHaveLength(1);
  expect(overall).not.toBe("OK");
  expect(said(id, example).warnings).toEqual([]);
});

test.each(["strength-post-tensioned-en1992-2004", "strength-pre-tensioned-en1992-2004"])(
  "%s: what EN 1990 and 3.2.2(3) recommend is not told",
  (id) => {
    const example = exampleOf(linkedTemplates.find((one) => one.id === id)!);
    for (const inFyw of [400, 600])
      expect(said(id, { ...example, inGs: 1.35, inGi: 1, inQ: 1.5, inFyw }).warnings).toEqual([]);
  },
);

// EN 1992-1-1 9.2.1.1(1): (9.1N) is 0.26 f_ctm/f_yk b_t d, at least 0.0013 b_t d: it needs f_yk, and is never 0.
test("the least reinforcement needs the yield stress without bars too, and none is too little whatever it is", () => {
  const example = exampleOf(linkedTemplates.find((one) => one.id === strength)!);
  const least = (inputs: Inputs) =>
    builtSheet(strength, { ...example, inAb: 0, inAt: 0, ...inputs })
      .verdicts()
      .checks.find(({ description }) => description.includes("min. reinforcement"))!;
  const sheet = builtSheet(strength, { ...example, inAb: 0, inAt: 0, inFy: null, inMin: "BARS_AND_TENDONS" });
  expect(String(sheet.column("inMissing")[0])).toContain("fyk");
  expect(sheet.verdicts().overall).not.toBe("OK");
  expect(least({ inFy: null, inMin: "BARS_AND_TENDONS" }).verdict).toBe("LIMIT MISSING");
  expect(least({ inFy: null, inMin: "BARS" })).toMatchObject({ verdict: "FAIL", where: "no steel" });
  expect(least({ inFy: 500, inMin: "BARS" })).toMatchObject({ verdict: "FAIL", where: "no steel" });
});

test("sudden release with a factor for it is not told", () => {
  const example = exampleOf(linkedTemplates.find((one) => one.id === endsPre)!);
  expect(said(endsPre, { ...example, releaseWay: "SUDDEN", suddenFactor: 1.4 }).warnings).toEqual([]);
});

/** Statics: the force left in each tendon, of its own stress, times the sine of its slope. */
test.each(["strength-post-tensioned-en1992-2004", "strength-post-tensioned-is1343-1980"])(
  "%s: an inclined tendon stressed less than the others pulls with what is left of its own force",
  (id) => {
    const example = exampleOf(linkedTemplates.find((one) => one.id === id)!);
    const sheet = builtSheet(id, { ...example, sigj: [1380, 1380, 700] });
    const numbers = (column: string): readonly number[] => sheet.column(column).map(Number);
    const [area, force, sine, loss] = ["sAp", "stForce0", "sSine", "dcsr"].map(numbers);
    numbers("vP").forEach((pull, i) => {
      const left = [0, 1, 2].map((j) => force![3 * i + j]! - (loss![i]! * area![3 * i + j]!) / 1000);
      const expected = left.reduce((sum, one, j) => sum + one * sine![3 * i + j]!, 0);
      expect(pull).toBeCloseTo(expected, 6);
    });
  },
);

// IS 1343:1980 22.4.3: min. links by the breadth of the rib, 0.4 b/(0.87 f_y); 0.75 d; four times the web. From memory.
test("IS 1343: ducts in the web do not make the minimum of links less", () => {
  const id = "strength-post-tensioned-is1343-1980";
  const example = exampleOf(linkedTemplates.find((one) => one.id === id)!);
  // 91 mm² of Fe 250 on 220 mm of web: 224.9 mm; on 155 mm, less the duct of 65 mm: 319.2 mm.
  const sheet = builtSheet(id, { ...example, inAsw: 91, inFyw: 250, inS1: 240, inS2: 240 });
  expect(Math.max(...sheet.column("sMax").map(Number))).toBeCloseTo((91 * 0.87 * 250) / (0.4 * 220), 6);
  const { checks } = sheet.verdicts();
  expect(checks.find(({ description }) => description.includes("spacing of the links"))?.verdict).toBe("FAIL");
});

// Statics; EN 1990 6.4.3.1: a variable load that relieves is left out. γ_G (V_g + V_s) + γ_Q · 9 (24 − x)²/(2 · 24).
test.each([strength, "strength-post-tensioned-is1343-1980"])(
  "%s: a variable point load near the support does not relieve the shear beyond it",
  (id) => {
    const example = exampleOf(linkedTemplates.find((one) => one.id === id)!);
    const L = Number(example["L"]);
    const sheet = builtSheet(id, { ...example, loads: "FURTHER", plX: [L / 10], plS: [0], plQ: [400], ql: 9 });
    const numbers = (column: string): readonly number[] => sheet.column(column).map(Number);
    const [x, high, Vg, Vs] = ["x", "vHi", "Vg", "Vs"].map(numbers);
    const beyond = x!.flatMap((one, i) => (one > L / 10 + 0.01 && one < L / 2 - 0.01 ? [i] : []));
    expect(beyond.length).toBeGreaterThan(0);
    for (const i of beyond)
      expect(high![i]).toBeCloseTo(
        Number(example["inGs"]) * (Vg![i]! + Vs![i]!) + (Number(example["inQ"]) * 9 * (L - x![i]!) ** 2) / (2 * L),
        6,
      );
  },
);

// IS 1343:1980 22.4.2 and 22.4.4: d to the centroid of the tendons, however low the bars lie. From memory.
test("IS 1343: bars below the tendons add nothing to the concrete's shear and to the max. shear stress", () => {
  const id = "strength-post-tensioned-is1343-1980";
  const example = exampleOf(linkedTemplates.find((one) => one.id === id)!);
  const sheet = builtSheet(id, { ...example, inAb: 2000, inYb: 40 });
  const numbers = (column: string): readonly number[] => sheet.column(column).map(Number);
  const [area, height] = ["sAp", "sy"].map(numbers);
  const [h, yb, limit] = ["h", "yb", "inTm"].map((id) => Number(sheet.column(id)[0]));
  const [depth, toAll, most, web] = ["dTen", "dEff", "vMax", "bNom"].map(numbers);
  depth!.forEach((d, i) => {
    const low = [0, 1, 2].map((j) => 3 * i + j).filter((at) => height![at]! < yb!);
    const taken = low.length > 0 ? low : [0, 1, 2].map((j) => 3 * i + j);
    const sum = (of: (at: number) => number): number => taken.reduce((all, at) => all + of(at), 0);
    const expected = h! - sum((at) => area![at]! * height![at]!) / sum((at) => area![at]!);
    expect(d).toBeCloseTo(expected, 6);
    expect(most![i]).toBeCloseTo((limit! * web![i]! * expected) / 1000, 6);
  });
  expect(Math.max(...toAll!.map((all, i) => all - depth![i]!))).toBeGreaterThan(10);
});
