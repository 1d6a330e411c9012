import { describe, expect, it } from "vitest";
import { Calculation, type Snapshot } from "../../src/cells/index.ts";
import {
  bookOfSheets,
  Identifier,
  identifiedPaper,
  identifiedPlan,
  type IdentifyFinding,
} from "../../src/checker/index.ts";
import { withSteps } from "../../src/checker/identify/list.ts";

type Cell = number | string | null;

/** Rows from A1 on as a sheet whose formulas have been computed. */
function sheetOf(rows: readonly (readonly Cell[])[], names: Readonly<Record<string, string>> = {}): Snapshot {
  const columns = Math.max(...rows.map((row) => row.length));
  const named = Object.entries(names).map(([name, cell]) => {
    const [, letter, row] = /^([A-Z])(\d+)$/.exec(cell)!;
    const area = { sheet: "Sheet1", row: Number(row) - 1, column: letter!.charCodeAt(0) - 65, rows: 1, columns: 1 };
    return [name, area] as const;
  });
  const cells = rows.map((row) =>
    Array.from({ length: columns }, (_, c) => {
      const value = row[c] ?? null;
      if (typeof value === "string" && value.startsWith("=")) return { value: null, text: "", formula: value };
      return { value, text: String(value ?? "") };
    }),
  );
  const empty: Snapshot = { sheet: "Sheet1", rows: rows.length, columns, cells, names: new Map(named) };
  const calculation = new Calculation(bookOfSheets([empty]), [], { everything: true });
  const computed = cells.map((line, row) =>
    line.map((cell, column) =>
      "formula" in cell ? { ...cell, value: calculation.valueAt({ sheet: "Sheet1", row, column }).value } : cell,
    ),
  );
  return { ...empty, cells: computed };
}

/** What is found of the last formula. */
function identified(rows: readonly (readonly Cell[])[], names?: Readonly<Record<string, string>>): IdentifyFinding {
  const identifier = new Identifier(bookOfSheets([sheetOf(rows, names)]));
  return identifier.identify(identifier.formulasOf("Sheet1").at(-1)!);
}

const friction = [
  ["jacking stress", 1395, "MPa"],
  ["friction coefficient μ", 0.2, "1/rad"],
  ["angle α", 0.3, "rad"],
  ["wobble k", 0.003, "1/m"],
  ["distance x", 12, "m"],
] as const;

describe("identify", () => {
  it("names function, convention, arguments and evidence, and offers the function linked to the same cells", () => {
    const { verdict, found } = identified([...friction, ["stress", "=B1*EXP(-(B2*B3+B4*B5))", "MPa"]]);
    expect(verdict).toBe("identified");
    expect(found).toMatchObject({
      id: "FRICTION_STRESS",
      offered: '=KERN.FRICTION_STRESS(B3,B2,B4,"1/m",B1,B5)',
      resultUnit: "MPa",
      differences: [],
    });
    expect(found!.evidence.agreeing).toBe(found!.evidence.points);
    expect(found!.evidence.points).toBeGreaterThanOrEqual(30);
    expect(found!.evidence.largest).toBeLessThan(1e-9);
  });

  it("finds a rule split over cells, in other units, and tells the units", () => {
    const { verdict, found } = identified([
      [1395],
      [0.2],
      [17],
      [0.003],
      [12000],
      ["=B2*B3"],
      [null, 1395, null],
      [null, 0.2],
      [null, 17],
      [null, 0.003],
      [null, 12000],
      [null, "=B8*B9*PI()/180"],
      [null, "=B12+B10*B11/1000"],
      [null, "=B7*EXP(-B13)"],
    ]);
    expect(verdict).toBe("identified");
    expect(found!.offered).toBe('=KERN.FRICTION_STRESS(RADIANS(B9),B8,B10,"1/m",B7,B11/1000)');
    expect(found!.evidence.followed).toEqual(["B13", "B12"]);
  });

  it("reads names, POWER and parts of a formula as an argument", () => {
    const { verdict, found } = identified([[35], ["=22000*POWER((fck+8)/10,0.3)"]], { fck: "A1" });
    expect(verdict).toBe("identified");
    expect(found).toMatchObject({ id: "CONCRETE_MODULUS_EN1992_2004", resultUnit: "MPa" });
    expect(found!.offered).toBe('=KERN.CONCRETE_MODULUS_EN1992_2004(fck+8,"QUARTZITE")*1000');
  });

  it("tells the convention that the label contradicts, and what that comes to", () => {
    const { verdict, found } = identified([...friction, ["stress", "=B1*EXP(-B2*(B3+B4*B5))", "MPa"]]);
    expect(verdict).toBe("nearly");
    expect(found!.differences[0]!.kind).toBe("convention");
    // e^−(0.06 + 0.0072) over e^−(0.06 + 0.036)
    expect(found!.differences[0]!.effect).toBeCloseTo(Math.exp(0.036 - 0.0072) - 1, 9);
    expect(found!.offered).toBe('=KERN.FRICTION_STRESS(B3,B2,B4,"1/m",B1,B5)');
  });

  it("tells a unit left out by the labels", () => {
    const { verdict, found } = identified([
      ["jacking stress", 1395, "MPa"],
      ["friction coefficient μ", 0.2, "1/rad"],
      ["angle α", 17, "deg"],
      ["wobble k", 0.003, "1/m"],
      ["distance x", 12, "m"],
      ["stress", "=B1*EXP(-(B2*B3+B4*B5))", "MPa"],
    ]);
    expect(verdict).toBe("nearly");
    expect(found!.differences[0]!.kind).toBe("unit");
  });

  it("tells a constant typed in place of an argument, and a constant that is not the rule's", () => {
    const typed = identified([
      ["jacking stress", 1395, "MPa"],
      ["angle α", 0.3, "rad"],
      ["wobble k", 0.003, "rad/m"],
      ["distance x", 12, "m"],
      ["stress after friction", "=B1*EXP(-0.19*(B2+B3*B4))", "MPa"],
    ]);
    expect(typed.verdict).toBe("nearly");
    expect(typed.found).toMatchObject({ id: "FRICTION_STRESS" });
    expect(typed.found!.differences[0]).toMatchObject({ kind: "typed" });
    expect(typed.found!.differences[0]!.says).toContain("0.19");
    const other = identified([
      ["mean strength fcm", 43, "MPa"],
      ["modulus Ecm", "=21500*(B1/10)^0.3", "MPa"],
    ]);
    expect(other.verdict).toBe("nearly");
    expect(other.found!.differences[0]!.effect).toBeCloseTo(21.5 / 22 - 1, 9);
  });

  // EN 1992-1-1:2004 Table 3.1: 0.30·fck^(2/3) up to C50/60, 2.12·ln(1 + fcm/10) above.
  it("takes a rule without one of its cases for nearly the rule, and says what is left out", () => {
    const tension = [
      ["fck", 35, "MPa"],
      ["fctm", "=0.3*B1^(2/3)", "MPa"],
    ];
    const { verdict, found } = identified(tension);
    expect(verdict).toBe("nearly");
    expect(found!.differences).toMatchObject([{ kind: "case" }]);
    expect(found!.differences[0]!.says).toMatch(/only up to fck .* = 50 MPa; what the rule has beyond is left out/);
    expect(found!.differences[0]!.effect).toBeCloseTo(0, 9);
    expect(found!.evidence.agreeing).toBeLessThan(found!.evidence.points);
    const list = identified([
      ["fck", 35, "MPa"],
      ["fctm", "=IF(B1<=50,0.3*B1^(2/3),2.12*LN(1+(B1+8)/10))", "MPa"],
    ]);
    expect(list.verdict).toBe("identified");
    expect(list.found!.differences).toEqual([]);
  });

  it("takes every row of a rule without one of its cases for nearly the rule", () => {
    const rows = [30, 35, 40].flatMap((fck): Cell[][] => [["fck", fck, "MPa"], []]);
    rows.forEach((_, i) => i % 2 === 1 && (rows[i] = ["fctm", `=0.3*B${i}^(2/3)`, "MPa"]));
    const identifier = new Identifier(bookOfSheets([sheetOf(rows)]));
    const findings = identifier.formulasOf("Sheet1").map((place) => identifier.identify(place));
    expect(findings.map(({ verdict }) => verdict)).toEqual(["nearly", "nearly", "nearly"]);
  });

  it.each([
    ["=A1*EXP(-A2*A3)"],
    ["=A1*(1+A2)^A3"],
    ["=A1*A2*A3"],
    ["=A1/A3"],
    ["=A1*A2+A3"],
    ["=SQRT(A1^2+A2^2)"],
    ["=A1*A2^3/12"],
    ["=0.6*A1"],
  ])("names nothing for %s without labels", (formula) => {
    expect(identified([[1000], [0.05], [10], [formula]]).verdict).toBe("unknown");
  });

  it("says in every row what the numbers leave open", () => {
    const rows = [1, 2].flatMap((n): Cell[][] => {
      const at = 7 * (n - 1);
      return [
        ["jacking stress", 1395 + n, "MPa"],
        [null, 0.2],
        [null, 0.3 + n / 100],
        ["wobble k", 0.003, "1/m"],
        ["distance x", 12, "m"],
        ["stress", `=B${at + 1}*EXP(-(B${at + 2}*B${at + 3}+B${at + 4}*B${at + 5}))`, "MPa"],
        [],
      ];
    });
    const identifier = new Identifier(bookOfSheets([sheetOf(rows)]));
    const [first, second] = identifier.formulasOf("Sheet1").map((place) => identifier.identify(place));
    expect(first!.found!.open.join()).toContain("do not tell");
    expect(second!.found!.open).toEqual(first!.found!.open);
    expect(second!.found!.others).toEqual(first!.found!.others);
  });

  it("lists counts, names steps as steps, and prints and plans the list", () => {
    const book = bookOfSheets([
      sheetOf([
        ["jacking stress", 1395, "MPa"],
        ["friction coefficient μ", 0.2, "1/rad"],
        ["angle α", 0.3, "rad"],
        ["wobble k", 0.003, "1/m"],
        ["distance x", 12, "m"],
        [null, "=B2*B3"],
        ["stress", "=B1*EXP(-(B6+B4*B5))", "MPa"],
        ["<b>cost</b>", "=B1*7"],
      ]),
    ]);
    const identifier = new Identifier(book);
    const findings = withSteps(identifier.formulasOf("Sheet1").map((place) => identifier.identify(place)));
    expect(findings.map((f) => f.verdict)).toEqual(["unknown", "identified", "unknown"]);
    expect(findings[0]!.because).toBe("a step of B7");
    const list = { sheet: "Sheet1", findings, ours: 0 };
    const paper = identifiedPaper(list, { date: "1 May 2030", host: "test" });
    expect(paper).toContain("3 hand-typed formulas: 1 identified, 0 nearly, 2 not recognised.");
    expect(paper).toContain("FRICTION_STRESS");
    expect(paper).toContain("&lt;b&gt;cost&lt;/b&gt;");
    const texts = identifiedPlan(list, { date: "1 May 2030", host: "test" }).cells.map(({ value }) => value);
    expect(texts).toContain("B7");
    expect(texts).toContain("3 hand-typed formulas: 1 identified, 0 nearly, 2 not recognised.");
  });
});
