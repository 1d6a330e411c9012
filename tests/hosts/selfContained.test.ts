import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { nodeGrid } from "../../src/hosts/grid/node.ts";
import { workbookId } from "../../src/hosts/grid/runtime.ts";
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
const value = async (sheet: string, row: number, column: number) =>
  (await host.read(sheet, { row, column, rows: 1, columns: 1 }))[0]![0]!.value;
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

  it("hand the grid no formulas while another sheet changes", async () => {
    await build("Beam");
    await build("Beam 2");
    await host.enter({ sheet: "Beam", row: 2, column: 2 }, 0.25);
    const current = runtime.univer.__getInjector().get(runtime.formula.IFormulaCurrentConfigService);
    const handed = Object.keys(current.getFormulaData()[workbookId] ?? {});
    const idOf = (name: string) => workbook.getSheetByName(name)!.getSheetId();
    expect(handed).toContain(idOf("Beam"));
    expect(handed).not.toContain(idOf("Beam 2"));
  });
});
