import { describe, expect, test } from "vitest";
import type { Inputs } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { builtSheet } from "./builtSheet.ts";

const built = (id: string, changes: Inputs) =>
  builtSheet(id, {
    ...templates.find((t) => t.id === id)!.example.inputs,
    ...changes,
  });
const overall = (id: string, changes: Inputs): unknown => built(id, changes).verdicts().overall;

describe("a strength that the concrete does not have by the age of release", () => {
  const early: Inputs = { curing: "NORMAL", strengthProof: "EXPECTED", fck: 50, fckt: 50, t0: 1, ts: 1, cement: "S" };
  // EN 1992-1-1 (3.2), s = 0.38: β_cc(1) = exp(0.38(1 − √28)) = 0.196; 58 MPa are required, 0.196 · 58 are there.
  test("fails, by the gain of strength with age", () => {
    const sheet = built("pre-tensioned-en1992-2004", early);
    const check = sheet
      .verdicts()
      .checks.find(({ description }) => description === "strength at release, required / expected")!;
    expect(check.verdict).toBe("FAIL");
    expect(sheet.column("strengthExpected")[0]).toBeCloseTo(1 / Math.exp(0.38 * (1 - Math.sqrt(28))), 9);
    expect(sheet.verdicts().overall).toBe("FAIL");
  });
  test("passes where tests of the mix are entered as its proof, but for the warning", () => {
    const sheet = built("pre-tensioned-en1992-2004", { ...early, strengthProof: "TESTED", fckTest: 52 });
    const check = sheet
      .verdicts()
      .checks.find(({ description }) => description === "strength at release, required / expected")!;
    expect([check.verdict, check.where]).toEqual(["OK", "tests of the mix: 52.0 MPa"]);
    expect(sheet.verdicts().overall).not.toBe("OK");
  });
  test("withholds OK in the Indian sheets, whose standard gives no gain with age", () => {
    expect(overall("pre-tensioned-is1343-1980", { strengthProof: "EXPECTED" })).toBe("INCOMPLETE");
    expect(overall("pre-tensioned-is1343-1980", { strengthProof: "TESTED" })).toBe("OK");
  });
});

describe("warnings and the overall verdict", () => {
  // A wobble coefficient of the other convention, a value in parts of 1 instead of per cent.
  test.each<[string, Inputs]>([
    ["k", { k: 0.0015, sigj: [1370, 1370, 1370] }],
    ["RH", { RH: 0.75, AsB: 0 }],
  ])("an unusual %s is no OK before it is answered for", (_id, changes) => {
    const sheet = built("post-tensioned-en1992-2004", changes);
    const code = sheet.column("answerCode")[0] as string;
    expect(code).toMatch(new RegExp(`^${String(sheet.column("nWarn")[0])}-[B-Z]{5}$`));
    expect(sheet.verdicts().overall).toBe("WARNINGS");
    expect(overall("post-tensioned-en1992-2004", { ...changes, warningsAnswered: code })).toBe("OK");
    expect(overall("post-tensioned-en1992-2004", { ...changes, warningsAnswered: "" })).toBe("WARNINGS");
    expect(overall("post-tensioned-en1992-2004", { ...changes, warningsAnswered: "99" })).toBe("WARNINGS");
  });

  // RH = 0.75 % answered; then one of 0.65 %: as many warnings, another text.
  test("an answer holds for the very warnings that were looked at", () => {
    const id = "post-tensioned-en1992-2004";
    const sheet = built(id, { RH: 0.75, AsB: 0 });
    const answer = { warningsAnswered: sheet.column("answerCode")[0] as string };
    expect(overall(id, { RH: 0.75, AsB: 0, ...answer })).toBe("OK");
    const other = built(id, { RH: 0.65, AsB: 0, ...answer });
    expect(other.column("nWarn")).toEqual(sheet.column("nWarn"));
    expect(other.verdicts().overall).toBe("WARNINGS");
    // One more.
    expect(overall(id, { RH: 0.75, AsB: 0, gamma: 2.5, ...answer })).not.toBe("OK");
    // None is left: nothing is to be answered.
    expect(overall(id, answer)).toBe("OK");
  });

  // Unusual inputs with which the examples still pass.
  test.each<[string, Inputs]>([
    ["post-tensioned-en1992-2004", { gamma: 26.1 }],
    ["pre-tensioned-en1992-2004", { gamma: 26.1 }],
    ["post-tensioned-is1343-1980", { liftFactor: 1 }],
    ["pre-tensioned-is1343-1980", { gamma: 26.1 }],
  ])("a number in advance answers nothing: %s", (id, changes) => {
    expect(overall(id, { ...changes, warningsAnswered: "99" })).toBe("WARNINGS");
  });
});

test("no cover for durability is entered as 0", () => {
  expect(() => built("post-tensioned-en1992-2004", { cDur: 0 })).toThrow(/c_?min,dur.* 10 to 5000 mm/s);
});
