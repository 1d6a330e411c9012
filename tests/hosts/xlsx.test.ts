import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { readXlsx } from "hucre/xlsx";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { worksheetFunctions } from "../../functions/index.ts";
import { defaultStyle, openGridInNode, readWorkbook, styles, writeWorkbook, type CellContent, type GridHost, type ReadWorkbook, type Values } from "../../src/hosts/index.ts";
import { a1, expand, freeSheetName, type Area, type Plan } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { smallPlan } from "./smallPlan.ts";

let host: GridHost;
beforeAll(async () => {
  host = await openGridInNode();
});
afterAll(() => host.dispose());

async function computed(plan: Plan, sheetName: string): Promise<Values> {
  await host.apply(plan, { sheetName, progress: () => undefined });
  return host.read(sheetName, { row: 0, column: 0, rows: plan.rows, columns: plan.columns });
}

/** Worksheet elements in the order of ECMA-376 part 1, CT_Worksheet, as far as the file may hold them. */
const elementOrder = ["sheetPr", "dimension", "sheetViews", "sheetFormatPr", "cols", "sheetData", "sheetProtection", "mergeCells", "conditionalFormatting", "dataValidations", "printOptions", "pageMargins", "pageSetup", "headerFooter", "drawing"];
/** Functions the file format has known from its beginning (ECMA-376 part 1, 18.17.7): stored without a prefix. */
const original = new Set("ABS ACOS AND ASIN ATAN ATAN2 AVERAGE CEILING CHOOSE CONCATENATE CONVERT COS COUNT COUNTA COUNTBLANK COUNTIF COUNTIFS EXP FLOOR HLOOKUP IF IFERROR INDEX INT ISBLANK ISERROR ISNA ISNUMBER ISTEXT LARGE LEFT LEN LN LOG LOG10 LOOKUP LOWER MATCH MAX MEDIAN MID MIN MOD N NA NOT OR PI POWER PRODUCT RADIANS RANK REPT RIGHT ROUND ROUNDDOWN ROUNDUP ROW ROWS SIGN SIN SMALL SQRT SUBSTITUTE SUM SUMIF SUMIFS SUMPRODUCT SUMSQ T TAN TEXT TRIM TRUNC UPPER VALUE VLOOKUP".split(" "));
const udfs = new Set(worksheetFunctions.map(({ name }) => `_xldudf_${name.replaceAll(".", "_")}`));

const parts = (bytes: Uint8Array): Map<string, string> => new Map(Object.entries(unzipSync(bytes)).map(([name, content]) => [name, strFromU8(content)]));
const inArea = ({ row, column, rows, columns }: Area, r: number, c: number): boolean => r >= row && r < row + rows && c >= column && c < column + columns;
const formulas = (xml: string): string[] => [...xml.matchAll(/<f>([^<]*)<\/f>/g)].map((m) => m[1]!);

/** Spreadsheets know one zero only. */
const oneZero = <T>(value: T): T | 0 => (value === 0 ? 0 : value);

const name = (id: string): string => freeSheetName(`It's ${id} & more`, []);
const cases: readonly (readonly [string, Plan])[] = [["small", smallPlan], ...templates.map((template) => [template.id, expand(template, template.example.inputs)] as const)];

describe.each(cases)("the file of %s", (id, plan) => {
  let values: Values;
  let bytes: Uint8Array;
  let read: ReadWorkbook;
  const sheetName = name(id);
  const at = (row: number, column: number): CellContent => values[row]![column]!;
  beforeAll(async () => {
    values = await computed(plan, sheetName);
    bytes = writeWorkbook(plan, values, sheetName);
    read = readWorkbook(bytes);
  }, 60_000);

  it("holds every cell of the plan: value or formula, format, look, lock", () => {
    const cells = new Map(read.cells.map((cell) => [a1(cell), cell]));
    const expected = plan.cells.map((cell) => ({
      row: cell.row, column: cell.column, style: { ...defaultStyle, ...styles[cell.role] }, locked: !plan.unlocked.some((area) => inArea(area, cell.row, cell.column)),
      ...(cell.format !== undefined && { format: cell.format }), ...(cell.formula === undefined ? { value: cell.value ?? null } : { formula: cell.formula }),
    }));
    const found = plan.cells.map((cell) => {
      const { value, error: _error, formula, ...rest } = cells.get(a1(cell))!;
      return formula === undefined ? { ...rest, value } : { ...rest, formula };
    });
    expect(found).toEqual(expected);
  });

  it("holds nothing else but the other cells of joined areas, which are empty and look and lock as the first", () => {
    const planned = new Map(read.cells.map((cell) => [a1(cell), cell]));
    for (const cell of plan.cells) planned.delete(a1(cell));
    const first = new Map(read.cells.map((cell) => [a1(cell), cell]));
    for (const cell of planned.values()) {
      const span = plan.spans.find((area) => inArea(area, cell.row, cell.column))!;
      const { style, locked } = first.get(a1(span))!;
      expect(cell).toMatchObject({ value: null, style, locked });
    }
  });

  it("keeps for every formula what the grid computed", () => {
    for (const cell of read.cells.filter(({ formula }) => formula !== undefined)) {
      const { value, error } = at(cell.row, cell.column);
      expect([a1(cell), cell.value, cell.error]).toEqual([a1(cell), oneZero(value), error?.code]);
    }
  });

  it("gives back names, rules, colours, joined cells, frozen rows, widths and print set-up", () => {
    expect(read.sheet).toBe(sheetName);
    expect(read.names).toEqual(plan.names.map(({ name: n, ...area }) => ({ ...area, name: n })));
    expect(read.validations).toEqual(plan.validations);
    const sorted = (all: Plan["highlights"]): unknown => all.map((one) => JSON.stringify([one.row, one.column, one.rows, one.columns, one.text, one.tone])).sort();
    expect(sorted(read.highlights)).toEqual(sorted(plan.highlights));
    expect(read.protected).toBe(true);
    expect(read.spans).toEqual(plan.spans);
    expect(read.freeze).toEqual(plan.freeze);
    expect(read.gridlines).toBe(false);
    expect(read.widths).toEqual(plan.widths);
    for (const [row, lines] of Object.entries(plan.lines)) expect(read.heights.get(Number(row))).toBeGreaterThanOrEqual(lines * 13);
    const { area, ...print } = plan.print;
    expect(read.print).toMatchObject({ ...print, paper: "9", pagesWide: "1", pagesHigh: "0" });
    expect(read.print.areas[0]).toEqual(area);
    expect(read.properties).toEqual({ title: plan.template.title, subject: `${plan.template.id} ${plan.template.version}, ${plan.hash}`, creator: "Kernbook", application: "Microsoft Excel" });
  });

  it("draws every chart beside the cells, with the points as computed, each printed on a page of its own", () => {
    expect(read.charts.map(({ series, at: place, ...rest }) => ({ ...rest, series: series.map(({ points: _, ...one }) => one), corner: [place.row, place.column, place.columns] })))
      .toEqual(plan.charts.map(({ at: place, ...rest }) => ({ ...rest, corner: [place.row, place.column, place.columns] })));
    read.charts.forEach((chart, i) => {
      expect(chart.at.column).toBeGreaterThanOrEqual(plan.columns);
      expect(chart.at.rows).toBeLessThanOrEqual(plan.charts[i]!.at.rows);
      const shown = (area: Area): unknown[] => Array.from({ length: area.rows }, (_, r) => at(area.row + r, area.column).value).map((value) => (typeof value === "number" ? oneZero(value) : null));
      for (const { x, y, points } of chart.series) expect(points).toEqual({ x: shown(x), y: shown(y) });
    });
    expect(read.print.areas.slice(1)).toEqual(read.charts.map(({ at: place }) => place));
  });

  it("stores every function under the name the program looks for", () => {
    const used = formulas(parts(bytes).get("xl/worksheets/sheet1.xml")!).flatMap((text) => [...text.replace(/"[^"]*"|&quot;.*?&quot;/g, "").matchAll(/([\w.]+)\(/g)].map((m) => m[1]!));
    expect(used.length).toBeGreaterThan(0);
    expect([...new Set(used)].filter((one) => !original.has(one) && !udfs.has(one))).toEqual([]);
  });

  it("forces no calculation, has no array formulas, and absolute print ranges on a quoted sheet", () => {
    const all = parts(bytes);
    const workbook = all.get("xl/workbook.xml")!;
    expect(workbook).toContain('<calcPr calcId="191029"/>');
    expect([...all.values()].join("")).not.toMatch(/fullCalcOnLoad|<f [^>]*t="array"|<c [^>]*cm=/);
    const quoted = `'${sheetName.replaceAll("'", "''").replaceAll("&", "&amp;")}'!`;
    const areas = /_xlnm\.Print_Area" localSheetId="0">([^<]*)</.exec(workbook)![1]!.split(`,${quoted}`);
    expect(areas[0]!.startsWith(quoted)).toBe(true);
    for (const area of [areas[0]!.slice(quoted.length), ...areas.slice(1)]) expect(area).toMatch(/^\$[A-Z]+\$\d+:\$[A-Z]+\$\d+$/);
    expect(workbook).toContain(`_xlnm.Print_Titles" localSheetId="0">${quoted}$${plan.print.titleRows[0] + 1}:$${plan.print.titleRows[1] + 1}<`);
  });

  it("is a sound package: every relation leads to a part, every part is reached and has its type, elements stand in the format's order", () => {
    const all = parts(bytes);
    const reached = new Set<string>();
    for (const [part, text] of all) {
      if (!part.endsWith(".rels")) continue;
      const folder = part.replace(/_rels\/[^/]*$/, "");
      const ids = [...text.matchAll(/ Id="(\w+)"/g)].map((m) => m[1]);
      expect(new Set(ids).size).toBe(ids.length);
      for (const [, target] of text.matchAll(/ Target="([^"]*)"/g)) reached.add(new URL(target!, `file:///${folder}`).pathname.slice(1));
    }
    const contents = [...all.keys()].filter((part) => !part.endsWith(".rels") && part !== "[Content_Types].xml");
    expect([...reached].sort()).toEqual([...contents].sort());
    const typed = [...all.get("[Content_Types].xml")!.matchAll(/PartName="\/([^"]*)"/g)].map((m) => m[1]!);
    expect(typed.sort()).toEqual([...contents].sort());
    const sheet = all.get("xl/worksheets/sheet1.xml")!;
    const used = [...sheet.replace(/<(sheetData|sheetViews|cols|mergeCells|conditionalFormatting|dataValidations|headerFooter|sheetPr)\b[^>]*>[\s\S]*?<\/\1>/g, "<$1/>").matchAll(/<(\w+)/g)].map((m) => m[1]!).filter((tag) => tag !== "xml" && tag !== "worksheet");
    const places = used.map((tag) => elementOrder.indexOf(tag));
    expect(places).not.toContain(-1);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  it("says the same to a reader that is not ours", async () => {
    const book = await readXlsx(bytes, { readStyles: true });
    const sheet = book.sheets[0]!;
    expect(sheet.name).toBe(sheetName);
    expect(sheet.merges?.length ?? 0).toBe(plan.spans.length);
    expect(sheet.dataValidations?.length ?? 0).toBe(plan.validations.length);
    expect(book.namedRanges?.length ?? 0).toBe(plan.names.length);
    expect(sheet.charts?.map(({ title }) => title) ?? []).toEqual(plan.charts.map(({ title }) => title));
    for (const cell of plan.cells) {
      const other = sheet.cells!.get(`${cell.row},${cell.column}`);
      const content = at(cell.row, cell.column);
      if (cell.formula !== undefined) expect([a1(cell), other?.formula !== undefined, content.error ? content.error.code : other?.formulaResult ?? other?.value]).toEqual([a1(cell), true, content.error ? content.error.code : oneZero(content.value)]);
      else if (cell.value !== undefined) expect([a1(cell), other?.value]).toEqual([a1(cell), cell.value]);
    }
  });

  it("is the same file each time", () => {
    expect(writeWorkbook(plan, values, sheetName)).toEqual(bytes);
  });
});

it.each(cases.slice(1))("the file of %s shows no error", async (id, plan) => {
  const values = await computed(plan, `clean ${id}`.slice(0, 31));
  const errors = readWorkbook(writeWorkbook(plan, values, "Beam")).cells.filter(({ error }) => error !== undefined);
  expect(errors.map((cell) => `${a1(cell)} ${cell.error}`)).toEqual([]);
});

describe("what a file refuses", () => {
  const shown = (row: number, column: number, content: CellContent): Values => Array.from({ length: smallPlan.rows }, (_r, r) => Array.from({ length: smallPlan.columns }, (_c, c) => (r === row && c === column ? content : { value: 0, text: "0" })));
  const zero = shown(0, 0, { value: 0, text: "0" });
  const cell = (formula: string): Plan => ({ ...smallPlan, cells: [{ row: 0, column: 0, role: "value", formula }] });

  it("a formula without a computed value", () => {
    expect(() => writeWorkbook(smallPlan, [], "Beam")).toThrow("C5 has no computed value");
  });
  it("an error no program knows", () => {
    expect(() => writeWorkbook(smallPlan, shown(4, 2, { value: null, text: "", error: { code: "#ERROR!" } }), "Beam")).toThrow(/C5 shows #ERROR!/);
  });
  it("a sheet name no program takes", () => {
    expect(() => writeWorkbook(smallPlan, zero, "a/b")).toThrow(/not allowed/);
  });
  it("a formula that fills several cells or binds names", () => {
    expect(() => writeWorkbook(cell("=SUM(SEQUENCE(3))"), zero, "Beam")).toThrow(/SEQUENCE/);
    expect(() => writeWorkbook(cell("=let(x,1,x)"), zero, "Beam")).toThrow(/LET/);
  });
  it("choices a list cannot hold", () => {
    const rule = (values: readonly string[]): Plan => ({ ...smallPlan, validations: [{ row: 2, column: 2, rows: 1, columns: 1, rule: { kind: "list", values }, title: "t", message: "m" }] });
    expect(() => writeWorkbook(rule(["a,b"]), zero, "Beam")).toThrow(/C3.*no commas/);
    expect(() => writeWorkbook(rule(["x".repeat(256)]), zero, "Beam")).toThrow(/255/);
  });
  it("a control character", () => {
    expect(() => writeWorkbook({ ...smallPlan, cells: [{ row: 0, column: 0, role: "note", value: "a\u0001" }] }, zero, "Beam")).toThrow(/control character/);
  });
  it("to read a damaged part", () => {
    const damaged = (part: string, change: (text: string) => string): Uint8Array => {
      const all = unzipSync(writeWorkbook(smallPlan, zero, "Beam"));
      return zipSync({ ...all, [part]: strToU8(change(strFromU8(all[part]!))) });
    };
    const sheet = "xl/worksheets/sheet1.xml";
    expect(() => readWorkbook(damaged(sheet, (text) => text.replace("</sheetData>", "")))).toThrow(/closes/);
    expect(() => readWorkbook(damaged(sheet, (text) => text.replace("<sheetData>", "<sheetData & >")))).toThrow(/no attribute/);
    expect(() => readWorkbook(damaged(sheet, (text) => text.replace("<f>", '<f t="array" ref="A1">')))).toThrow(/array/);
  });
});

describe("what a file keeps", () => {
  const written = (cells: Plan["cells"], more: Partial<Plan> = {}): { readonly read: ReadWorkbook; readonly sheet: string; readonly styleSheet: string } => {
    const values: Values = Array.from({ length: smallPlan.rows }, () => Array.from({ length: smallPlan.columns }, () => ({ value: "", text: "" })));
    const bytes = writeWorkbook({ ...smallPlan, cells, spans: [], ...more }, values, "Beam");
    return { read: readWorkbook(bytes), sheet: parts(bytes).get("xl/worksheets/sheet1.xml")!, styleSheet: parts(bytes).get("xl/styles.xml")! };
  };

  it.each(["=1+1", "+5", "@a", "'x", "TRUE", "5.10", " both ends ", "a\nb", "_x0041_", "a\rb", "<&>\"'", "\u{1D70E}", "#N/A"])("the text %j as text", (value) => {
    const { read } = written([{ row: 0, column: 0, role: "textInput", value }]);
    expect(read.cells[0]).toMatchObject({ value });
    expect(read.cells[0]!.formula).toBeUndefined();
  });

  it("an open cell's text as text also after it was edited", () => {
    const quoted = (value: string): boolean => written([{ row: 3, column: 0, role: "textInput", value }]).styleSheet.includes('quotePrefix="1"');
    expect(["=1+1", "0012", "true"].map(quoted)).toEqual([true, true, true]);
    expect(quoted("Alder Quay")).toBe(false);
  });

  it("functions under their stored names, texts and sheet names untouched", () => {
    const formula = `=IF(KERN.VERSION()="KERN.X(",'KERN.Y('!A1,MAXIFS(A1:A2,B1:B2,"MAXIFS("))`;
    const { read, sheet } = written([{ row: 0, column: 0, role: "value", formula }]);
    expect(sheet).toContain(`<f>IF(_xldudf_KERN_VERSION()=&quot;KERN.X(&quot;,'KERN.Y('!A1,_xlfn.MAXIFS(A1:A2,B1:B2,&quot;MAXIFS(&quot;))</f>`);
    expect(read.cells[0]!.formula).toBe(formula);
  });

  it("0 for a formula that passes on an empty cell, as a spreadsheet program shows it", async () => {
    const plan: Plan = { ...smallPlan, cells: [{ row: 0, column: 0, role: "input" }, { row: 0, column: 1, role: "value", formula: "=IF(TRUE,A1,1)" }] };
    const values = await computed(plan, "empty");
    expect(values[0]![1]!.value).toBeNull();
    expect(readWorkbook(writeWorkbook(plan, values, "Beam")).cells.find(({ formula }) => formula === "=IF(TRUE,A1,1)")!.value).toBe(0);
  });

  it("rows high enough for a text that a formula gives", async () => {
    const cells: Plan["cells"] = [{ row: 0, column: 4, role: "source", formula: '=REPT("word ",20)' }, { row: 1, column: 4, role: "source", formula: '="word"' }, { row: 2, column: 0, role: "source", formula: '=REPT("word ",20)' }];
    const plan: Plan = { ...smallPlan, cells, spans: [{ row: 2, column: 0, rows: 1, columns: 5 }], lines: {} };
    const { heights } = readWorkbook(writeWorkbook(plan, await computed(plan, "tall"), "Beam"));
    // 100 letters of 0.9 digits over 20 digits are five lines, over all 78 digits two.
    expect([...heights]).toEqual([[0, 5 * 13 + 3], [2, 2 * 13 + 3]]);
  });

  it("every kind of rule", () => {
    const rules: readonly Plan["validations"][number]["rule"][] = [
      { kind: "number" }, { kind: "number", whole: true }, { kind: "number", min: -1.5 }, { kind: "number", max: 1e-7 }, { kind: "number", above: 0 }, { kind: "number", below: -3 }, { kind: "number", min: 1, max: 2e21 },
      { kind: "number", above: 0, max: 120 }, { kind: "number", min: -2, below: 5 }, { kind: "number", above: -1e-9, below: 1 }, { kind: "number", min: 1, max: 6, whole: true }, { kind: "number", above: 0, max: 6, whole: true }, { kind: "list", values: ["S", 'a "b"', "1"] },
    ];
    const validations = rules.map((rule, row) => ({ row, column: 30, rows: 2, columns: 1, rule, title: "title", message: "message", ...(row % 2 === 0 && { allowBlank: true as const }) }));
    expect(written([], { validations }).read.validations).toEqual(validations);
  });
});
