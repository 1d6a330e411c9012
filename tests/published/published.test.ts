import { describe, expect, it } from "vitest";
import { worksheetFunctions } from "../../functions/index.ts";
import { publishedCases } from "../../src/command/cases.ts";
import { asItShould, halfLastDigit, judge, type CaseRow, type Outcome } from "../../src/published/index.ts";

const cases = publishedCases();

const told = ({ row, computed, error, tolerance, agrees }: Outcome) => ({
  printed: row.printed,
  computed,
  error,
  tolerance,
  agrees,
});

describe("published results", () => {
  it.each(cases.map((c) => [`${c.id}: ${c.function}`, c] as const))("%s", (_, c) => {
    const { outcomes, passed } = judge(c, worksheetFunctions);
    expect(passed, JSON.stringify(outcomes.filter((outcome) => !asItShould(c, outcome)).map(told), null, 1)).toBe(true);
  });
});

describe("the list of published results", () => {
  it("gives each case an id of its own", () => {
    expect(new Set(cases.map(({ id }) => id)).size).toBe(cases.length);
  });

  it("widens a tolerance only with a reason, and never narrows it", () => {
    for (const c of cases) {
      expect(c.tolerance === undefined, c.id).toBe(c.because === undefined);
      for (const row of c.rows) {
        expect(row.tolerance === undefined, c.id).toBe(row.because === undefined);
        expect(row.tolerance ?? c.tolerance ?? Infinity, c.id).toBeGreaterThanOrEqual(halfLastDigit(row.printed));
      }
    }
  });

  it("names source, place and basis", () => {
    for (const c of cases) {
      expect(c.source.length, c.id).toBeGreaterThan(10);
      expect(c.where.length, c.id).toBeGreaterThan(0);
      expect(["published", "published, second-hand", "published, from memory"], c.id).toContain(c.basis);
      expect(c.rows.length, c.id).toBeGreaterThan(0);
    }
  });

  it("takes half a unit of the last printed digit", () => {
    expect(halfLastDigit("47.386")).toBeCloseTo(0.0005, 12);
    expect(halfLastDigit("-0.477")).toBeCloseTo(0.0005, 12);
    expect(halfLastDigit("310")).toBe(0.5);
    expect(halfLastDigit("2.03e-6")).toBeCloseTo(0.005e-6, 15);
    expect(() => halfLastDigit("about 3")).toThrow("not a number");
  });

  it("finds a wrong result", () => {
    const { passed } = judge(
      {
        id: "wrong",
        function: "FRICTION_STRESS",
        source: "",
        where: "",
        basis: "published",
        unit: "MPa",
        rows: [{ inputs: [0, 0, 0, "1/m", 1000, 10], printed: "1001" }],
      },
      worksheetFunctions,
    );
    expect(passed).toBe(false);
  });

  it("marks in a superseded table exactly the values that the table in force prints too", () => {
    const draft = cases.find(({ id }) => id === "EN-T32-DRAFT")!;
    const inForce = cases.find(({ id }) => id === "EN-T32")!;
    const place = ({ inputs }: CaseRow): string => JSON.stringify(inputs);
    for (const row of draft.rows) {
      const same = inForce.rows.filter((other) => place(other) === place(row));
      expect(same, place(row)).toHaveLength(1);
      expect(row.coincides ?? false, place(row)).toBe(same[0]!.printed === row.printed);
    }
    for (const c of cases.filter(({ mustDiffer }) => !mustDiffer))
      expect(
        c.rows.filter(({ coincides }) => coincides),
        c.id,
      ).toEqual([]);
  });

  it("finds one superseded value that the function gives", () => {
    const base = {
      id: "draft",
      function: "FRICTION_STRESS",
      source: "",
      where: "",
      basis: "published",
      unit: "MPa",
      mustDiffer: true,
    } as const;
    const differs = { inputs: [0, 0, 0, "1/m", 1000, 10], printed: "1001" };
    const agrees = { inputs: [0, 0, 0, "1/m", 1000, 10], printed: "1000" };
    expect(judge({ ...base, rows: [differs, differs, differs] }, worksheetFunctions).passed).toBe(true);
    expect(judge({ ...base, rows: [differs, differs, agrees] }, worksheetFunctions).passed).toBe(false);
    expect(judge({ ...base, rows: [differs, { ...agrees, coincides: true }] }, worksheetFunctions).passed).toBe(true);
    expect(judge({ ...base, rows: [{ ...differs, coincides: true }] }, worksheetFunctions).passed).toBe(false);
  });
});
