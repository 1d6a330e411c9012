/** Built sheets that read one another: what is entered on one is followed on all of them without the grid computing. */
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { nodeGrid } from "../../src/hosts/grid/node.ts";
import { workbookId } from "../../src/hosts/grid/runtime.ts";
import type { Plan } from "../../src/sheet/index.ts";
import { GridFaults } from "../checker/gridFaults.ts";
import { smallPlan } from "./smallPlan.ts";

type Opened = ReturnType<typeof nodeGrid>;
let host: Opened["host"];
let runtime: Opened["runtime"];
let workbook: Opened["workbook"];
/** The sheets whose formulas were handed to the grid, by name, calculation by calculation. */
let handed: string[][];

beforeEach(async () => {
  ({ host, runtime, workbook } = nodeGrid());
  await build("Beam");
  await build("Region", "Beam!C5*2");
  await build("Camber", "Region!C11+Beam!C3");
  handed = [];
  runtime.api.getFormula().calculationStart(() => {
    const current = runtime.univer.__getInjector().get(runtime.formula.IFormulaCurrentConfigService);
    const ids = Object.keys(current.getFormulaData()[workbookId] ?? {});
    handed.push(workbook.getSheets().flatMap((one) => (ids.includes(one.getSheetId()) ? [one.getSheetName()] : [])));
  });
});
afterEach(() => host.dispose());

/** The small sheet with a cell C11 that reads others. */
const reading = (formula?: string): Plan => ({
  ...smallPlan,
  cells: [
    ...smallPlan.cells,
    ...(formula === undefined ? [] : [{ row: 10, column: 2, formula: `=${formula}`, role: "value" as const }]),
  ],
});
const build = (sheetName: string, formula?: string) =>
  host.apply(reading(formula), { sheetName, progress: () => undefined });
const cell = async (sheet: string, row: number, column: number) =>
  (await host.read(sheet, { row, column, rows: 1, columns: 1 }))[0]![0]!;
const value = async (sheet: string, row: number, column: number) => (await cell(sheet, row, column)).value;
const enter = (sheet: string, entry: number | string | null) => host.enter({ sheet, row: 2, column: 2 }, entry);
/** The plain exponential of friction, written out. */
const friction = (mu: number) => 1395 * Math.exp(-(mu * 0.3 + 0.003 * 12));

async function follows(source: string, mu: number): Promise<void> {
  expect(await value(source, 4, 2)).toBeCloseTo(friction(mu), 9);
  expect(await value("Region", 10, 2)).toBeCloseTo(2 * friction(mu), 9);
  expect(await value("Camber", 10, 2)).toBeCloseTo(2 * friction(mu) + mu, 9);
}

describe("sheets that read one another", () => {
  it("follow an entry without the grid, and a sheet of one's own that reads the last of them follows", async () => {
    await host.insert("Sheet1", [{ row: 0, column: 0, formula: "=Camber!C11/2" }]);
    for (const mu of [0.3, 0.35, 0.25]) {
      await enter("Beam", mu);
      await follows("Beam", mu);
      expect(await value("Sheet1", 0, 0)).toBeCloseTo(friction(mu) + mu / 2, 9);
    }
    expect(new Set(handed.flat())).toEqual(new Set(["Sheet1"]));
    await host.recalculate();
    await follows("Beam", 0.25);
  });

  it("follow entries on several of them that come together", async () => {
    workbook.getSheetByName("Camber")!.getRange(2, 2, 1, 1).setValue(0.4);
    workbook.getSheetByName("Beam")!.getRange(2, 2, 1, 1).setValue(0.3);
    await enter("Region", 0.5);
    await follows("Beam", 0.3);
    expect(await value("Camber", 4, 2)).toBeCloseTo(friction(0.4), 9);
    expect(await value("Region", 4, 2)).toBeCloseTo(friction(0.5), 9);
    expect(handed.flat().filter((name) => name !== "Sheet1")).toEqual([]);
  });

  it("are the grid's while there is an error, all that read it too, and not afterwards", async () => {
    await enter("Beam", 7);
    expect((await cell("Beam", 4, 2)).error!.message).toContain("7");
    expect((await cell("Camber", 10, 2)).error!.code).toBe("#VALUE!");
    await enter("Beam", 0.3);
    await follows("Beam", 0.3);
    handed.length = 0;
    await enter("Beam", 0.4);
    await follows("Beam", 0.4);
    expect(handed.flat().filter((name) => name !== "Sheet1")).toEqual([]);
  });

  it("go on after one that others read was renamed, and a third of the old name is nothing to them", async () => {
    workbook.getSheetByName("Beam")!.setName("Girder A");
    await build("Beam");
    handed.length = 0;
    await enter("Girder A", 0.3);
    await follows("Girder A", 0.3);
    await enter("Beam", 0.5);
    await follows("Girder A", 0.3);
    expect(handed.flat().filter((name) => name !== "Sheet1")).toEqual([]);
    await host.recalculate();
    await follows("Girder A", 0.3);
  });

  it("are the grid's from there on where somebody types a formula, and what it reads is followed", async () => {
    await host.enter({ sheet: "Sheet1", row: 0, column: 0 }, 0.4);
    await host.enter({ sheet: "Region", row: 2, column: 2 }, "=Sheet1!A1");
    expect(await value("Region", 4, 2)).toBeCloseTo(friction(0.4), 9);
    await host.enter({ sheet: "Sheet1", row: 0, column: 0 }, 0.5);
    expect(await value("Region", 4, 2)).toBeCloseTo(friction(0.5), 9);
    handed.length = 0;
    await enter("Beam", 0.3);
    await follows("Beam", 0.3);
    expect(handed.flat()).toContain("Region");
    // What reads it is the grid's, too; the one that is read is not.
    expect(handed.flat()).toContain("Camber");
    expect(handed.flat()).not.toContain("Beam");
  });

  it("lose their values with a sheet that goes, also where another takes its name", async () => {
    workbook.deleteSheet(workbook.getSheetByName("Beam")!);
    await expect.poll(async () => (await cell("Camber", 10, 2)).error?.code, { timeout: 8000 }).toBe("#REF!");
    expect((await cell("Region", 10, 2)).error!.code).toBe("#REF!");
    await build("Beam");
    await enter("Beam", 0.3);
    expect(await value("Beam", 4, 2)).toBeCloseTo(friction(0.3), 9);
    expect((await cell("Region", 10, 2)).error!.code).toBe("#REF!");
    await enter("Camber", 0.35);
    expect(await value("Camber", 4, 2)).toBeCloseTo(friction(0.35), 9);
  });

  it("take in a copy of one that reads others", async () => {
    await enter("Beam", 0.3);
    workbook.duplicateSheet(workbook.getSheetByName("Region")!);
    const copy = (await host.sheetNames()).find((name) => name.startsWith("Region "))!;
    expect(await value(copy, 10, 2)).toBeCloseTo(2 * friction(0.3), 9);
    await new Promise((resolve) => setTimeout(resolve, 300));
    handed.length = 0;
    await enter("Beam", 0.4);
    await follows("Beam", 0.4);
    expect(await value(copy, 10, 2)).toBeCloseTo(2 * friction(0.4), 9);
    expect(handed.flat().filter((name) => name !== "Sheet1")).toEqual([]);
  });

  it("follow after rows were put in above on the one that is read", async () => {
    await new GridFaults({ host, runtime, workbook }).unprotected("Beam");
    workbook.getSheetByName("Beam")!.insertRows(1, 2);
    await host.enter({ sheet: "Beam", row: 4, column: 2 }, 0.5);
    expect(await value("Region", 10, 2)).toBeCloseTo(2 * friction(0.5), 9);
    await host.enter({ sheet: "Beam", row: 4, column: 2 }, 0.3);
    expect(await value("Camber", 10, 2)).toBeCloseTo(2 * friction(0.3) + 0.3, 9);
  });

  it("follow an entry that is taken back, and one that comes while the grid still computes", async () => {
    await enter("Beam", 0.3);
    const injector = runtime.univer.__getInjector();
    injector.get(runtime.core.IUniverInstanceService).focusUnit(workbookId);
    expect(await injector.get(runtime.core.ICommandService).executeCommand(runtime.core.UndoCommand.id)).toBe(true);
    await enter("Camber", 0.25);
    await follows("Beam", 0.2);
    const input = workbook.getSheetByName("Beam")!.getRange(2, 2, 1, 1);
    for (const [entry, pause] of [
      [7, 0],
      [0.3, 110],
      [8, 250],
      [0.45, 5],
    ] as const) {
      input.setValue(entry);
      await new Promise((resolve) => setTimeout(resolve, pause));
    }
    await expect.poll(() => value("Camber", 10, 2), { timeout: 8000 }).toBeCloseTo(2 * friction(0.45) + 0.45, 9);
    await host.recalculate();
    await follows("Beam", 0.45);
  });

  it("are such sheets when they come from a file", async () => {
    await enter("Beam", 0.3);
    await host.open(await host.contents());
    await host.recalculate();
    handed.length = 0;
    await enter("Beam", 0.4);
    await follows("Beam", 0.4);
    expect(handed.flat().filter((name) => name !== "Sheet1")).toEqual([]);
  });
});
