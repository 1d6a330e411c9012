import { beforeEach, describe, expect, it } from "vitest";
import { openExcel, type ApplyOptions, type ExcelHost } from "../../src/hosts/index.ts";
import type { Plan } from "../../src/sheet/index.ts";
import { FakeExcel } from "./excelFake/index.ts";
import { gridCalculator } from "./excelFake/gridCalculator.ts";
import { smallPlan } from "./smallPlan.ts";

const calculator = gridCalculator();
const reported: unknown[] = [];
let excel: FakeExcel;
let host: ExcelHost;
beforeEach(() => {
  reported.length = 0;
  excel = new FakeExcel({ calculator });
  host = openExcel({ run: excel.run, supports: excel.supports, report: (error) => reported.push(error), pause: () => Promise.resolve() });
});
const build = (sheetName = "Beam", options: Partial<ApplyOptions> = {}, plan: Plan = smallPlan) => host.apply(plan, { sheetName, progress: () => undefined, ...options });
const cell = async (row: number, column: number, sheet = "Beam") => (await host.read(sheet, { row, column, rows: 1, columns: 1 }))[0]![0]!;

describe("building", () => {
  it("x", async () => {
    expect(await build()).toEqual({ sheet: "Beam" });
    expect(await cell(4, 2)).toMatchObject({ text: "1267.3" });
  });
});
