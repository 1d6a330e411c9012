import { beforeEach, describe, expect, it, vi } from "vitest";
import { FunctionsNotRegistered, type ApplyOptions, type Selection } from "../../src/hosts/index.ts";
import type { Plan } from "../../src/sheet/index.ts";
import { changeCell, OfficeError } from "./excelFake/index.ts";
import { memoryCalculator } from "./excelFake/memoryCalculator.ts";
import { openFake, type OpenFake } from "./openFake.ts";
import { smallPlan } from "./smallPlan.ts";

const calculator = memoryCalculator();
let open: OpenFake;
beforeEach(() => {
  open = openFake({ calculator });
});
const build = (sheetName = "Beam", options: Partial<ApplyOptions> = {}, plan: Plan = smallPlan) =>
  open.host.apply(plan, { sheetName, progress: () => undefined, ...options });
const cell = async (row: number, column: number, sheet = "Beam") =>
  (await open.host.read(sheet, { row, column, rows: 1, columns: 1 }))[0]![0]!;
/** The plain exponential of friction, written out. */
const friction = (mu: number) => 1395 * Math.exp(-(mu * 0.3 + 0.003 * 12));
const sheet = (name: string) => open.excel.workbook.sheets.find((s) => s.name === name)!;
const put = (name: string, row: number, column: number, value: number | string) =>
  changeCell(sheet(name), row, column, (c) => {
    c.value = value;
  });

describe("building", () => {
  it("resolves when everything is computed, and gives values at full precision", async () => {
    expect(await build()).toEqual({ sheet: "Beam" });
    const result = await cell(4, 2);
    expect(result.value).toBeCloseTo(friction(0.2), 10);
    expect(result.formula).toBe('=KERN.FRICTION_STRESS(0.3,C3,0.003,"1/m",1395,12)');
    expect(result.text).toBe("1267.3");
    expect((await cell(5, 2)).value).toBe("OK");
    expect((await cell(8, 2)).error).toEqual({ code: "#VALUE!" });
  });

  it("makes the workings an outline where the program has outlines, and goes on where it has none", async () => {
    const groups = [{ row: 5, rows: 4 }];
    await build("Beam", {}, { ...smallPlan, groups });
    expect(sheet("Beam").groups).toEqual(groups);
    open = openFake({ calculator, api: "1.9" });
    await build("Beam", {}, { ...smallPlan, groups });
    expect(sheet("Beam").groups).toEqual([]);
  });

  it("keeps text text, whatever it looks like", async () => {
    await build();
    expect(await cell(3, 0)).toEqual({ value: "=1+1", text: "=1+1" });
    expect(await cell(3, 1)).toEqual({ value: "5.10", text: "5.10" });
    expect(await cell(3, 2)).toEqual({ value: "TRUE", text: "TRUE" });
    expect((await cell(9, 2)).value).toBe(true);
    expect(await cell(7, 2)).toEqual({ value: null, text: "" });
  });

  it("waits for functions that are not yet registered, and for cells still being computed", async () => {
    open.excel.unregisteredLooks = 3;
    open.excel.busyLooks = 5;
    await build();
    expect(open.waited()).toBeGreaterThanOrEqual(8);
    expect((await cell(4, 2)).value).toBeCloseTo(friction(0.2), 10);
  });

  it("says that the functions are not registered, and builds nothing", async () => {
    open.excel.unregisteredLooks = Infinity;
    const before = open.excel.snapshot();
    await expect(build()).rejects.toThrow(FunctionsNotRegistered);
    await expect(build()).rejects.toThrow(/not registered yet/);
    expect(open.excel.snapshot()).toEqual(before);
  });

  it("gives up on a sheet that is never computed, and removes it", async () => {
    open.excel.busyLooks = Infinity;
    const before = open.excel.snapshot();
    await expect(build()).rejects.toThrow(/still being computed after 120 s/);
    expect(open.excel.snapshot()).toEqual(before);
  });

  it("shows the new sheet and leaves the others alone", async () => {
    put("Sheet1", 0, 0, 41);
    const before = structuredClone(sheet("Sheet1"));
    await build();
    expect(sheet("Sheet1")).toEqual(before);
    expect(open.excel.workbook.activeId).toBe(sheet("Beam").id);
  });

  it("tells what it is doing, up to the end", async () => {
    const progress = vi.fn();
    await build("Beam", { progress });
    const done = progress.mock.calls.map(([n]) => n as number);
    expect(done.length).toBeGreaterThan(5);
    expect([...done].sort((a, b) => a - b)).toEqual(done);
    expect(progress.mock.lastCall!.slice(0, 2)).toEqual([smallPlan.cells.length, smallPlan.cells.length]);
  });

  it("refuses a name already taken, with a free one offered", async () => {
    await build();
    await expect(build("BEAM")).rejects.toMatchObject({ name: "SheetNameTaken", free: "BEAM 2" });
    await expect(build("a/b")).rejects.toThrow(/contains \//);
    expect(await open.host.sheetNames()).toEqual(["Sheet1", "Beam"]);
  });

  it("says what stands in the way: a protected workbook, a cell being edited", async () => {
    open.excel.workbook.structureProtected = true;
    await expect(build()).rejects.toThrow(/structure is protected/);
    open.excel.workbook.structureProtected = false;
    open.excel.cellEdit = true;
    await expect(build()).rejects.toThrow(/Finish it with Enter/);
    await expect(open.host.sheetNames()).rejects.toThrow(/Finish it with Enter/);
    open.excel.cellEdit = false;
    expect(await open.host.sheetNames()).toEqual(["Sheet1"]);
  });

  it("builds on a sheet whose name needs quotes, and two sheets with the same names", async () => {
    await build("It's A1");
    await build("Beam 2");
    expect((await cell(4, 2, "It's A1")).value).toBeCloseTo(friction(0.2), 10);
    expect(await open.host.resolveName("KB_MU", "It's A1")).toBe("'It''s A1'!$C$3");
    expect(await open.host.resolveName("kb_all", "Beam 2")).toBe("'Beam 2'!$C$3:$C$5");
  });

  it("does one thing after the other", async () => {
    const built = await Promise.all([build("A"), build("B"), open.host.evaluate("1+1", "Sheet1")]);
    expect(built.slice(0, 2)).toEqual([{ sheet: "A" }, { sheet: "B" }]);
    expect(await open.host.sheetNames()).toEqual(["Sheet1", "A", "B"]);
  });
});

describe("names", () => {
  it("finds the sheet's own first, then the workbook's", async () => {
    await build();
    open.excel.workbook.names.set("kb_mu", "=Sheet1!$A$1").set("density", "=Sheet1!$B$2");
    expect(await open.host.resolveName("kb_mu", "Beam")).toBe("Beam!$C$3");
    expect(await open.host.resolveName("kb_mu", "Sheet1")).toBe("Sheet1!$A$1");
    expect(await open.host.resolveName("Density", "Beam")).toBe("Sheet1!$B$2");
    expect(await open.host.resolveName("none", "Beam")).toBeUndefined();
  });
});

describe("selection", () => {
  it("selects a cell, shows it and tells it, until the subscription ends", async () => {
    await build();
    const told: Selection[] = [];
    const end = open.host.onSelection((selection) => told.push(selection));
    await vi.waitFor(() => expect(open.excel.handlers.selection.size).toBe(1));
    await open.host.select({ sheet: "Beam", row: 4, column: 2 });
    await vi.waitFor(() => expect(told.at(-1)).toEqual({ sheet: "Beam", row: 4, column: 2, rows: 1, columns: 1 }));
    expect(await open.host.selection()).toEqual(told.at(-1));
    end();
    end();
    await vi.waitFor(() => expect(open.excel.handlers.selection.size + open.excel.handlers.activation.size).toBe(0));
    expect(open.reported).toEqual([]);
  });

  it("takes the first of several areas, and nothing where a chart is selected", async () => {
    sheet("Sheet1").selected = [
      { row: 1, column: 2, rows: 3, columns: 4 },
      { row: 9, column: 0, rows: 1, columns: 1 },
    ];
    expect(await open.host.selection()).toEqual({ sheet: "Sheet1", row: 1, column: 2, rows: 3, columns: 4 });
    open.excel.workbook.drawingSelected = true;
    expect(await open.host.selection()).toBeUndefined();
  });

  it("refuses a sheet that does not exist, its id too", async () => {
    await expect(open.host.select({ sheet: "None", row: 0, column: 0 })).rejects.toThrow("“None”");
    await expect(cell(0, 0, "{1}")).rejects.toThrow("“{1}”");
  });

  it("reports what goes wrong in an event and in subscribing", async () => {
    const end = open.host.onSelection(() => {
      throw new Error("the panel fell over");
    });
    await vi.waitFor(() => expect(open.excel.handlers.selection.size).toBe(1));
    await open.host.select({ sheet: "Sheet1", row: 1, column: 1 });
    await vi.waitFor(() => expect(open.reported.map(String)).toContain("Error: the panel fell over"));
    end();
    open.excel.fault = { kind: "request", at: 1, stays: true };
    const endAnother = open.host.onCalculated(() => undefined);
    await vi.waitFor(() => expect(open.reported.some((error) => error instanceof OfficeError)).toBe(true));
    endAnother();
  });
});

describe("calculation", () => {
  it("tells listeners of each, until they unsubscribe", async () => {
    const listener = vi.fn();
    const end = open.host.onCalculated(listener);
    await vi.waitFor(() => expect(open.excel.handlers.calculation.size).toBe(1));
    await open.host.insert("Sheet1", [{ row: 0, column: 0, value: 1 }]);
    await vi.waitFor(() => expect(listener).toHaveBeenCalled());
    end();
    await vi.waitFor(() => expect(open.excel.handlers.calculation.size + open.excel.handlers.entry.size).toBe(0));
  });

  it("are not told where they only follow from an evaluation, so that evaluating after each comes to an end", async () => {
    // A volatile cell of a check sheet is computed with every calculation.
    changeCell(sheet("Sheet1"), 5, 5, (c) => {
      c.formula = "=KERN.VERSION()";
    });
    const settled = () => new Promise((resolve) => setTimeout(resolve, 30));
    let told = 0;
    const end = open.host.onCalculated(() => {
      told++;
      void open.host.evaluate("1+1", "Sheet1");
    });
    await vi.waitFor(() => expect(open.excel.handlers.calculation.size).toBe(1));
    await open.host.evaluate("1+1", "Sheet1");
    await settled();
    expect(told).toBe(0);
    await open.host.insert("Sheet1", [{ row: 0, column: 0, value: 1 }]);
    await vi.waitFor(() => expect(told).toBe(1));
    await open.host.evaluate("1+1", "Sheet1");
    await settled();
    expect(told).toBe(1);
    expect(open.excel.workbook.sheets.map(({ name }) => name)).toEqual(["Sheet1"]);
    end();
  });
});
