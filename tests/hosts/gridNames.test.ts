import { afterEach, beforeEach, describe, expect, it } from "vitest";
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
async function undo(): Promise<void> {
  const { core, univer } = grid.runtime;
  const injector = univer.__getInjector();
  injector.get(core.IUniverInstanceService).focusUnit(workbookId);
  if (!(await injector.get(core.ICommandService).executeCommand(core.UndoCommand.id)))
    throw new Error("there was nothing to undo");
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

describe("computing anew", () => {
  it("mends a value that stands wrong", async () => {
    const cell = () => grid.workbook.getSheetByName("Beam")!.getSheet().getCellRaw(6, 2)!;
    const right = cell().v;
    cell().v = 999;
    await grid.host.recalculate();
    expect(cell().v).toBe(right);
  });
});
