/** A fault of the library on one formula's values ends the search for that formula alone, and is told. */
import { afterEach, expect, test, vi } from "vitest";
import type { Snapshot } from "../../src/cells/index.ts";
import { bookOfSheets, Identifier, identifiedPaper } from "../../src/checker/index.ts";
import { countsText, outcomeText } from "../../src/checker/identify/list.ts";
import { libraryOfRules } from "../../src/checker/identify/rules.ts";

/** With the values that the formulas have there, written out. */
const rows: readonly (readonly [label: string, value: number, unit: string, formula?: string])[] = [
  ["jacking stress", 1395, "MPa"],
  ["friction coefficient μ", 0.2, "1/rad"],
  ["angle α", 0.3, "rad"],
  ["wobble k", 0.003, "1/m"],
  ["distance x", 12, "m"],
  ["stress", 1395 * Math.exp(-(0.2 * 0.3 + 0.003 * 12)), "MPa", "=B1*EXP(-(B2*B3+B4*B5))"],
  ["mean strength fcm", 43, "MPa"],
  ["modulus Ecm", 21_500 * 4.3 ** 0.3, "MPa", "=21500*(B7/10)^0.3"],
];
const sheet: Snapshot = {
  sheet: "Sheet1",
  rows: rows.length,
  columns: 3,
  cells: rows.map(([label, value, unit, formula]) => [
    { value: label, text: label },
    { value, text: String(value), ...(formula !== undefined && { formula }) },
    { value: unit, text: unit },
  ]),
  names: new Map(),
};

afterEach(() => vi.restoreAllMocks());

test("a formula whose search ends in an error is listed with the reason, and the others are looked at", () => {
  for (const rule of libraryOfRules().rules.get(5)!)
    if (rule.formula.id === "FRICTION_STRESS")
      vi.spyOn(rule, "evaluate").mockImplementation(() => {
        throw new TypeError("no such row");
      });
  const identifier = new Identifier(bookOfSheets([sheet]));
  const findings = identifier.formulasOf("Sheet1").map((place) => identifier.identify(place));
  expect(findings.map(({ verdict }) => verdict)).toEqual(["failed", "nearly"]);
  expect(outcomeText(findings[0]!)).toBe("could not be looked at: no such row");
  const list = { sheet: "Sheet1", findings, ours: 0 };
  expect(countsText(list)).toBe(
    "2 hand-typed formulas: 0 identified, 1 nearly, 0 not recognised, 1 could not be looked at.",
  );
  const paper = identifiedPaper(list, { date: "1 June 2026", host: "none" });
  expect(paper).toContain("Could not be looked at: 1");
  expect(paper).toContain("could not be looked at: no such row");
});
