/** Names that people give cells of their own workbooks. What programs make of them is common knowledge, no source. */
import { afterAll, expect, it } from "vitest";
import { nodeGrid } from "../../src/hosts/grid/node.ts";
import { openWorkbook, writeBook } from "../../src/hosts/index.ts";

const { host, workbook } = nodeGrid();
afterAll(() => host.dispose());

const sheet = "Sheet1";
const valueAt = async (row: number) => (await host.read(sheet, { row, column: 0, rows: 1, columns: 1 }))[0]![0]!.value;

/** A workbook in which the name stands for one of two cells. */
async function saved(cell: string): Promise<Uint8Array> {
  const other = nodeGrid();
  other.workbook.insertDefinedName("force", `${sheet}!${cell}`);
  for (const [row, entry] of [3, 40].entries()) await other.host.enter({ sheet, row, column: 0 }, entry);
  await other.host.enter({ sheet, row: 4, column: 0 }, "=force*2");
  const bytes = writeBook(await other.host.contents());
  other.host.dispose();
  return bytes;
}

it("stand for the cells of the workbook that is open, not of one that was open before", async () => {
  for (const [cell, value] of [
    ["$A$1", 6],
    ["$A$2", 80],
    ["$A$1", 6],
  ] as const) {
    await host.open(openWorkbook(await saved(cell)).workbook);
    await host.recalculate();
    expect(await valueAt(4), cell).toBe(value);
  }
  await host.enter({ sheet, row: 0, column: 0 }, 7);
  expect(await valueAt(4)).toBe(14);
});

it.each([
  ["=-force*2", -6],
  ["=EXP(-force*share)", Math.exp(-1.5)],
  ["=2*-force", -6],
  ["=2^-force", 0.125],
  ["=-force^2", 9],
  ["=--force", 3],
  ["=2---force", -1],
  ["=1-force", -2],
  ["=+force", 3],
  ["=-fourfold", -12],
  ["=-(force)", -3],
  ["=ABS(-'Sheet1'!A1)", 3],
])("may have a minus before them: %s", async (formula, value) => {
  await host.open(openWorkbook(await saved("$A$1")).workbook);
  workbook.insertDefinedName("share", "=0.5");
  workbook.insertDefinedName("fourfold", `=${sheet}!$A$1*4`);
  await host.enter({ sheet, row: 5, column: 0 }, formula);
  expect(await valueAt(5)).toBeCloseTo(value, 12);
  await host.enter({ sheet, row: 0, column: 0 }, 5);
  expect(await valueAt(5)).not.toBeCloseTo(value, 3);
});
