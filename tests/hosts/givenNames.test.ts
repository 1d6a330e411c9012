/** Names that people give cells of their own workbooks. What programs make of them is common knowledge, no source. */
import { afterAll, expect, it } from "vitest";
import { nodeGrid } from "../../src/hosts/grid/node.ts";
import { openWorkbook, writeBook } from "../../src/hosts/index.ts";
import { smallPlan } from "./smallPlan.ts";

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

it("functions that a plan brings go when its build is cancelled, and what stood there comes back", async () => {
  const other = nodeGrid();
  const twice = (factor: number) => ({ name: "KERN_TWICE_V1_0_0", formula: `LAMBDA(x,${factor}*x)` });
  const half = { name: "KERN_HALF_V1_0_0", formula: "LAMBDA(x,x/2)" };
  const names = async (): Promise<readonly (readonly [string, string])[]> =>
    (await other.host.contents()).names
      .filter(({ name }) => name.startsWith("KERN_"))
      .map(({ name, reference }) => [name, reference] as const);
  const quiet = { progress: (): void => undefined };
  await other.host.apply({ ...smallPlan, functions: [twice(4)] }, { ...quiet, sheetName: "First" });
  expect(await names()).toEqual([[twice(4).name, twice(4).formula]]);
  const stop = new AbortController();
  const progress = (_done: number, _of: number, what?: string): void => {
    if (what === "protecting formulas") stop.abort();
  };
  const brings = { ...smallPlan, functions: [twice(2), half] };
  await expect(other.host.apply(brings, { sheetName: "Second", progress, signal: stop.signal })).rejects.toMatchObject({
    name: "AbortError",
  });
  expect(await names()).toEqual([[twice(4).name, twice(4).formula]]);
  await other.host.apply(brings, { ...quiet, sheetName: "Second" });
  expect(new Map(await names())).toEqual(new Map([twice(2), half].map(({ name, formula }) => [name, formula])));
  other.host.dispose();
});
