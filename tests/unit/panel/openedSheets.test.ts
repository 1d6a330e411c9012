/** Which plans are remembered for the sheets of a workbook, where another is opened meanwhile. */
import { afterEach, expect, it } from "vitest";
import { expand, type Plan, type Template } from "../../../src/sheet/index.ts";
import { builtOn, forgetBuilt, rememberBuilt } from "../../../taskpane/built.ts";
import { openedSheets } from "../../../taskpane/workbench/openedSheets.ts";
import { small } from "../office/smallTemplate.ts";

const planOf = (force: number): Plan => expand(small as unknown as Template, { F: force });
const host = {
  selection: () => Promise.resolve(undefined),
  sheetNames: () => Promise.resolve(["Beam"]),
  namesOn: () => Promise.resolve([{ name: "kb_F", row: 0, column: 0, rows: 1, columns: 1 }]),
};
const asPlanned = { rowNow: (row: number) => row, columnNow: (column: number) => column };

afterEach(forgetBuilt);

it("those of the workbook that is open now, not those of the one before under the same names", async () => {
  const [before, now] = [planOf(12), planOf(15)];
  let open = before;
  const waiting: (() => void)[] = [];
  const remember = openedSheets(host, async () => {
    const plan = open;
    await new Promise<void>((resolve) => waiting.push(resolve));
    return { plan, ...asPlanned };
  });
  const turn = () => new Promise((resolve) => setTimeout(resolve));
  const first = remember();
  await turn();
  open = now;
  forgetBuilt();
  const second = remember();
  await turn();
  expect(waiting).toHaveLength(2);
  waiting[1]!();
  await second;
  expect(builtOn("Beam")!.plan).toBe(now);
  forgetBuilt();
  waiting[0]!();
  await first;
  expect(builtOn("Beam")).toBeUndefined();
});

it("the one of a sheet built meanwhile stays", async () => {
  const [read, built] = [planOf(12), planOf(15)];
  const remember = openedSheets(host, () => {
    rememberBuilt(built, "Beam");
    return Promise.resolve({ plan: read, ...asPlanned });
  });
  await remember();
  expect(builtOn("Beam")!.plan).toBe(built);
});

it("none where rows were moved", async () => {
  const moved = { plan: planOf(12), rowNow: (row: number) => row + 1, columnNow: (column: number) => column };
  await openedSheets(host, () => Promise.resolve(moved))();
  expect(builtOn("Beam")).toBeUndefined();
});
