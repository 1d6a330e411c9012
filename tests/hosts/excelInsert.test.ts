import { beforeEach, describe, expect, it } from "vitest";
import { CellsNotEmpty, styles } from "../../src/hosts/index.ts";
import { cellAt, changeCell } from "./excelFake/index.ts";
import { memoryCalculator } from "./excelFake/memoryCalculator.ts";
import { openFake, type OpenFake } from "./openFake.ts";
import { smallPlan } from "./smallPlan.ts";

const calculator = memoryCalculator();
let open: OpenFake;
beforeEach(() => {
  open = openFake({ calculator });
});
const build = () => open.host.apply(smallPlan, { sheetName: "Beam", progress: () => undefined });
const cell = async (row: number, column: number, sheet = "Beam") =>
  (await open.host.read(sheet, { row, column, rows: 1, columns: 1 }))[0]![0]!;
const sheet = (name: string) => open.excel.workbook.sheets.find((s) => s.name === name)!;
const put = (name: string, row: number, column: number, value: number | string) =>
  changeCell(sheet(name), row, column, (c) => {
    c.value = value;
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

  it.each([
    ["a value", () => put("Sheet1", 2, 2, 0)],
    [
      "a formula without a value",
      () =>
        changeCell(sheet("Sheet1"), 2, 2, (c) => {
          c.formula = '=""';
        }),
    ],
  ])("refuses where one cell holds %s, and writes nothing", async (_what, fill) => {
    fill();
    const before = open.excel.snapshot();
    await expect(open.host.insert("Sheet1", cells)).rejects.toThrow(CellsNotEmpty);
    await expect(open.host.insert("Sheet1", cells)).rejects.toThrow(/The cell C3 of “Sheet1” is not empty/);
    expect(open.excel.snapshot()).toEqual(before);
  });

  it("says that a cell or the sheet is protected, and writes nothing", async () => {
    await build();
    const before = open.excel.snapshot();
    await expect(open.host.insert("Beam", [{ row: 20, column: 0, value: 1 }])).rejects.toThrow(
      /A21 of “Beam” is protected/,
    );
    changeCell(sheet("Beam"), 20, 0, (c) => {
      c.locked = false;
    });
    await expect(open.host.insert("Beam", [{ row: 20, column: 0, value: 1, role: "value" }])).rejects.toThrow(
      /cannot be given a look/,
    );
    await open.host.insert("Beam", [{ row: 20, column: 0, value: 1 }]);
    expect((await cell(20, 0)).value).toBe(1);
    changeCell(sheet("Beam"), 20, 0, (c) => {
      c.value = "";
      c.locked = true;
    });
    expect(open.excel.snapshot()).toEqual(before);
  });

  it("puts contents and look back whatever fails", async () => {
    const look = (): void =>
      changeCell(sheet("Sheet1"), 1, 2, (c) =>
        Object.assign(c, {
          fill: "#ffee00",
          bold: true,
          numberFormat: "0",
          horizontalAlignment: "Center",
          borders: { EdgeTop: { style: "Dot", weight: "Thin", color: "#123456" } },
        }),
      );
    look();
    await open.host.insert("Sheet1", cells);
    const { operations, requests } = open.excel;
    for (const [kind, count] of [
      ["operation", operations],
      ["request", requests],
      ["answer", requests],
    ] as const) {
      for (let at = 1; at <= count; at++) {
        open = openFake({ calculator });
        look();
        const before = open.excel.snapshot();
        open.excel.fault = { kind, at };
        await expect(open.host.insert("Sheet1", cells), `${kind} ${at}`).rejects.toMatchObject({
          code: "GeneralException",
        });
        expect(open.excel.snapshot(), `${kind} ${at}`).toEqual(before);
      }
    }
  });
});
