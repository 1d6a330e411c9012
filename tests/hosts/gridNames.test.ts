import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { nodeGrid, type NodeGrid } from "../../src/hosts/grid/node.ts";
import { workbookId } from "../../src/hosts/grid/runtime.ts";
import type { Plan } from "../../src/sheet/index.ts";
import { GridFaults } from "../checker/gridFaults.ts";
import { smallPlan } from "./smallPlan.ts";

/** With a formula of the user's kind, that speaks of a name. */
const plan: Plan = {
  ...smallPlan,
  cells: [...smallPlan.cells, { row: 10, column: 2, formula: "=kb_mu*10", role: "value" }],
};
let grid: NodeGrid;
let faults: GridFaults;
beforeEach(async () => {
  grid = nodeGrid();
  faults = new GridFaults(grid);
  await build("Beam");
});
afterEach(() => grid.host.dispose());

const build = (sheetName: string) => grid.host.apply(plan, { sheetName, progress: () => undefined });
const byName = async (sheet: string) =>
  (await grid.host.read(sheet, { row: 10, column: 2, rows: 1, columns: 1 }))[0]![0]!;
const namesOf = (sheet: string) => plan.names.map(({ name, ...area }) => ({ name, area: { sheet, ...area } }));

/** One step back, as the user takes it. */
const undo = (): Promise<void> => step(grid.runtime.core.UndoCommand.id);
const redo = (): Promise<void> => step(grid.runtime.core.RedoCommand.id);

async function step(command: string): Promise<void> {
  const { core, univer } = grid.runtime;
  const injector = univer.__getInjector();
  injector.get(core.IUniverInstanceService).focusUnit(workbookId);
  if (!(await injector.get(core.ICommandService).executeCommand(command)))
    throw new Error("there was nothing to undo or to do again");
  await grid.host.recalculate();
}

describe("a sheet's names", () => {
  it("stay its own when it is renamed", async () => {
    await faults.rename("Beam", "My girder");
    expect(await grid.host.namesOn("My girder")).toEqual(namesOf("My girder"));
    expect(await grid.host.resolveName("kb_mu", "My girder")).toBe("'My girder'!$C$3");
    expect((await byName("My girder")).value).toBe(2);
  });

  it("are copied with the sheet; neither sheet's stands for the other's cells", async () => {
    const copy = await faults.duplicate("Beam");
    expect(await grid.host.namesOn(copy)).toEqual(namesOf(copy));
    expect(await grid.host.namesOn("Beam")).toEqual(namesOf("Beam"));
    expect(await grid.host.resolveName("kb_mu", copy)).toBe(`'${copy}'!$C$3`);
    expect(await grid.host.resolveName("kb_mu", "Beam")).toBe("Beam!$C$3");
  });

  it.each([
    ["copied", () => faults.duplicate("Beam")],
    ["built", async () => (await build("Beam 2")).sheet],
  ])(
    "give no value at all while a second sheet, %s, has them too, also in formulas that stood there before",
    async (_how, second) => {
      expect((await byName("Beam")).value).toBe(2);
      const other = await second();
      for (const sheet of ["Beam", other]) {
        expect(await byName(sheet)).toMatchObject({ value: null, error: { code: "#NAME?" } });
        expect((await grid.host.evaluate("=kb_mu*10", sheet))[0]![0]!.error?.code).toBe("#NAME?");
      }
      await grid.host.enterAll("Beam", [{ row: 2, column: 2, value: 0.4 }]);
      await faults.remove(other);
      expect((await byName("Beam")).value).toBe(4);
    },
  );

  it("go with the sheet, and come back when that is undone", async () => {
    const copy = await faults.duplicate("Beam");
    await faults.remove("Beam");
    expect(await grid.host.resolveName("kb_mu", "Sheet1")).toBeUndefined();
    expect(await grid.host.resolveName("kb_mu", copy)).toBe(`'${copy}'!$C$3`);
    await undo();
    expect(await grid.host.sheetNames()).toContain("Beam");
    expect(await grid.host.namesOn("Beam")).toEqual(namesOf("Beam"));
  });

  it("of a copy go when the copy is undone", async () => {
    const copy = await faults.duplicate("Beam");
    await undo();
    expect(await grid.host.sheetNames()).not.toContain(copy);
    expect((await byName("Beam")).value).toBe(2);
  });

  it("lose their cells with the rows that held them", async () => {
    await faults.unprotected("Beam");
    await faults.deleteRows("Beam", 2, 1);
    expect((await grid.host.namesOn("Beam")).find(({ name }) => name === "kb_mu")).toEqual({ name: "kb_mu" });
  });
});

describe("a sheet's protection", () => {
  const guarded = { sheet: "Beam", row: 4, column: 2 };
  /** Once the grid has set again what a rule forbids. */
  const entry = (sheet: string) =>
    vi.waitFor(() => expect(grid.host.enter({ ...guarded, sheet }, 7)).rejects.toThrow(/protected/));

  it("comes back with a deleted sheet when that is undone, and with a copy when that is done again", async () => {
    await faults.remove("Beam");
    await undo();
    await entry("Beam");
    const copy = await faults.duplicate("Beam");
    await undo();
    expect(await grid.host.sheetNames()).not.toContain(copy);
    await redo();
    await entry(copy);
    await entry("Beam");
  });

  it("is missed aloud where a copy could not be protected", async () => {
    const told: string[] = [];
    grid.host.onTrouble((text) => told.push(text));
    const permission = grid.workbook.getSheetByName("Beam")!.getWorksheetPermission();
    vi.spyOn(Object.getPrototypeOf(permission), "protectRanges").mockRejectedValueOnce(new Error("no room"));
    const copy = await faults.duplicate("Beam");
    await vi.waitFor(() => expect(told).toHaveLength(1));
    expect(told[0]).toBe(
      `“${copy}” could not be protected (no room): its formulas can be typed over. Delete the sheet.`,
    );
  });
});

describe("computing anew", () => {
  it("mends a value that stands wrong", async () => {
    const cell = () => grid.workbook.getSheetByName("Beam")!.getSheet().getCellRaw(6, 2)!;
    const right = cell().v;
    cell().v = 999;
    await grid.host.recalculate();
    expect(cell().v).toBe(right);
  });
});
