import { afterEach, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { smallPlan } from "../hosts/smallPlan.ts";
import type { Faults } from "./faults.ts";
import { gridWithFaults } from "./gridFaults.ts";
import { MemoryFaults } from "./memoryFaults.ts";

let faults: Faults;
let open: () => Faults;
beforeEach(async () => {
  faults = open();
  await faults.host.apply(smallPlan, { sheetName: "Beam", progress: () => undefined });
});
afterEach(() => faults.host.dispose());

const cell = async (row: number, column: number, sheet = "Beam", { host }: Pick<Faults, "host"> = faults) =>
  (await host.read(sheet, { row, column, rows: 1, columns: 1 }))[0]![0]!;
/** The plain exponential of friction, written out. */
const friction = (mu: number) => 1395 * Math.exp(-(mu * 0.3 + 0.003 * 12));

describe.each<readonly [string, () => Faults]>([
  ["on the grid", gridWithFaults],
  ["in memory", () => new MemoryFaults()],
])("what people do to a sheet, %s", (_where, opened) => {
  beforeAll(() => {
    open = opened;
  });

  it("types over what was protected, once that is taken away", async () => {
    await expect(faults.typeOver("Beam", { row: 4, column: 2 }, 1300)).rejects.toThrow(/protected/);
    await faults.unprotected("Beam");
    await faults.typeOver("Beam", { row: 4, column: 2 }, 1300);
    expect(await cell(4, 2)).toEqual({ value: 1300, text: "1300.0" });
    expect((await cell(6, 2)).value).toBe(2600);
    await faults.typeOver("Beam", { row: 4, column: 2 }, "1300");
    expect(await cell(4, 2)).toEqual({ value: "1300", text: "1300" });
    await faults.typeOver("Beam", { row: 4, column: 2 }, { formula: "=600*2" });
    expect(await cell(4, 2)).toMatchObject({ value: 1200, formula: "=600*2" });
    expect(await cell(5, 2)).toMatchObject({ value: "FAIL" });
    await faults.typeOver("Beam", { row: 4, column: 2 }, null);
    expect(await cell(4, 2)).toEqual({ value: null, text: "" });
    expect((await cell(6, 2)).value).toBe(0);
  });

  it("inserts rows: formulas and names move with their cells", async () => {
    await faults.unprotected("Beam");
    await faults.insertRows("Beam", 2, 3);
    expect(await cell(7, 2)).toMatchObject({
      value: friction(0.2),
      formula: '=KERN.FRICTION_STRESS(0.3,C6,0.003,"1/m",1395,12)',
    });
    expect(await cell(9, 2)).toMatchObject({ value: 2 * friction(0.2), formula: "=C8*2" });
    expect(await faults.host.resolveName("kb_mu", "Beam")).toBe("Beam!$C$6");
  });

  it("deletes rows: who referred to them shows it", async () => {
    await faults.unprotected("Beam");
    await faults.deleteRows("Beam", 4, 1);
    expect(await cell(5, 2)).toMatchObject({ formula: "=#REF!*2", error: { code: "#REF!" } });
  });

  it("hides, reformats, colours", async () => {
    await faults.unprotected("Beam");
    faults.hideRow("Beam", 4);
    faults.hideColumn("Beam", 3);
    faults.setFormat("Beam", { row: 6, column: 2 }, "0.000");
    faults.setColour("Beam", { row: 6, column: 2 }, "#FFFFFF");
    const looks = await faults.host.looks("Beam", { row: 0, column: 0, rows: 12, columns: 5 });
    expect(looks).toMatchObject({ hiddenRows: [4], hiddenColumns: [3], sameColour: [{ row: 6, column: 2 }] });
    expect(looks.formats[6]![2]).toBe("0.000");
    expect((await cell(6, 2)).formula).toBe("=C5*2");
  });

  it("renames, copies, removes", async () => {
    await faults.rename("Beam", "Girder");
    expect((await cell(6, 2, "Girder")).value).toBeCloseTo(2 * friction(0.2), 10);
    const copy = await faults.duplicate("Girder");
    expect(await cell(6, 2, copy)).toMatchObject({ value: 2 * friction(0.2), formula: "=C5*2" });
    await faults.remove("Girder");
    expect(await faults.host.sheetNames()).toEqual(["Sheet1", copy]);
  });

  it("carries a sheet into another book", async () => {
    const other = await faults.copyToAnotherBook("Beam", "Beam 2");
    expect(await other.host.sheetNames()).toEqual(["Sheet1", "Beam 2"]);
    for (let row = 0; row < 10; row++)
      for (const column of [0, 1, 2]) {
        const { error, ...rest } = await cell(row, column);
        expect(await cell(row, column, "Beam 2", other)).toMatchObject({
          ...rest,
          ...(error && { error: { code: error.code } }),
        });
      }
    expect(await other.host.namesOn("Beam 2")).toEqual([]);
    other.host.dispose();
  });

  it("makes a name stand for other cells", async () => {
    await faults.changeName("Beam", "kb_mu", { row: 6, column: 2, rows: 1, columns: 1 });
    expect((await faults.host.namesOn("Beam"))[0]).toEqual({
      name: "kb_mu",
      area: { sheet: "Beam", row: 6, column: 2, rows: 1, columns: 1 },
    });
  });
});
