import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { nodeGrid } from "../../src/hosts/grid/node.ts";
import { expand, faultOfSheetName } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { inputValues, typedExample } from "../../taskpane/build/fields.ts";
import { workbookId } from "../../src/hosts/grid/runtime.ts";
import { GridFaults } from "../checker/gridFaults.ts";
import { smallPlan } from "./smallPlan.ts";

type Opened = ReturnType<typeof nodeGrid>;
let host: Opened["host"];
let runtime: Opened["runtime"];
let workbook: Opened["workbook"];
beforeEach(() => {
  ({ host, runtime, workbook } = nodeGrid());
});
afterEach(() => host.dispose());

const build = (sheetName: string) => host.apply(smallPlan, { sheetName, progress: () => undefined });
const cell = async (sheet: string, row: number, column: number) =>
  (await host.read(sheet, { row, column, rows: 1, columns: 1 }))[0]![0]!;
const value = async (sheet: string, row: number, column: number) => (await cell(sheet, row, column)).value;
/** The plain exponential of friction, written out. */
const friction = (mu: number) => 1395 * Math.exp(-(mu * 0.3 + 0.003 * 12));

describe("built sheets that read only themselves", () => {
  it("follow their own entries, and a sheet that reads them follows too", async () => {
    await build("Beam");
    await build("Beam 2");
    await host.insert("Sheet1", [{ row: 0, column: 0, formula: "='Beam 2'!C5+Beam!C5" }]);
    await host.enter({ sheet: "Beam 2", row: 2, column: 2 }, 0.5);
    expect(await value("Beam 2", 4, 2)).toBeCloseTo(friction(0.5), 10);
    expect(await value("Beam", 4, 2)).toBeCloseTo(friction(0.2), 10);
    expect(await value("Sheet1", 0, 0)).toBeCloseTo(friction(0.5) + friction(0.2), 9);
  });

  it("follow another sheet once a formula typed there reads it, directly and by way of a third", async () => {
    await build("Beam");
    await build("Beam 2");
    await host.enter({ sheet: "Sheet1", row: 0, column: 0 }, 0.3);
    await host.enter({ sheet: "Beam 2", row: 2, column: 2 }, "=Sheet1!A1");
    await host.enter({ sheet: "Beam", row: 2, column: 2 }, "='Beam 2'!C3/2");
    await host.enter({ sheet: "Sheet1", row: 0, column: 0 }, 0.4);
    expect(await value("Beam 2", 4, 2)).toBeCloseTo(friction(0.4), 10);
    expect(await value("Beam", 4, 2)).toBeCloseTo(friction(0.2), 10);
    await host.enter({ sheet: "Sheet1", row: 0, column: 0 }, 0.5);
    expect(await value("Beam", 4, 2)).toBeCloseTo(friction(0.25), 10);
  });

  it("are computed with everything else when the workbook is", async () => {
    await build("Beam");
    await build("Beam 2");
    await host.recalculate();
    expect(await value("Beam", 4, 2)).toBeCloseTo(friction(0.2), 10);
    expect(await value("Beam 2", 4, 2)).toBeCloseTo(friction(0.2), 10);
  });

  it("go with their formulas where a sheet is copied", async () => {
    await build("Beam");
    workbook.duplicateSheet(workbook.getSheetByName("Beam")!);
    const copy = (await host.sheetNames()).find((name) => name.startsWith("Beam") && name !== "Beam")!;
    await host.enter({ sheet: copy, row: 2, column: 2 }, 0.5);
    expect(await value(copy, 4, 2)).toBeCloseTo(friction(0.5), 10);
    expect(await value("Beam", 4, 2)).toBeCloseTo(friction(0.2), 10);
  });

  it("are copied with their values, under a name that programs take, and the copy is such a sheet without a calculation", async () => {
    const long = "A beam with a name of 31 letters";
    await build(long.slice(0, 31));
    await host.enter({ sheet: long.slice(0, 31), row: 2, column: 2 }, 0.25);
    const calculations: string[][] = [];
    const listening = runtime.api.getFormula().calculationStart(() => calculations.push([...handed()]));
    workbook.duplicateSheet(workbook.getSheetByName(long.slice(0, 31))!);
    const copy = (await host.sheetNames()).at(-1)!;
    expect(faultOfSheetName(copy)).toBeUndefined();
    expect(await value(copy, 4, 2)).toBeCloseTo(friction(0.25), 10);
    await new Promise((resolve) => setTimeout(resolve, 400));
    await host.enter({ sheet: copy, row: 2, column: 2 }, 0.5);
    listening.dispose();
    expect(await value(copy, 4, 2)).toBeCloseTo(friction(0.5), 10);
    expect(await value(long.slice(0, 31), 4, 2)).toBeCloseTo(friction(0.25), 10);
    // The grid itself computes neither.
    expect(calculations.flat()).not.toContain(idOf(copy));
    await host.recalculate();
    expect(await value(copy, 4, 2)).toBeCloseTo(friction(0.5), 10);
  });

  it("are computed by the grid as a copy for whose name a formula waits", async () => {
    await build("Beam");
    await host.insert("Sheet1", [{ row: 0, column: 0, formula: "='Beam (Copy)'!C5*2" }]);
    workbook.duplicateSheet(workbook.getSheetByName("Beam")!);
    expect(await host.sheetNames()).toContain("Beam (Copy)");
    await expect.poll(() => value("Sheet1", 0, 0), { timeout: 8000 }).toBeCloseTo(2 * friction(0.2), 9);
  });

  const handed = (): readonly string[] => {
    const current = runtime.univer.__getInjector().get(runtime.formula.IFormulaCurrentConfigService);
    return Object.keys(current.getFormulaData()[workbookId] ?? {});
  };
  const idOf = (name: string) => workbook.getSheetByName(name)!.getSheetId();

  it("are computed here, and by the grid only where a formula gives an error", async () => {
    await build("Beam");
    await build("Beam 2");
    await host.enter({ sheet: "Beam", row: 2, column: 2 }, 0.25);
    expect(await value("Beam", 4, 2)).toBeCloseTo(friction(0.25), 10);
    expect(handed()).not.toContain(idOf("Beam 2"));

    const calculations: string[][] = [];
    const listening = runtime.api.getFormula().calculationStart(() => calculations.push([...handed()]));
    await host.enter({ sheet: "Beam", row: 2, column: 2 }, 0.3);
    expect(calculations.flat()).not.toContain(idOf("Beam"));
    await host.enter({ sheet: "Beam", row: 2, column: 2 }, 7);
    listening.dispose();
    expect((await cell("Beam", 4, 2)).error!.message).toContain("7");
    expect(await value("Beam 2", 4, 2)).toBeCloseTo(friction(0.2), 10);

    await host.enter({ sheet: "Beam", row: 2, column: 2 }, 0.4);
    expect(await value("Beam", 4, 2)).toBeCloseTo(friction(0.4), 10);
    expect(await value("Beam", 5, 2)).toBe(friction(0.4) > 1200 ? "OK" : "FAIL");
    expect(await value("Beam", 6, 2)).toBeCloseTo(2 * friction(0.4), 9);
  });

  it("follow several cells at once, a cell cleared, and an entry taken back", async () => {
    await build("Beam");
    await host.enterAll("Beam", [
      { row: 2, column: 2, value: 0.4 },
      { row: 3, column: 0, value: "text" },
    ]);
    expect(await value("Beam", 4, 2)).toBeCloseTo(friction(0.4), 10);
    const injector = runtime.univer.__getInjector();
    injector.get(runtime.core.IUniverInstanceService).focusUnit(workbookId);
    expect(await injector.get(runtime.core.ICommandService).executeCommand(runtime.core.UndoCommand.id)).toBe(true);
    await host.enter({ sheet: "Sheet1", row: 0, column: 0 }, 1);
    expect(await value("Beam", 4, 2)).toBeCloseTo(friction(0.2), 10);
    await host.enter({ sheet: "Beam", row: 2, column: 2 }, null);
    expect((await cell("Beam", 4, 2)).error!.message).toContain("missing");
  });

  it("follow entries after rows were put in above", async () => {
    await build("Beam");
    await host.enter({ sheet: "Beam", row: 2, column: 2 }, 0.25);
    await new GridFaults({ host, runtime, workbook }).unprotected("Beam");
    workbook.getSheetByName("Beam")!.insertRows(1, 2);
    await host.enter({ sheet: "Beam", row: 4, column: 2 }, 0.5);
    expect(await value("Beam", 6, 2)).toBeCloseTo(friction(0.5), 10);
  });
});

describe("entries on a built sheet, whatever people do in between", () => {
  const mu = { sheet: "Beam", row: 2, column: 2 };
  const command = async (id: string, params: object) => {
    const injector = runtime.univer.__getInjector();
    injector.get(runtime.core.IUniverInstanceService).focusUnit(workbookId);
    return injector.get(runtime.core.ICommandService).executeCommand(id, params);
  };
  const settled = async (sheet: string, row: number, column: number, expected: number) => {
    await expect.poll(() => value(sheet, row, column), { timeout: 8000 }).toBeCloseTo(expected, 9);
    // Nor does it change once more.
    await host.recalculate();
    expect(await value(sheet, row, column)).toBeCloseTo(expected, 9);
  };

  it("are followed after the sheet was renamed, and so are entries elsewhere", async () => {
    await build("Beam");
    await host.enter(mu, 0.25);
    workbook.getSheetByName("Beam")!.setName("Girder");
    await host.enter({ ...mu, sheet: "Girder" }, 0.5);
    expect(await value("Girder", 4, 2)).toBeCloseTo(friction(0.5), 10);
    await host.enter({ sheet: "Sheet1", row: 0, column: 0 }, 2);
    await host.enter({ sheet: "Sheet1", row: 0, column: 1 }, "=Sheet1!A1*Girder!C5");
    expect(await value("Sheet1", 0, 1)).toBeCloseTo(2 * friction(0.5), 9);
  });

  it("may be formulas that read locked cells", async () => {
    await build("Beam");
    await host.enter({ sheet: "Beam", row: 3, column: 0 }, "=C5*3");
    expect(await value("Beam", 3, 0)).toBeCloseTo(3 * friction(0.2), 9);
    await host.enter({ sheet: "Sheet1", row: 0, column: 0 }, "=Beam!C7");
    expect(await value("Sheet1", 0, 0)).toBeCloseTo(2 * friction(0.2), 9);
  });

  it("are followed after a cell was moved over an input", async () => {
    await build("Beam");
    await new GridFaults({ host, runtime, workbook }).unprotected("Beam");
    await host.enter({ sheet: "Beam", row: 3, column: 0 }, 0.5);
    const at = (row: number, column: number) => ({
      startRow: row,
      endRow: row,
      startColumn: column,
      endColumn: column,
    });
    workbook.setActiveSheet(workbook.getSheetByName("Beam")!);
    expect(await command("sheet.command.move-range", { fromRange: at(3, 0), toRange: at(2, 2) })).toBe(true);
    await expect.poll(() => value("Beam", 4, 2), { timeout: 8000 }).toBeCloseTo(friction(0.5), 10);
    await host.enter(mu, 0.4);
    await settled("Beam", 4, 2, friction(0.4));
  });

  it("are followed when they come while the grid still computes what was wrong", async () => {
    await build("Beam");
    await host.enter(mu, 0.25);
    const input = workbook.getSheetByName("Beam")!.getRange(2, 2, 1, 1);
    for (const [entry, pause] of [
      [7, 0],
      [0.3, 0],
      [8, 110],
      [0.35, 110],
      [9, 250],
      [0.45, 5],
    ] as const) {
      input.setValue(entry);
      await new Promise((resolve) => setTimeout(resolve, pause));
    }
    await settled("Beam", 4, 2, friction(0.45));
  });

  it("are followed where the grid computes for long and is interrupted", async () => {
    await build("Beam");
    await host.enter(mu, 0.25);
    const input = workbook.getSheetByName("Beam")!.getRange(2, 2, 1, 1);
    const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
    const generator = runtime.univer.__getInjector().get(runtime.formula.IFormulaDependencyGenerator);
    const generate = generator.generate.bind(generator);
    let long = 0;
    vi.spyOn(generator, "generate").mockImplementation(async (...given) => {
      const trees = await generate(...given);
      if (trees.length > 0) {
        long++;
        await pause(600);
      }
      return trees;
    });
    vi.stubGlobal("requestIdleCallback", (act: () => void) => setTimeout(act, 150));
    try {
      input.setValue(7);
      await pause(650);
      input.setValue(0.3);
      await pause(400);
      input.setValue(0.45);
      await settled("Beam", 4, 2, friction(0.45));
    } finally {
      vi.restoreAllMocks();
      vi.unstubAllGlobals();
    }
    expect(long).toBeGreaterThan(0);
  });

  it("count with the number in rich text", async () => {
    await build("Beam");
    await host.enter(mu, 0.25);
    const dataStream = "0.5\r\n";
    const body = { dataStream, textRuns: [{ st: 0, ed: 3, ts: { bl: 1 } }], paragraphs: [{ startIndex: 3 }] };
    const rich = { id: "rich", documentStyle: {}, body: { ...body, sectionBreaks: [{ startIndex: 4 }] } };
    const sheet = workbook.getSheetByName("Beam")!;
    expect(
      await command("sheet.command.set-range-values", {
        unitId: workbookId,
        subUnitId: sheet.getSheetId(),
        range: { startRow: 2, endRow: 2, startColumn: 2, endColumn: 2 },
        value: { p: rich, v: null, f: null, si: null },
      }),
    ).toBe(true);
    expect(String((await cell("Beam", 2, 2)).value)).toBe("0.5");
    await settled("Beam", 4, 2, friction(0.5));
  });

  it("give the message of the present error, not of one that stood in the cell before", async () => {
    const friction = (mu: string, stress: string) => `=KERN.FRICTION_STRESS(0.3,${mu},0.003,"1/m",${stress},12)`;
    const cells = [
      { row: 3, column: 3, value: 0.1, role: "input" as const },
      { row: 10, column: 2, formula: friction("D4", "C5"), role: "value" as const },
    ];
    const plan = { ...smallPlan, cells: [...smallPlan.cells, ...cells] };
    const unlocked = [...smallPlan.unlocked, { row: 3, column: 3, rows: 1, columns: 1 }];
    await host.apply({ ...plan, unlocked }, { sheetName: "Beam", progress: () => undefined });
    await host.enter({ sheet: "Beam", row: 3, column: 3 }, 7);
    expect((await cell("Beam", 10, 2)).error!.message).toContain("7");
    await host.enter({ sheet: "Beam", row: 3, column: 3 }, 0.1);
    await host.enter(mu, 8);
    expect((await cell("Beam", 4, 2)).error!.message).toContain("8");
    expect((await cell("Beam", 10, 2)).error?.message ?? "").not.toContain("7");
  });

  it("are followed once where many come together", async () => {
    await build("Beam");
    await host.enter(mu, 0.25);
    let applied = 0;
    const end = host.onCalculated(() => applied++);
    await host.enterAll("Beam", [
      { row: 2, column: 2, value: 0.4 },
      { row: 3, column: 0, value: "text" },
    ]);
    await new Promise((resolve) => setTimeout(resolve, 300));
    end();
    expect(await value("Beam", 4, 2)).toBeCloseTo(friction(0.4), 10);
    expect(applied).toBe(1);
  });
});

type Cells = Awaited<ReturnType<Opened["host"]["read"]>>;
/** Cells that do not show the same, but for rounding. */
const differing = (here: Cells, there: Cells): string[] =>
  here.flatMap((line, r) =>
    line.flatMap(({ value: a, error }, c) => {
      const b = there[r]![c]!.value;
      const same = typeof a === "number" && typeof b === "number" ? Math.abs(a - b) <= 1e-9 * Math.abs(b) : a === b;
      return same && error?.code === there[r]![c]!.error?.code ? [] : [`${r} ${c}: ${String(a)}, ${String(b)}`];
    }),
  );

it("a whole sheet shows after entries what the grid itself computes", async () => {
  const template = templates.find(({ id }) => id.startsWith("pre-tensioned-is"))!;
  const plan = expand(template, inputValues(template, typedExample(template)));
  await host.apply(plan, { sheetName: "Beam", progress: () => undefined });
  const numbers = plan.validations.filter(({ rule, rows }) => rule.kind === "number" && !rule.whole && rows === 1);
  let entries = 0;
  for (const place of numbers) {
    const was = await value("Beam", place.row, place.column);
    if (typeof was !== "number" || entries === 12) continue;
    entries++;
    await host.enter({ sheet: "Beam", row: place.row, column: place.column }, was * 1.01);
  }
  expect(entries).toBe(12);
  const all = { row: 0, column: 0, rows: plan.rows, columns: plan.columns };
  const here = await host.read("Beam", all);
  await host.recalculate();
  const there = await host.read("Beam", all);
  expect(differing(here, there)).toEqual([]);

  // A copy shows the same at once, still after the grid has computed it, and guards the same cells.
  let computed = false;
  runtime.api.getFormula().calculationEnd(() => (computed = true));
  workbook.duplicateSheet(workbook.getSheetByName("Beam")!);
  const copy = (await host.sheetNames()).at(-1)!;
  expect(differing(await host.read(copy, all), there)).toEqual([]);
  await expect.poll(() => computed, { timeout: 60_000 }).toBe(true);
  expect(differing(await host.read(copy, all), there)).toEqual([]);
  await expect(host.enter({ sheet: copy, row: 0, column: 0 }, 1)).rejects.toThrow("protected");
});
