import { describe, expect, it } from "vitest";
import {
  Book,
  Calculation,
  cut,
  parseFormula,
  piecesOf,
  quotedSheet,
  readCells,
  shortened,
  templateFormula,
  writeNode,
  type CellContent,
} from "../../src/cells/index.ts";
import { templateReference } from "../../src/cells/language/templateReference.ts";

describe("an address", () => {
  it.each([
    ["D5", { top: 4, left: 3, bottom: 4, right: 3 }],
    ["$A$1:C4", { top: 0, left: 0, bottom: 3, right: 2 }],
    // From whichever corner it is written.
    ["C4:A1", { top: 0, left: 0, bottom: 3, right: 2 }],
    ["B:C", { top: null, left: 1, bottom: null, right: 2 }],
    ["$3:7", { top: 2, left: null, bottom: 6, right: null }],
    ["'My ''beam'''!B2", { sheet: "My 'beam'", top: 1, left: 1 }],
    ["[Loads.xlsx]Beam!B2", { sheet: "Beam", book: "Loads.xlsx", top: 1 }],
    // The last cell that the file format knows.
    ["XFD1048576", { top: 1_048_575, left: 16_383 }],
  ])("%s", (text, read) => expect(readCells(text)).toMatchObject(read));

  it.each(["", "kb_mu", "D", "12", "XFE1", "A1048577", "D0", "A1:B", "D$", "#REF!", "D5#"])("%s is none", (text) =>
    expect(readCells(text)).toBeUndefined(),
  );

  it("keeps the dollar signs of each corner", () => {
    expect(readCells("C$4:$A1")!.fixed).toEqual({ top: false, left: true, bottom: true, right: false });
  });
});

describe("a text cut short", () => {
  it("keeps whole characters", () => {
    expect(cut("beam 𝛼", 6)).toBe("beam ");
    expect(cut("beam 𝛼", 7)).toBe("beam 𝛼");
    expect(shortened("beam 𝛼𝛽", 7)).toBe("beam …");
    expect(shortened("beam", 4)).toBe("beam");
  });
});

describe("the name of a sheet in a formula", () => {
  it.each(["Beam", "Beam_2", "Cable", "Rest", "_beam", "Abcd1"])("%s stands as it is", (name) =>
    expect(quotedSheet(name)).toBe(name),
  );

  // Words that programs take for references as the beginning of the formula, or for TRUE; the rest are no plain words.
  it.each(["R", "c", "RC", "R1C1", "R2", "C1_beam", "D5", "AB12x", "R_1", "True", "1st", "a b", "a-b", "Träger"])(
    "%s stands in quotation marks",
    (name) => expect(quotedSheet(name)).toBe(`'${name}'`),
  );

  it("doubles its own quotation marks", () => expect(quotedSheet("My 'beam'")).toBe("'My ''beam'''"));
});

describe("pieces of a formula", () => {
  it.each(['=IF( $D$5>=1.0, "a ""b"" D5", Beam!D6%)', "=@SUM('My beam'!A1:B2)+kb_mu^-2", "=#REF!+D5#"])(
    "one after another are the formula: %s",
    (formula) =>
      expect(
        piecesOf(formula)
          .map(({ text }) => text)
          .join(""),
      ).toBe(formula),
  );
});

describe("numbers with zeros behind", () => {
  const empty: CellContent = { value: null, text: "" };
  const sheet = { sheet: "S", rows: 1, columns: 1, cells: [[empty]], names: new Map<string, undefined>() };
  const calculation = new Calculation(new Book([sheet], new Map()));
  it.each([
    ["1395.0", 1395],
    ["0.20*10", 2],
    ["SUM({1.0;2.5})", 3.5],
    ["-1.50+2", 0.5],
  ])("%s is %d", (expression, value) => {
    expect(calculation.evaluate(expression, "S")).toEqual([[{ value }]]);
    const tree = parseFormula(`=${expression}`);
    expect(calculation.evaluate(writeNode(tree), "S")).toEqual([[{ value }]]);
  });
});

describe("whole columns", () => {
  it("are each formula's own, also where the same text stands in several columns", () => {
    const content = (value: number | null, formula?: string): CellContent => ({
      value,
      text: "",
      ...(formula !== undefined && { formula }),
    });
    const formulas = ["=SUM(A:A)", "=SUM(B:B)", "=SUM(A:A)"].map((formula) => content(null, formula));
    const cells = [[content(1), content(10), ...formulas]];
    const book = new Book([{ sheet: "S", rows: 1, columns: 5, cells, names: new Map() }], new Map());
    const all = new Calculation(book, [], { everything: true });
    expect([2, 3, 4].map((column) => all.valueAt({ sheet: "S", row: 0, column }).value)).toEqual([1, 10, 1]);
  });
});

describe("what stands between braces in a template", () => {
  it.each([
    ["mu", { kind: "cell", id: "mu", pick: "match" }],
    ["sigma_p[]", { kind: "cell", id: "sigma_p", pick: "group" }],
    ["a:b[*]", { kind: "cell", id: "a", to: "b", pick: "whole" }],
    ["x[-1]", { kind: "cell", id: "x", pick: "above" }],
    ["x[first]", { kind: "cell", id: "x", pick: "first" }],
    ["count:OUT OF RANGE", { kind: "count", word: "OUT OF RANGE" }],
    ["inputs:OUT OF RANGE", { kind: "inputs", word: "OUT OF RANGE" }],
    ["shapeChanged", { kind: "shapeChanged" }],
    ["failing", { kind: "failing" }],
    ["warningsCode", { kind: "warningsCode" }],
    ["assumptions", { kind: "assumptions" }],
  ])("%s", (inside, reference) => expect(templateReference(inside)).toEqual(reference));

  it.each(["", "1x", "a b", "a[2]", "a[", "a:b", "a:b[first]", "a:b:c[]", "count:", "count:9", "1.0;2.5"])(
    "%s is no reference",
    (inside) => expect(templateReference(inside)).toBeUndefined(),
  );
});

describe("a template's formula", () => {
  it("is a tree whose leaves are its references", () => {
    const { tree, problems } = templateFormula("=MAX({a[]})-{b}*2");
    expect(problems).toEqual([]);
    expect(tree).toMatchObject({
      type: "BinaryExpression",
      operator: "-",
      arguments: [
        { type: "CallExpression", arguments: [{ type: "TemplateReference", reference: { id: "a", pick: "group" } }] },
        { operator: "*", arguments: [{ type: "TemplateReference", reference: { id: "b" } }, { value: 2 }] },
      ],
    });
  });

  it("compares with, and subtracts, what stands behind a reference", () => {
    expect(templateFormula('{a}="x"').tree).toMatchObject({ operator: "=" });
    expect(templateFormula("{a}-1").tree).toMatchObject({ operator: "-" });
  });

  it("leaves braces within a text alone", () => {
    expect(templateFormula('"a {b c} d"&{e}').problems).toEqual([]);
    expect(templateFormula('"{e}"').problems).toEqual(["a reference stands inside a text or touches another name"]);
  });

  it.each([
    ["{a}{b}", "touches another name"],
    ["SUM({a}", "its brackets do not match"],
    ["{a[2]}", "{a[2]} is not a reference"],
    ["{1;2}", "{1;2} is not a reference"],
    ["{a}*", "cannot be read as a formula"],
  ])("%s: %s", (formula, problem) => expect(templateFormula(formula).problems.join("; ")).toContain(problem));

  it("gives the calls of our functions, outer ones first", () => {
    const { calls } = templateFormula("KERN.A(KERN.B({x}),,1)");
    expect(calls.map(({ id, whole, arguments: given }) => [id, whole, given.length])).toEqual([
      ["A", true, 3],
      ["B", false, 1],
    ]);
    expect(templateFormula("1+KERN.B({x})").calls).toMatchObject([{ id: "B", whole: false }]);
  });
});
