import { beforeEach, describe, expect, it, vi } from "vitest";
import { CellsNotEmpty, FunctionsNotRegistered, styles, type ApplyOptions, type Selection } from "../../src/hosts/index.ts";
import type { Plan } from "../../src/sheet/index.ts";
import { cellAt, changeCell, OfficeError } from "./excelFake/index.ts";
import { gridCalculator } from "./excelFake/gridCalculator.ts";
import { openFake, type OpenFake } from "./openFake.ts";
import { smallPlan } from "./smallPlan.ts";

const calculator = gridCalculator();
let open: OpenFake;
beforeEach(() => {
  open = openFake({ calculator });
});
const build = (sheetName = "Beam", options: Partial<ApplyOptions> = {}, plan: Plan = smallPlan) => open.host.apply(plan, { sheetName, progress: () => undefined, ...options });
const cell = async (row: number, column: number, sheet = "Beam") => (await open.host.read(sheet, { row, column, rows: 1, columns: 1 }))[0]![0]!;
const one = async (formula: string, sheet = "Beam") => (await open.host.evaluate(formula, sheet))[0]![0]!;
/** The plain exponential of friction, written out. */
const friction = (mu: number) => 1395 * Math.exp(-(mu * 0.3 + 0.003 * 12));
const sheet = (name: string) => open.excel.workbook.sheets.find((s) => s.name === name)!;
const put = (name: string, row: number, column: number, value: number | string) => changeCell(sheet(name), row, column, (c) => { c.value = value; });

describe("building", () => {
  it("resolves when everything is computed, and gives values at full precision", async () => {
    expect(await build()).toEqual({ sheet: "Beam" });
    const result = await cell(4, 2);
    expect(result.value).toBeCloseTo(friction(0.2), 10);
    expect(result.formula).toBe("=KERN.FRICTION_STRESS(1395,C3,0.3,0.003,12)");
    expect(result.text).toBe("1267.3");
    expect((await cell(5, 2)).value).toBe("OK");
    expect((await cell(8, 2)).error).toEqual({ code: "#VALUE!" });
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
    sheet("Sheet1").selected = [{ row: 1, column: 2, rows: 3, columns: 4 }, { row: 9, column: 0, rows: 1, columns: 1 }];
    expect(await open.host.selection()).toEqual({ sheet: "Sheet1", row: 1, column: 2, rows: 3, columns: 4 });
    open.excel.workbook.drawingSelected = true;
    expect(await open.host.selection()).toBeUndefined();
  });

  it("refuses a sheet that does not exist, its id too", async () => {
    await expect(open.host.select({ sheet: "None", row: 0, column: 0 })).rejects.toThrow("“None”");
    await expect(cell(0, 0, "{1}")).rejects.toThrow("“{1}”");
  });

  it("reports what goes wrong in an event and in subscribing", async () => {
    const end = open.host.onSelection(() => { throw new Error("the panel fell over"); });
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
    changeCell(sheet("Sheet1"), 5, 5, (c) => { c.formula = "=KERN.VERSION()"; });
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

describe("evaluating", () => {
  it("reads references and names as a cell of that sheet, and touches nothing", async () => {
    await build();
    const before = open.excel.snapshot();
    expect(await one("C5/2")).toMatchObject({ value: expect.closeTo(friction(0.2) / 2, 10) as number, formula: "=C5/2" });
    expect((await one("=kb_mu*10")).value).toBe(2);
    expect((await one("SUM(C5:C5,Beam!C3)")).value).toBeCloseTo(friction(0.2) + 0.2, 10);
    expect(open.excel.snapshot()).toEqual(before);
  });

  it("gives what fills several cells as rows, where the program can", async () => {
    expect((await open.host.evaluate("SEQUENCE(2,2)", "Sheet1")).map((row) => row.map(({ value }) => value))).toEqual([[1, 2], [3, 4]]);
    open = openFake({ calculator, api: "1.9" });
    expect((await open.host.evaluate("SEQUENCE(2,2)", "Sheet1")).map((row) => row.map(({ value }) => value))).toEqual([[1]]);
  });

  it("gives errors, of formulas that cannot be read too", async () => {
    const before = open.excel.snapshot();
    expect((await one("1/0", "Sheet1")).error).toEqual({ code: "#DIV/0!" });
    expect((await one("SUM(1,", "Sheet1")).error).toMatchObject({ code: "#ERROR!", message: expect.stringContaining("cannot be read") as string });
    await expect(one("1+1", "None")).rejects.toThrow("“None”");
    expect(open.excel.snapshot()).toEqual(before);
  });

  it("removes its hidden sheet whatever fails", async () => {
    const before = open.excel.snapshot();
    await one("1+1", "Sheet1");
    const { operations, requests } = open.excel;
    for (const [kind, count] of [["operation", operations], ["request", requests], ["answer", requests]] as const) {
      for (let at = 1; at <= count; at++) {
        open = openFake({ calculator });
        open.excel.fault = { kind, at };
        // A fault while the hidden sheet is removed does not take the value away: it is reported, and the removal tried again.
        const errors = await one("1+1", "Sheet1").then(({ value }) => (expect(value).toBe(2), open.reported), (error: unknown) => [error]);
        expect(errors, `${kind} ${at}`).toEqual([expect.objectContaining({ code: "GeneralException" })]);
        expect(open.excel.snapshot(), `${kind} ${at}`).toEqual(before);
      }
    }
  });

  it("says where its hidden sheet could not be removed", async () => {
    open.excel.fault = { kind: "request", at: 5, stays: true };
    await expect(one("1+1", "Sheet1")).rejects.toThrow(/injected fault/);
  });
});

describe("inserting", () => {
  const cells = [
    { row: 1, column: 1, value: "=not a formula", role: "description" },
    { row: 1, column: 2, value: 0.2, role: "input", format: "0.000" },
    { row: 2, column: 2, formula: "=C2*2" },
  ] as const;

  it("writes text, number, formula and look", async () => {
    await open.host.insert("Sheet1", cells);
    expect(await cell(1, 1, "Sheet1")).toEqual({ value: "=not a formula", text: "=not a formula" });
    expect(await cell(1, 2, "Sheet1")).toMatchObject({ value: 0.2 });
    expect(await cell(2, 2, "Sheet1")).toMatchObject({ value: 0.4, formula: "=C2*2" });
    expect(cellAt(sheet("Sheet1"), 1, 2)).toMatchObject({ fill: styles.input.background, numberFormat: "0.000" });
  });

  it.each([["a value", () => put("Sheet1", 2, 2, 0)], ["a formula without a value", () => changeCell(sheet("Sheet1"), 2, 2, (c) => { c.formula = '=""'; })]])("refuses where one cell holds %s, and writes nothing", async (_what, fill) => {
    fill();
    const before = open.excel.snapshot();
    await expect(open.host.insert("Sheet1", cells)).rejects.toThrow(CellsNotEmpty);
    await expect(open.host.insert("Sheet1", cells)).rejects.toThrow(/The cell C3 of “Sheet1” is not empty/);
    expect(open.excel.snapshot()).toEqual(before);
  });

  it("says that a cell or the sheet is protected, and writes nothing", async () => {
    await build();
    const before = open.excel.snapshot();
    await expect(open.host.insert("Beam", [{ row: 20, column: 0, value: 1 }])).rejects.toThrow(/A21 of “Beam” is protected/);
    changeCell(sheet("Beam"), 20, 0, (c) => { c.locked = false; });
    await expect(open.host.insert("Beam", [{ row: 20, column: 0, value: 1, role: "value" }])).rejects.toThrow(/cannot be given a look/);
    await open.host.insert("Beam", [{ row: 20, column: 0, value: 1 }]);
    expect((await cell(20, 0)).value).toBe(1);
    changeCell(sheet("Beam"), 20, 0, (c) => { c.value = ""; c.locked = true; });
    expect(open.excel.snapshot()).toEqual(before);
  });

  it("puts contents and look back whatever fails", async () => {
    const look = (): void => changeCell(sheet("Sheet1"), 1, 2, (c) => Object.assign(c, { fill: "#ffee00", bold: true, numberFormat: "0", horizontalAlignment: "Center", borders: { EdgeTop: { style: "Dot", weight: "Thin", color: "#123456" } } }));
    look();
    await open.host.insert("Sheet1", cells);
    const { operations, requests } = open.excel;
    for (const [kind, count] of [["operation", operations], ["request", requests], ["answer", requests]] as const) {
      for (let at = 1; at <= count; at++) {
        open = openFake({ calculator });
        look();
        const before = open.excel.snapshot();
        open.excel.fault = { kind, at };
        await expect(open.host.insert("Sheet1", cells), `${kind} ${at}`).rejects.toMatchObject({ code: "GeneralException" });
        expect(open.excel.snapshot(), `${kind} ${at}`).toEqual(before);
      }
    }
  });
});
