import { describe, expect, it } from "vitest";
import { parseFormula, placeOf, readFormula, writeNode } from "../../src/cells/index.ts";
import { termsOf } from "../../src/checker/trace/terms.ts";

const kinds = (formula: string): readonly unknown[] =>
  readFormula(formula).calls[0]!.arguments.map((a) => [a.kind, a.text]);

describe("reading a cell's formula", () => {
  it("finds the call and its arguments as written", () => {
    const { calls, references } = readFormula('=KERN.FRICTION_STRESS(-0.3,kb_mu,,"1/m",$D$5,A1*2)');
    expect(calls[0]).toMatchObject({
      id: "FRICTION_STRESS",
      text: 'KERN.FRICTION_STRESS(-0.3,kb_mu,,"1/m",$D$5,A1*2)',
      depth: 0,
      whole: true,
    });
    expect(kinds('=KERN.FRICTION_STRESS(-0.3,kb_mu,,"1/m",$D$5,A1*2)')).toEqual([
      ["literal", "-0.3"],
      ["reference", "kb_mu"],
      ["missing", ""],
      ["literal", '"1/m"'],
      ["reference", "$D$5"],
      ["expression", "A1*2"],
    ]);
    expect(references).toEqual([
      { text: "kb_mu", kind: "name" },
      { text: "$D$5", kind: "cells" },
      { text: "A1", kind: "cells" },
    ]);
  });

  it("lists nested calls from the outside in, says which is the whole formula, and which argument is a call's result", () => {
    const { calls } = readFormula('=IF(A1>0,KERN.TENDON_FORCE(B2,KERN.FRICTION_STRESS(3,2,4,"1/m",1,5)),0)');
    expect(calls.map(({ id, depth, whole }) => [id, depth, whole])).toEqual([
      ["TENDON_FORCE", 0, false],
      ["FRICTION_STRESS", 1, false],
    ]);
    expect(calls[0]!.arguments[1]).toMatchObject({ kind: "call", call: 1 });
  });

  it.each([
    ["=_xldudf_KERN_FRICTION_STRESS(A1)", undefined],
    ["=KERN_FRICTION_STRESS(A1)", "KERN_FRICTION_STRESS"],
  ])("reads the name in %s", (formula, misspelt) => {
    const [call] = readFormula(formula).calls;
    expect([call!.id, call!.misspelt]).toEqual(["FRICTION_STRESS", misspelt]);
  });

  it("sees through LET to the cells and calls it names", () => {
    const { calls, references } = readFormula(
      '=LET(a,B1,s,KERN.FRICTION_STRESS(3,2,4,"1/m",a,5),KERN.TENDON_FORCE(a*2,s))',
    );
    expect(references.map((r) => r.text)).toEqual(["B1"]);
    const outer = calls.find((c) => c.id === "TENDON_FORCE")!;
    expect(outer.arguments[1]).toMatchObject({
      kind: "call",
      call: calls.findIndex((c) => c.id === "FRICTION_STRESS"),
    });
    expect(outer.arguments[0]).toMatchObject({ kind: "expression", text: "a*2", evaluate: "B1*2" });
    expect(calls.find((c) => c.id === "FRICTION_STRESS")!.arguments[4]).toMatchObject({
      kind: "reference",
      reference: { text: "B1" },
    });
  });

  it("knows ranges, other sheets, spilled results and parts of tables", () => {
    expect(readFormula("=SUM('My sheet'!A1:B2,Sheet2!C3#,Table1[Force],x.y)").references).toEqual([
      { text: "'My sheet'!A1:B2", kind: "cells" },
      { text: "Sheet2!C3#", kind: "spilled" },
      { text: "Table1[Force]", kind: "table" },
      { text: "x.y", kind: "name" },
    ]);
  });

  it("refuses what is no formula", () => {
    expect(() => readFormula("=SUM(")).toThrow();
  });

  it.each([
    "(A1+B1)*2",
    "-(A1-B1)%",
    "A1-(B1-C1)",
    "2^-3",
    "A1/(B1*C1)",
    'IF(A1>=1,{1,2;3,4},"a""b")&A1#',
    "(2^3)^2",
    "-A1^2",
  ])("writes %s as it was", (text) => {
    expect(parseFormula(`=${writeNode(parseFormula(`=${text}`))}`)).toEqual(parseFormula(`=${text}`));
  });
});

describe("how often a reference counts in an expression", () => {
  it.each<readonly [string, readonly (readonly [string, number])[] | undefined]>([
    ["D5*1000", [["D5", 1000]]],
    ["1000*D5", [["D5", 1000]]],
    ["D5/1000", [["D5", 0.001]]],
    ["D5%", [["D5", 0.01]]],
    ["D5*10^-3", [["D5", 0.001]]],
    [
      "(D5+D6)*2",
      [
        ["D5", 2],
        ["D6", 2],
      ],
    ],
    ['CONVERT(D5,"kN","N")', [["D5", 1000]]],
    ["ROUND(D5*1000,2)", [["D5", 1000]]],
    [
      "IF(D1>0,D5,D6)",
      [
        ["D5", 1],
        ["D6", 1],
      ],
    ],
    ["D5*D6", undefined],
    ["SQRT(D5)", undefined],
    ["D5^2", undefined],
  ])("%s", (text, terms) => {
    expect(termsOf(parseFormula(`=${text}`))?.map(({ reference, factor }) => [reference.text, factor])).toEqual(terms);
  });
});

describe("the cells an address means", () => {
  it("has sheet and block, and none for names", () => {
    expect(placeOf("'My beam'!$B$2:$C$4", "X")).toEqual({ sheet: "My beam", row: 1, column: 1, rows: 3, columns: 2 });
    expect(placeOf("=Data!D5")).toEqual({ sheet: "Data", row: 4, column: 3, rows: 1, columns: 1 });
    for (const [text, sheet] of [
      ["kb_mu", "X"],
      ["#REF!", "X"],
      ["A:A", "X"],
      ["2:3", "X"],
      ["D5", undefined],
    ] as const)
      expect(placeOf(text, sheet), text).toBeUndefined();
  });
});
