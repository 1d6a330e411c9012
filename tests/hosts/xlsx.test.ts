import { a1, type Area } from "../../src/cells/index.ts";
import { strFromU8, unzipSync } from "fflate";
import { readXlsx } from "hucre/xlsx";
import { beforeAll, describe, expect, it } from "vitest";
import { worksheetFunctions } from "../../functions/index.ts";
import { defaultStyle, styleOf, writeWorkbook, type CellContent, type Values } from "../../src/hosts/index.ts";
import { readWorkbook, type ReadWorkbook } from "./ourFile.ts";
import { expand, freeSheetName, type Plan } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { MemoryHost } from "./memory/memoryHost.ts";
import { chartPlan, smallPlan } from "./smallPlan.ts";

const host = new MemoryHost();

async function computed(plan: Plan, sheetName: string): Promise<Values> {
  await host.apply(plan, { sheetName, progress: () => undefined });
  return host.read(sheetName, { row: 0, column: 0, rows: plan.rows, columns: plan.columns });
}

/** Worksheet elements in the order of ECMA-376 part 1, CT_Worksheet, as far as the file may hold them. */
const elementOrder = [
  "sheetPr",
  "dimension",
  "sheetViews",
  "sheetFormatPr",
  "cols",
  "sheetData",
  "sheetProtection",
  "mergeCells",
  "conditionalFormatting",
  "dataValidations",
  "printOptions",
  "pageMargins",
  "pageSetup",
  "headerFooter",
  "rowBreaks",
  "drawing",
];
/** Functions the file format has known from its beginning (ECMA-376 part 1, 18.17.7): stored without a prefix. */
const original = new Set(
  (
    "ABS ACOS AND ASIN ATAN ATAN2 AVERAGE CEILING CHOOSE CONCATENATE CONVERT COS COUNT COUNTA COUNTBLANK " +
    "COUNTIF COUNTIFS EXP FIND FLOOR HLOOKUP IF IFERROR INDEX INT ISBLANK ISERROR ISNA ISNUMBER ISTEXT LARGE " +
    "LEFT LEN LN LOG LOG10 LOOKUP LOWER MATCH MAX MEDIAN MID MIN MOD N NA NOT OR PI POWER PRODUCT " +
    "RADIANS RANK REPT RIGHT ROUND ROUNDDOWN ROUNDUP ROW ROWS SIGN SIN SMALL SQRT SUBSTITUTE SUM SUMIF " +
    "SUMIFS SUMPRODUCT SUMSQ T TAN TEXT TRIM TRUNC UPPER VALUE VLOOKUP"
  ).split(" "),
);
const udfs = new Set(worksheetFunctions.map(({ name }) => `_xldudf_${name.replaceAll(".", "_")}`));

const parts = (bytes: Uint8Array): Map<string, string> =>
  new Map(Object.entries(unzipSync(bytes)).map(([name, content]) => [name, strFromU8(content)]));
const inArea = ({ row, column, rows, columns }: Area, r: number, c: number): boolean =>
  r >= row && r < row + rows && c >= column && c < column + columns;
const formulas = (xml: string): string[] => [...xml.matchAll(/<f>([^<]*)<\/f>/g)].map((m) => m[1]!);

/** Spreadsheets know one zero only. */
const oneZero = <T>(value: T): T | 0 => (value === 0 ? 0 : value);

const name = (id: string): string => freeSheetName(`It's ${id} & more`, []);
const cases: readonly (readonly [string, Plan])[] = [
  ["small", smallPlan],
  ["charts", chartPlan],
  ...templates.map((template) => [template.id, expand(template, template.example.inputs)] as const),
];

/** Pages higher than A4 has room for, and runs of rows that the end of a page cuts though a page could hold them. */
function pagesThatDoNotFit(
  { together, printed }: NonNullable<Plan["print"]["pages"]>,
  { heights, print }: ReadWorkbook,
): readonly string[] {
  const high = (from: number, to: number): number =>
    Array.from({ length: to - from }, (_, i) => heights.get(from + i) ?? 11.75).reduce((sum, one) => sum + one, 0);
  // A4 is 841.9 points high; margins of 0.4 and 0.5 in; printed at 80 %; the first two rows stand at the head of each page.
  const room = (841.9 - 0.9 * 72) / 0.8 - high(0, 2);
  const begins = [2, ...(print.breaks ?? []), printed];
  const tooHigh = begins.slice(1).flatMap((end, i) => {
    const used = high(begins[i]!, end);
    return used > room ? [`rows ${begins[i]} to ${end} are ${used} high`] : [];
  });
  const cut = together
    .filter(({ row, rows }) => row + rows <= printed && high(row, row + rows) <= room)
    .filter(({ row, rows }) => begins.some((begin) => begin > row && begin < row + rows));
  return [...tooHigh, ...cut.map(({ row, rows }) => `rows ${row} to ${row + rows} are cut`)];
}

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
  }, 180_000);

  it("holds every cell of the plan: value or formula, subscripts, format, look, lock", () => {
    const cells = new Map(read.cells.map((cell) => [a1(cell), cell]));
    const expected = plan.cells.map((cell) => ({
      row: cell.row,
      column: cell.column,
      style: { ...defaultStyle, ...styleOf(cell) },
      locked: !plan.unlocked.some((area) => inArea(area, cell.row, cell.column)),
      ...(cell.format !== undefined && { format: cell.format }),
      ...(cell.lowered && { lowered: cell.lowered }),
      ...(cell.formula === undefined ? { value: cell.value ?? null } : { formula: cell.formula }),
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
    const sorted = (all: Plan["highlights"]): unknown =>
      all
        .map((one) =>
          JSON.stringify([one.row, one.column, one.rows, one.columns, one.text, one.begins === true, one.tone]),
        )
        .sort();
    expect(sorted(read.highlights)).toEqual(sorted(plan.highlights));
    expect(read.protected).toBe(true);
    expect(read.spans).toEqual(plan.spans);
    expect(read.freeze).toEqual(plan.freeze);
    expect(read.gridlines).toBe(false);
    expect(read.widths).toEqual(plan.widths);
    // From the top of the highest letter of Arial or Liberation Sans to the foot of the lowest: 1.149 of their 10 points.
    for (const [row, lines] of Object.entries(plan.lines))
      expect(read.heights.get(Number(row))).toBeGreaterThanOrEqual(lines * 11.49);
    const { area, pages, breaks, ...print } = plan.print;
    if (pages) expect(pagesThatDoNotFit(pages, read)).toEqual([]);
    else expect(read.print.breaks).toEqual(breaks);
    const fitted = print.scale === undefined ? { pagesWide: "1", pagesHigh: "0" } : { pagesWide: "", pagesHigh: "" };
    expect(read.print).toMatchObject({ ...print, paper: "9", ...fitted });
    // All rows that fold are one level down, and no row is hidden or folded.
    const rows = [
      ...parts(bytes)
        .get("xl/worksheets/sheet1.xml")!
        .matchAll(/<row [^>]*>/g),
    ].map(([row]) => row);
    const levels = rows.flatMap((row) =>
      row.includes('outlineLevel="1"') ? [Number(/ r="(\d+)"/.exec(row)![1]) - 1] : [],
    );
    const folding = (plan.groups ?? []).flatMap(({ row, rows: count }) =>
      Array.from({ length: count }, (_, i) => row + i),
    );
    expect(levels).toEqual(folding);
    expect(rows.filter((row) => /hidden|collapsed/.test(row))).toEqual([]);
    expect(read.print.areas[0]).toEqual(area);
    expect(read.properties).toEqual({
      title: plan.template.title,
      subject: `${plan.template.id} ${plan.template.version}, ${plan.hash}`,
      creator: "Kernbook",
      application: "Microsoft Excel",
    });
  });

  it("draws every chart in its place, with the points as computed; one outside the printed cells is printed by itself", () => {
    expect(
      read.charts.map(({ series, at: place, ...rest }) => ({
        ...rest,
        series: series.map(({ points: _, ...one }) => one),
        corner: [place.row, place.column, place.columns],
      })),
    ).toEqual(
      plan.charts.map(({ at: place, ...rest }) => ({ ...rest, corner: [place.row, place.column, place.columns] })),
    );
    read.charts.forEach((chart, i) => {
      expect(chart.at.rows).toBeLessThanOrEqual(plan.charts[i]!.at.rows);
      const shown = (area: Area): unknown[] =>
        Array.from({ length: area.rows }, (_, r) => at(area.row + r, area.column).value).map((value) =>
          typeof value === "number" ? oneZero(value) : null,
        );
      for (const { x, y, points } of chart.series) {
        // A logarithmic axis has no place for 0 and less.
        const placed = (among: readonly unknown[]): unknown[] =>
          among.map((value, r) => (chart.x.log && Number(shown(x)[r]) <= 0 ? null : value));
        expect(points).toEqual({ x: placed(shown(x)), y: placed(shown(y)) });
      }
    });
    const outside = read.charts.filter(({ at: place }) => place.column >= plan.columns);
    expect(read.print.areas.slice(1)).toEqual(outside.map(({ at: place }) => place));
  });

  it("stores every function under the name the program looks for", () => {
    const used = formulas(parts(bytes).get("xl/worksheets/sheet1.xml")!).flatMap((text) =>
      [...text.replace(/"[^"]*"|&quot;.*?&quot;/g, "").matchAll(/([\w.]+)\(/g)].map((m) => m[1]!),
    );
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
    for (const area of [areas[0]!.slice(quoted.length), ...areas.slice(1)])
      expect(area).toMatch(/^\$[A-Z]+\$\d+:\$[A-Z]+\$\d+$/);
    expect(workbook).toContain(
      `_xlnm.Print_Titles" localSheetId="0">${quoted}$${plan.print.titleRows[0] + 1}:$${plan.print.titleRows[1] + 1}<`,
    );
  });

  it(
    "is a sound package: every relation leads to a part, every part is reached and has its type, " +
      "elements stand in the format's order",
    () => {
      const all = parts(bytes);
      const reached = new Set<string>();
      for (const [part, text] of all) {
        if (!part.endsWith(".rels")) continue;
        const folder = part.replace(/_rels\/[^/]*$/, "");
        const ids = [...text.matchAll(/ Id="(\w+)"/g)].map((m) => m[1]);
        expect(new Set(ids).size).toBe(ids.length);
        for (const [, target] of text.matchAll(/ Target="([^"]*)"/g))
          reached.add(new URL(target!, `file:///${folder}`).pathname.slice(1));
      }
      const contents = [...all.keys()].filter((part) => !part.endsWith(".rels") && part !== "[Content_Types].xml");
      expect([...reached].sort()).toEqual([...contents].sort());
      const typed = [...all.get("[Content_Types].xml")!.matchAll(/PartName="\/([^"]*)"/g)].map((m) => m[1]!);
      expect(typed.sort()).toEqual([...contents].sort());
      const withParts = [
        ...["sheetData", "sheetViews", "cols", "mergeCells", "conditionalFormatting"],
        ...["dataValidations", "headerFooter", "rowBreaks", "sheetPr"],
      ];
      const sheet = all.get("xl/worksheets/sheet1.xml")!;
      const used = [
        ...sheet
          .replace(new RegExp(`<(${withParts.join("|")})\\b[^>]*>[\\s\\S]*?</\\1>`, "g"), "<$1/>")
          .matchAll(/<(\w+)/g),
      ]
        .map((m) => m[1]!)
        .filter((tag) => tag !== "xml" && tag !== "worksheet");
      const places = used.map((tag) => elementOrder.indexOf(tag));
      expect(places).not.toContain(-1);
      expect(places).toEqual([...places].sort((a, b) => a - b));
    },
  );

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
      if (cell.formula !== undefined)
        expect([
          a1(cell),
          other?.formula !== undefined,
          content.error ? content.error.code : (other?.formulaResult ?? other?.value),
        ]).toEqual([a1(cell), true, content.error ? content.error.code : oneZero(content.value)]);
      else if (cell.value !== undefined) expect([a1(cell), other?.value]).toEqual([a1(cell), cell.value]);
    }
  });

  it("is the same file each time", () => {
    expect(writeWorkbook(plan, values, sheetName)).toEqual(bytes);
  });
});

it.each(cases.slice(2))("the file of %s shows no error", async (id, plan) => {
  const values = await computed(plan, `clean ${id}`.slice(0, 31));
  const errors = readWorkbook(writeWorkbook(plan, values, "Beam")).cells.filter(({ error }) => error !== undefined);
  expect(errors.map((cell) => `${a1(cell)} ${cell.error}`)).toEqual([]);
});
