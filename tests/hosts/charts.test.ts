import { strFromU8, unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { writeWorkbook, type CellContent, type Values } from "../../src/hosts/index.ts";
import { readWorkbook } from "./ourFile.ts";
import type { Plan } from "../../src/sheet/index.ts";
import { memoryCalculator } from "./excelFake/memoryCalculator.ts";
import { openFake } from "./openFake.ts";
import { chartPlan } from "./smallPlan.ts";

const [logChart, region] = chartPlan.charts as [Plan["charts"][number], Plan["charts"][number]];
/** Every cell with its row number plus one, but the first time, which is zero. */
const values: Values = Array.from({ length: chartPlan.rows }, (_, r) =>
  Array.from({ length: chartPlan.columns }, (): CellContent => ({ value: r === 12 ? 0 : r + 1, text: "" })),
);
const xmlOf = (charts: Plan["charts"]): string[] => {
  const files = unzipSync(writeWorkbook({ ...chartPlan, charts }, values, "Beam"));
  return charts.map((_, i) => strFromU8(files[`xl/charts/chart${i + 1}.xml`]!));
};

describe("charts in a workbook file", () => {
  const [log, plain] = xmlOf([logChart, { ...logChart, x: { label: "t", unit: "days" } }]) as [string, string];
  it("have a logarithmic axis to base 10, said in the format's order, at whose least value the other one stands", () => {
    expect(log.match(/<c:scaling>.*?<\/c:scaling>/g)).toEqual([
      '<c:scaling><c:logBase val="10"/><c:orientation val="minMax"/></c:scaling>',
      '<c:scaling><c:orientation val="minMax"/></c:scaling>',
    ]);
    expect(log.match(/<c:crosses val="\w+"\/>/g)).toEqual(['<c:crosses val="autoZero"/>', '<c:crosses val="min"/>']);
  });
  it("leave out zero there, and only there", () => {
    expect([...log.matchAll(/<c:pt idx="(\d+)">/g)].map((m) => m[1])).not.toContain("0");
    expect(plain).toContain('<c:pt idx="0"><c:v>0</c:v></c:pt>');
  });
  it("are otherwise as they were", () => {
    expect(plain).not.toContain("logBase");
    expect(plain).not.toContain('"min"');
    const bare = (xml: string): string =>
      xml.replace(/<c:logBase[^>]*>|<c:pt .*?<\/c:pt>/g, "").replace('"min"', '"autoZero"');
    expect(bare(log)).toBe(bare(plain));
  });
  it("show a point by a large mark without a line, in front of the outline", () => {
    const series = xmlOf([region])[0]!.match(/<c:ser>.*?<\/c:ser>/g)!;
    expect(series.map((one) => [/<c:size val="(\d+)"/.exec(one)![1], /<a:ln[^>]*><a:noFill\/>/.test(one)])).toEqual([
      ["4", false],
      ["9", true],
    ]);
  });
  it("are read back", () => {
    const read = readWorkbook(writeWorkbook(chartPlan, values, "Beam"));
    expect(read.charts.map(({ x, series }) => [x, series.map(({ kind }) => kind)])).toEqual([
      [logChart.x, ["value", "limit"]],
      [region.x, ["value", "point"]],
    ]);
  });
});

describe("charts in the spreadsheet program", () => {
  it("have their axis, marks and lines", async () => {
    const { host, excel } = openFake({ calculator: memoryCalculator() });
    await host.apply(chartPlan, { sheetName: "Beam", progress: () => undefined });
    const { charts } = excel.workbook.sheets.find(({ name }) => name === "Beam")!;
    expect(charts.map(({ scale }) => scale)).toEqual([
      { scaleType: "Logarithmic", logBase: 10, position: "Minimum" },
      { scaleType: "Linear", logBase: 10, position: "Automatic" },
    ]);
    expect(
      charts[1]!.series.map(({ name, look }) => [name, look["markerSize"], look["line.lineStyle"], look["line.color"]]),
    ).toEqual([
      ["outline", 4, undefined, "#0b5f7a"],
      ["this design", 9, "None", undefined],
    ]);
  });
});
