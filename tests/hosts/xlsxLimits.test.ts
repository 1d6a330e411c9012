import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { openGridInNode, writeWorkbook, type CellContent, type Values } from "../../src/hosts/index.ts";
import { readWorkbook, type ReadWorkbook } from "./ourFile.ts";
import type { Plan } from "../../src/sheet/index.ts";
import { smallPlan } from "./smallPlan.ts";

async function computed(plan: Plan): Promise<Values> {
  const host = await openGridInNode();
  try {
    await host.apply(plan, { sheetName: "Beam", progress: () => undefined });
    // The grid's own values: a sheet comes to it with those of the calculation.
    await host.recalculate();
    return await host.read("Beam", { row: 0, column: 0, rows: plan.rows, columns: plan.columns });
  } finally {
    host.dispose();
  }
}

const parts = (bytes: Uint8Array): Map<string, string> =>
  new Map(Object.entries(unzipSync(bytes)).map(([name, content]) => [name, strFromU8(content)]));

describe("what a file refuses", () => {
  const shown = (row: number, column: number, content: CellContent): Values =>
    Array.from({ length: smallPlan.rows }, (_r, r) =>
      Array.from({ length: smallPlan.columns }, (_c, c) =>
        r === row && c === column ? content : { value: 0, text: "0" },
      ),
    );
  const zero = shown(0, 0, { value: 0, text: "0" });
  const cell = (formula: string): Plan => ({ ...smallPlan, cells: [{ row: 0, column: 0, role: "value", formula }] });

  it("a formula without a computed value", () => {
    expect(() => writeWorkbook(smallPlan, [], "Beam")).toThrow("C5 has no computed value");
    // What stood there before the formula did.
    expect(() => writeWorkbook(cell("=1+1"), shown(0, 0, { value: null, text: "" }), "Beam")).toThrow(
      "A1 has no computed value",
    );
  });
  it("an error no program knows", () => {
    expect(() =>
      writeWorkbook(smallPlan, shown(4, 2, { value: null, text: "", error: { code: "#ERROR!" } }), "Beam"),
    ).toThrow(/C5 shows #ERROR!/);
  });
  it("a sheet name no program takes", () => {
    expect(() => writeWorkbook(smallPlan, zero, "a/b")).toThrow(/not allowed/);
  });
  it("a formula that fills several cells or binds names", () => {
    expect(() => writeWorkbook(cell("=SUM(SEQUENCE(3))"), zero, "Beam")).toThrow(/SEQUENCE/);
    expect(() => writeWorkbook(cell("=let(x,1,x)"), zero, "Beam")).toThrow(/LET/);
  });
  it("choices a list cannot hold", () => {
    const rule = (values: readonly string[]): Plan => ({
      ...smallPlan,
      validations: [
        { row: 2, column: 2, rows: 1, columns: 1, rule: { kind: "list", values }, title: "t", message: "m" },
      ],
    });
    expect(() => writeWorkbook(rule(["a,b"]), zero, "Beam")).toThrow(/C3.*no commas/);
    expect(() => writeWorkbook(rule(["x".repeat(256)]), zero, "Beam")).toThrow(/255/);
  });
  it.each(["a\u0001", "a\ud83d", "\ude00b", "a\uffff"])("a control character or half a character: %j", (value) => {
    expect(() =>
      writeWorkbook({ ...smallPlan, cells: [{ row: 0, column: 0, role: "note", value }] }, zero, "Beam"),
    ).toThrow(/control character or half a character/);
  });
  it("to read a damaged part", () => {
    const damaged = (part: string, change: (text: string) => string): Uint8Array => {
      const all = unzipSync(writeWorkbook(smallPlan, zero, "Beam"));
      return zipSync({ ...all, [part]: strToU8(change(strFromU8(all[part]!))) });
    };
    const sheet = "xl/worksheets/sheet1.xml";
    expect(() => readWorkbook(damaged(sheet, (text) => text.replace("</sheetData>", "")))).toThrow(/closes/);
    expect(() => readWorkbook(damaged(sheet, (text) => text.replace("<sheetData>", "<sheetData & >")))).toThrow(
      /no attribute/,
    );
    expect(() => readWorkbook(damaged(sheet, (text) => text.replace("<f>", '<f t="array" ref="A1:B1">')))).toThrow(
      /fills several cells/,
    );
  });
});

describe("what a file keeps", () => {
  const written = (
    cells: Plan["cells"],
    more: Partial<Plan> = {},
  ): { readonly read: ReadWorkbook; readonly sheet: string; readonly styleSheet: string } => {
    const values: Values = Array.from({ length: smallPlan.rows }, () =>
      Array.from({ length: smallPlan.columns }, () => ({ value: "", text: "" })),
    );
    const bytes = writeWorkbook({ ...smallPlan, cells, spans: [], ...more }, values, "Beam");
    return {
      read: readWorkbook(bytes),
      sheet: parts(bytes).get("xl/worksheets/sheet1.xml")!,
      styleSheet: parts(bytes).get("xl/styles.xml")!,
    };
  };

  it.each([
    "=1+1",
    "+5",
    "@a",
    "'x",
    "TRUE",
    "5.10",
    " both ends ",
    "a\nb",
    "_x0041_",
    "a\rb",
    "<&>\"'",
    "\u{1D70E}",
    "#N/A",
  ])("the text %j as text", (value) => {
    const { read } = written([{ row: 0, column: 0, role: "textInput", value }]);
    expect(read.cells[0]).toMatchObject({ value });
    expect(read.cells[0]!.formula).toBeUndefined();
  });

  it("an open cell's text as text also after it was edited", () => {
    const quoted = (value: string): boolean =>
      written([{ row: 3, column: 0, role: "textInput", value }]).styleSheet.includes('quotePrefix="1"');
    expect(["=1+1", "0012", "true"].map(quoted)).toEqual([true, true, true]);
    expect(quoted("Alder Quay")).toBe(false);
  });

  it("functions under their stored names, texts and sheet names untouched", () => {
    const formula = `=IF(KERN.VERSION()="KERN.X(",'KERN.Y('!A1,MAXIFS(A1:A2,B1:B2,"MAXIFS("))`;
    const { read, sheet } = written([{ row: 0, column: 0, role: "value", formula }]);
    expect(sheet).toContain(
      `<f>IF(_xldudf_KERN_VERSION()=&quot;KERN.X(&quot;,'KERN.Y('!A1,_xlfn.MAXIFS(A1:A2,B1:B2,&quot;MAXIFS(&quot;))</f>`,
    );
    expect(read.cells[0]!.formula).toBe(formula);
  });

  it("0 for a formula that passes on an empty cell, as a spreadsheet program shows it", async () => {
    const plan: Plan = {
      ...smallPlan,
      cells: [
        { row: 0, column: 0, role: "input" },
        { row: 0, column: 1, role: "value", formula: "=IF(TRUE,A1,1)" },
      ],
    };
    const values = await computed(plan);
    expect(values[0]![1]!.value).toBeNull();
    expect(
      readWorkbook(writeWorkbook(plan, values, "Beam")).cells.find(({ formula }) => formula === "=IF(TRUE,A1,1)")!
        .value,
    ).toBe(0);
  });

  it("rows high enough for a text that a formula gives", async () => {
    const cells: Plan["cells"] = [
      { row: 0, column: 4, role: "source", formula: '=REPT("word ",20)' },
      { row: 1, column: 4, role: "source", formula: '="word"' },
      { row: 2, column: 0, role: "source", formula: '=REPT("word ",20)' },
    ];
    const plan: Plan = { ...smallPlan, cells, spans: [{ row: 2, column: 0, rows: 1, columns: 5 }], lines: {} };
    const { heights } = readWorkbook(writeWorkbook(plan, await computed(plan), "Beam"));
    // 100 letters of 0.9 digits over 20 digits are five lines, over all 78 digits two; every other row has one.
    expect([...heights].filter(([, height]) => height !== 12 - 0.25)).toEqual([
      [0, 5 * 12 - 0.25],
      [2, 2 * 12 - 0.25],
    ]);
    expect(heights.get(1)).toBe(12 - 0.25);
  });

  it("every kind of rule", () => {
    const rules: readonly Plan["validations"][number]["rule"][] = [
      { kind: "number" },
      { kind: "number", whole: true },
      { kind: "number", min: -1.5 },
      { kind: "number", max: 1e-7 },
      { kind: "number", above: 0 },
      { kind: "number", below: -3 },
      { kind: "number", min: 1, max: 2e21 },
      { kind: "number", above: 0, max: 120 },
      { kind: "number", min: -2, below: 5 },
      { kind: "number", above: -1e-9, below: 1 },
      { kind: "number", min: 1, max: 6, whole: true },
      { kind: "number", above: 0, max: 6, whole: true },
      { kind: "list", values: ["S", 'a "b"', "1"] },
    ];
    const validations = rules.map((rule, row) => ({
      row,
      column: 30,
      rows: 2,
      columns: 1,
      rule,
      title: "title",
      message: "message",
      ...(row % 2 === 0 && { allowBlank: true as const }),
    }));
    expect(written([], { validations }).read.validations).toEqual(validations);
  });
});
