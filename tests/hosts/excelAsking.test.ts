import { beforeEach, describe, expect, it } from "vitest";
import { compare } from "../../src/checker/index.ts";
import { expand } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
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
const sheet = (name = "Beam") => open.excel.workbook.sheets.find((s) => s.name === name)!;

describe("asking the program", () => {
  it("leaves out names the program makes, and says which lost their cells", async () => {
    await build();
    const area = { row: 0, column: 0, rows: 1, columns: 1 };
    for (const name of ["Print_Area", "Print_Titles", "_FilterDatabase", "_xlnm.Print_Area"])
      sheet().names.set(name.toLowerCase(), { name, area });
    sheet().names.get("kb_mu")!.lost = true;
    expect((await open.host.namesOn("Beam")).map(({ name, area: cells }) => [name, cells?.rows])).toEqual([
      ["kb_mu", undefined],
      ["kb_all", 3],
    ]);
  });

  it("takes a row or column without height or width as hidden", async () => {
    await build();
    sheet().heights.set(4, 0);
    sheet().widths.set(1, 0);
    expect(await open.host.looks("Beam", { row: 3, column: 1, rows: 3, columns: 2 })).toMatchObject({
      hiddenRows: [4],
      hiddenColumns: [1],
    });
  });

  it("reads a long sheet in parts", async () => {
    for (let row = 0; row < 1_200; row++)
      changeCell(sheet("Sheet1"), row, 9, (cell) =>
        Object.assign(cell, { value: row, ...(row === 900 && { color: "#FFFFFF" }) }),
      );
    sheet("Sheet1").hiddenRows.add(1_100);
    expect(await open.host.used("Sheet1")).toEqual({ row: 0, column: 0, rows: 1_200, columns: 10 });
    const looks = await open.host.looks("Sheet1", { row: 0, column: 0, rows: 1_200, columns: 10 });
    expect([looks.formats.length, looks.hiddenRows, looks.sameColour]).toEqual([
      1_200,
      [1_100],
      [{ row: 900, column: 9 }],
    ]);
  });

  it("does not look through whole formatted columns", async () => {
    changeCell(sheet("Sheet1"), 2, 1, (cell) => {
      cell.value = 1;
    });
    changeCell(sheet("Sheet1"), 1_000_000, 1, (cell) => {
      cell.fill = "#eeeeee";
    });
    expect(await open.host.used("Sheet1")).toEqual({ row: 0, column: 0, rows: 3, columns: 2 });
  });

  it("cannot tell who refers to a cell where the program's version cannot", async () => {
    open = openFake({ calculator, api: "1.12" });
    await build();
    expect(await open.host.dependants({ sheet: "Beam", row: 4, column: 2 })).toBeUndefined();
  });

  it("computes everything anew and waits until no cell is unfinished", async () => {
    await build();
    const asked: string[] = [];
    open.excel.watch = (label) => {
      if (label.includes("calculate")) asked.push(label);
    };
    open.excel.busyLooks = 3;
    const before = open.waited();
    await open.host.recalculate();
    expect(asked).toEqual(["Application.calculate(Full)"]);
    expect(open.waited()).toBeGreaterThan(before);
    expect(open.excel.busyLooks).toBe(0);
  });
});

describe("entering", () => {
  const cells = [
    { row: 2, column: 2, value: 0.3 },
    { row: 3, column: 0, formula: "=1+2" },
    { row: 20, column: 0, value: "'12" },
  ] as const;
  /** Unlocked cells that hold a number, a text like a formula, nothing; one that holds an error, one a formula. */
  const filled = async () => {
    open = openFake({ calculator });
    await build();
    for (const row of [20, 21])
      changeCell(sheet(), row, 0, (cell) => {
        cell.locked = false;
      });
    changeCell(sheet(), 21, 0, (cell) => {
      cell.formula = "=C3*3";
    });
  };
  const all = [...cells, { row: 21, column: 0, value: 7 }];

  it("writes each as what it is", async () => {
    await filled();
    await open.host.enterAll("Beam", all);
    expect(cellAt(sheet(), 2, 2)).toMatchObject({ value: 0.3, numberFormat: "0.000" });
    expect(cellAt(sheet(), 3, 0)).toMatchObject({ formula: "=1+2" });
    expect(cellAt(sheet(), 20, 0)).toMatchObject({ value: "'12", formula: undefined });
    expect(cellAt(sheet(), 21, 0)).toMatchObject({ value: 7, formula: undefined });
  });

  it.each([true, false])("leaves nothing half written whatever fails; protected: %s", async (guarded) => {
    const start = async () => {
      await filled();
      if (!guarded) sheet().protection = undefined;
      return { operations: open.excel.operations, requests: open.excel.requests };
    };
    const first = await start();
    await open.host.enterAll("Beam", all);
    const last = { operations: open.excel.operations, requests: open.excel.requests };
    for (const [kind, from, to] of [
      ["operation", first.operations, last.operations],
      ["request", first.requests, last.requests],
      ["answer", first.requests, last.requests],
    ] as const) {
      expect(to).toBeGreaterThan(from);
      for (let at = from + 1; at <= to; at++) {
        await start();
        const before = open.excel.snapshot();
        open.excel.fault = { kind, at };
        await expect(open.host.enterAll("Beam", all), `${kind} ${at}`).rejects.toMatchObject({
          code: "GeneralException",
        });
        expect(open.excel.snapshot(), `${kind} ${at}`).toEqual(before);
      }
    }
  });

  it("says where to look when what stood there cannot be put back", async () => {
    await filled();
    const { requests } = open.excel;
    open.excel.fault = { kind: "request", at: requests + 3, stays: true };
    await expect(open.host.enterAll("Beam", all)).rejects.toThrow(
      /could not be completed .* look at C3 and the other cells/,
    );
  });
});

describe("comparing in the program", () => {
  const template = templates.find(({ id }) => id === "post-tensioned-en1992-2004")!;
  const plan = expand(template, template.example.inputs);
  const found = async () => (await compare(open.host, "Beam"))!.findings;

  it("finds nothing on a sheet as built; then a value typed over a formula, a hidden row, a changed format", async () => {
    await open.host.apply(plan, { sheetName: "Beam", progress: () => undefined });
    expect(await found()).toEqual([]);
    const formulas = plan.cells.filter(({ formula, format }) => formula?.includes("KERN.") && format !== undefined);
    const [typedOver, reformatted] = [formulas[3]!, formulas[10]!];
    changeCell(sheet(), typedOver.row, typedOver.column, (cell) =>
      Object.assign(cell, { value: 1, formula: undefined }),
    );
    changeCell(sheet(), reformatted.row, reformatted.column, (cell) => {
      cell.numberFormat = "0";
    });
    const hidden = formulas.find(({ row }) => row > reformatted.row)!.row;
    sheet().hiddenRows.add(hidden);
    expect((await found()).map(({ kind, at }) => ({ kind, at })).sort((a, b) => a.kind.localeCompare(b.kind))).toEqual([
      { kind: "format changed", at: { row: reformatted.row, column: reformatted.column } },
      { kind: "row hidden", at: { row: hidden, column: 0 } },
      { kind: "typed over", at: { row: typedOver.row, column: typedOver.column } },
    ]);
  });
});
