import { afterEach, beforeEach, expect, it } from "vitest";
import { calculated, isComputing } from "../../src/hosts/grid/calculated.ts";
import { nodeGrid } from "../../src/hosts/grid/node.ts";

let host: ReturnType<typeof nodeGrid>["host"];
let runtime: ReturnType<typeof nodeGrid>["runtime"];
let workbook: ReturnType<typeof nodeGrid>["workbook"];
beforeEach(() => {
  ({ host, runtime, workbook } = nodeGrid());
});
afterEach(() => host.dispose());

const pause = (milliseconds: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, milliseconds));

// The expected values are twice what is typed.
it("what follows from an entry is in what is saved, however shortly before it was typed", async () => {
  await host.insert("Sheet1", [
    { row: 0, column: 0, value: 1 },
    { row: 0, column: 1, formula: "=A1*2" },
  ]);
  for (const [i, between] of [0, 20, 90, 110, 140, 160, 400].entries()) {
    workbook
      .getActiveSheet()
      .getRange(0, 0, 1, 1)
      .setValue(10 + i);
    await pause(between);
    const { sheets } = await host.contents();
    expect(sheets[0]!.cells.find(({ row, column }) => row === 0 && column === 1)?.value).toBe(2 * (10 + i));
  }
});

it("nobody waits for the grid where nothing is to be computed", async () => {
  await host.insert("Sheet1", [{ row: 0, column: 0, formula: "=1+1" }]);
  for (const end = Date.now() + 20_000; isComputing(runtime) && Date.now() < end;) await pause(20);
  const first = await Promise.race([
    calculated(runtime).then(() => "at once"),
    new Promise((resolve) => setImmediate(() => resolve("later"))),
  ]);
  expect(first).toBe("at once");
});
