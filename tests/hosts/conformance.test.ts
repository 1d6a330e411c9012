/**
 * A plan looks the same on every host. The stand-in of the program and the host in memory compute by our own
 * calculation; tests/cells/calculateSheets.test.ts holds the grid's own to the same values.
 */
import { beforeAll, describe, expect, it } from "vitest";
import { nodeGrid } from "../../src/hosts/grid/node.ts";
import { openExcel, writeWorkbook, type CellContent } from "../../src/hosts/index.ts";
import { expand, type Plan } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { differences } from "./differences.ts";
import { FakeExcel } from "./excelFake/index.ts";
import { memoryCalculator } from "./excelFake/memoryCalculator.ts";
import { excelPicture } from "./excelPicture.ts";
import { gridPicture } from "./gridPicture.ts";
import { MemoryHost } from "./memory/memoryHost.ts";
import { memoryPicture } from "./memoryPicture.ts";
import type { Picture } from "./picture.ts";
import { planPicture } from "./planPicture.ts";
import { chartPlan, smallPlan } from "./smallPlan.ts";
import { xlsxPicture } from "./xlsxPicture.ts";

const sheetName = "Beam";
const whole = (plan: Plan) => ({ row: 0, column: 0, rows: plan.rows, columns: plan.columns });
const calculator = memoryCalculator();

interface Built {
  readonly picture: Picture;
  readonly contents: readonly (readonly CellContent[])[];
  readonly largest?: FakeExcel["largest"];
}

async function onGrid(plan: Plan): Promise<Built> {
  const grid = nodeGrid();
  try {
    await grid.host.apply(plan, { sheetName, progress: () => undefined });
    return {
      picture: await gridPicture(grid, sheetName, plan),
      contents: await grid.host.read(sheetName, whole(plan)),
    };
  } finally {
    grid.host.dispose();
  }
}

async function inProgram(plan: Plan): Promise<Built> {
  const excel = new FakeExcel({ calculator });
  const host = openExcel({
    run: excel.run,
    supports: excel.supports,
    report: (error) => {
      throw error;
    },
    pause: () => Promise.resolve(),
  });
  await host.apply(plan, { sheetName, progress: () => undefined });
  const { largest } = excel;
  const contents = await host.read(sheetName, whole(plan));
  return {
    largest,
    picture: excelPicture(
      excel.workbook.sheets.find(({ name }) => name === sheetName)!,
      contents,
      plan.columns,
    ),
    contents,
  };
}

async function inMemory(plan: Plan): Promise<Built> {
  const host = new MemoryHost();
  await host.apply(plan, { sheetName, progress: () => undefined });
  return { picture: memoryPicture(host, sheetName, plan), contents: await host.read(sheetName, whole(plan)) };
}

const cases: readonly (readonly [string, Plan])[] = [
  ["small", smallPlan],
  ["charts", chartPlan],
  ...templates.map((template) => [template.id, expand(template, template.example.inputs)] as const),
];

describe.each(cases)("%s on every host", (_id, plan) => {
  const built: Record<string, Picture> = {};
  let expected: Picture;
  let largest: FakeExcel["largest"];
  beforeAll(async () => {
    const grid = await onGrid(plan);
    expected = planPicture(plan, grid.contents);
    built["the grid"] = grid.picture;
    const program = await inProgram(plan);
    built["the spreadsheet program"] = program.picture;
    largest = program.largest!;
    built["memory"] = (await inMemory(plan)).picture;
    built["a workbook file"] = xlsxPicture(writeWorkbook(plan, grid.contents, sheetName));
  }, 300_000);

  it.each(["the grid", "the spreadsheet program", "memory", "a workbook file"])("is as planned: %s", (host) => {
    expect(differences(built[host]!, expected)).toEqual([]);
  });

  it.each([
    ["the spreadsheet program", "the grid"],
    ["memory", "the grid"],
    ["memory", "the spreadsheet program"],
    ["a workbook file", "the grid"],
    ["a workbook file", "the spreadsheet program"],
  ])("is the same: %s and %s", (one, other) => {
    expect(differences(built[one]!, built[other]!)).toEqual([]);
  });

  it("reaches the spreadsheet program in requests far below its limit of 5 MB, each of bounded work", () => {
    expect(largest.characters).toBeLessThan(1_000_000);
    expect(largest.operations).toBeLessThan(3_500);
  });
});

describe("the comparison", () => {
  it("sees each kind of difference", async () => {
    const { picture } = await inProgram(chartPlan);
    const changed: Picture = {
      ...picture,
      cells: {
        ...picture.cells,
        C5: { ...picture.cells["C5"]!, value: 1 },
        C3: { ...picture.cells["C3"]!, unlocked: false },
        A1: { ...picture.cells["A1"]!, style: { ...picture.cells["A1"]!.style, bold: false } },
      },
      names: {},
      validations: { C3: { ...picture.validations["C3"]!, title: "" } },
      protected: false,
      spans: [],
      freeze: { rows: 0, columns: 0 },
      widths: [],
      highlights: {},
      print: { ...picture.print!, footer: "" },
      charts: picture.charts!.map((chart, i) =>
        i === 0
          ? { ...chart, log: false, down: true }
          : { ...chart, series: chart.series.map((one) => ({ ...one, kind: "value" })) },
      ),
    };
    expect(differences(changed, picture).map((text) => text.replace(/:.*/s, ""))).toEqual([
      "C3 unlocked",
      "C5 value",
      "A1 style",
      "name kb_mu",
      "name kb_all",
      "validation C3",
      "sheet protected",
      "sheet freeze",
      "sheet spans",
      "sheet widths",
      "highlights C6 OK",
      "print footer",
      "charts 0",
      "charts 1",
    ]);
  });
});
