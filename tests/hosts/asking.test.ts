import { holds } from "../../src/cells/index.ts";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { tones, type ColourRule, type Host } from "../../src/hosts/index.ts";
import type { Plan } from "../../src/sheet/index.ts";
import { GridFaults } from "../checker/gridFaults.ts";
import { nodeGrid } from "../../src/hosts/grid/node.ts";
import type { Faults } from "../checker/faults.ts";
import { MemoryFaults } from "../checker/memoryFaults.ts";
import { changeCell } from "./excelFake/index.ts";
import { memoryCalculator } from "./excelFake/memoryCalculator.ts";
import { openFake } from "./openFake.ts";
import { smallPlan } from "./smallPlan.ts";

/** The small sheet with a formula that shows nothing in its last row, and one over several cells. */
const plan: Plan = {
  ...smallPlan,
  cells: [
    ...smallPlan.cells,
    { row: 10, column: 1, formula: "=SUM(C5:C7)", role: "value" },
    { row: 11, column: 3, formula: '=IF(kb_mu>5,"too much","")', role: "warning" },
  ],
};
const whole = { row: 0, column: 0, rows: 12, columns: 5 };
const calculator = memoryCalculator();

/** A host, and what a person does to its sheet. */
interface Hand {
  readonly host: Host;
  readonly unprotect: () => Promise<void>;
  readonly hideRow: (row: number) => void;
  readonly hideColumn: (column: number) => void;
  /** Makes a row or a column so small. */
  readonly shrink: (what: "row" | "column", n: number, size: number) => void;
  readonly setFormat: (row: number, column: number, format: string) => void;
  readonly setSize: (row: number, column: number, size: number) => void;
  readonly setColour: (row: number, column: number, colour: string) => void;
  readonly end: () => void;
}

type Fault = "host" | "unprotect" | "hideRow" | "hideColumn" | "setSize" | "setFormat" | "setColour" | "end";

async function handOf(faults: Faults): Promise<Pick<Hand, Fault>> {
  await faults.host.apply(plan, { sheetName: "My beam", progress: () => undefined });
  return {
    host: faults.host,
    unprotect: () => faults.unprotected("My beam"),
    hideRow: (row) => faults.hideRow("My beam", row),
    hideColumn: (column) => faults.hideColumn("My beam", column),
    setSize: (row, column, size) => faults.setSize("My beam", { row, column }, size),
    setFormat: (row, column, format) => faults.setFormat("My beam", { row, column }, format),
    setColour: (row, column, colour) => faults.setColour("My beam", { row, column }, colour),
    end: () => faults.host.dispose(),
  };
}

const hands: Readonly<Record<string, () => Promise<Hand>>> = {
  "the grid": async () => {
    const grid = nodeGrid();
    return {
      ...(await handOf(new GridFaults(grid))),
      shrink: (what, n, size) => {
        const sheet = grid.workbook.getSheetByName("My beam")!;
        if (what === "row") sheet.setRowHeightsForced(n, 1, size);
        else sheet.setColumnWidth(n, size);
      },
    };
  },
  memory: async () => {
    const faults = new MemoryFaults();
    const sheet = () => faults.host.workbook.sheet("My beam");
    return {
      ...(await handOf(faults)),
      shrink: (what, n, size) => void (what === "row" ? sheet().heights : sheet().widths).set(n, size),
    };
  },
  "the spreadsheet program": async () => {
    const { excel, host } = openFake({ calculator });
    await host.apply(plan, { sheetName: "My beam", progress: () => undefined });
    const sheet = () => excel.workbook.sheets.find(({ name }) => name === "My beam")!;
    return {
      host,
      unprotect: () => Promise.resolve(void (sheet().protection = undefined)),
      hideRow: (row) => void sheet().hiddenRows.add(row),
      hideColumn: (column) => void sheet().hiddenColumns.add(column),
      shrink: (what, n, size) => void (what === "row" ? sheet().heights : sheet().widths).set(n, size),
      setSize: (row, column, size) =>
        changeCell(sheet(), row, column, (cell) => {
          cell.size = size;
        }),
      setFormat: (row, column, format) =>
        changeCell(sheet(), row, column, (cell) => {
          cell.numberFormat = format;
        }),
      setColour: (row, column, colour) =>
        changeCell(sheet(), row, column, (cell) => {
          cell.color = colour;
        }),
      end: () => undefined,
    };
  },
};

describe.each(Object.entries(hands))("asked about a sheet, %s", (_name, open) => {
  let hand: Hand;
  beforeEach(async () => {
    hand = await open();
  });
  afterEach(() => hand.end());

  it("says what is used: from the first cell to the last formula, though it shows nothing; an empty sheet uses none", async () => {
    expect(await hand.host.used("My beam")).toEqual({ ...whole, columns: 4 });
    expect(await hand.host.used("Sheet1")).toEqual({ row: 0, column: 0, rows: 0, columns: 0 });
    await expect(hand.host.used("Nowhere")).rejects.toThrow(/no sheet named/);
  });

  it("names the sheet's own names with their cells", async () => {
    expect(await hand.host.namesOn("My beam")).toEqual(
      plan.names.map(({ name, ...area }) => ({ name, area: { sheet: "My beam", ...area } })),
    );
    expect(await hand.host.namesOn("Sheet1")).toEqual([]);
  });

  it("tells formats; nothing is hidden on a sheet as built", async () => {
    const looks = await hand.host.looks("My beam", whole);
    expect(looks).toMatchObject({ hiddenRows: [], hiddenColumns: [], sameColour: [], tooSmall: [] });
    expect([looks.formats.length, looks.formats[0]!.length]).toEqual([12, 5]);
    expect([looks.formats[2]![2], looks.formats[4]![2], looks.formats[6]![2], looks.formats[11]![4]]).toEqual([
      "0.000",
      "0.0",
      "General",
      "General",
    ]);
  });

  it("takes rows and columns too low or too narrow to be seen for hidden, and no others", async () => {
    await hand.unprotect();
    hand.shrink("row", 6, 2);
    hand.shrink("row", 7, 12);
    hand.shrink("column", 3, 2);
    expect(await hand.host.looks("My beam", whole)).toMatchObject({ hiddenRows: [6], hiddenColumns: [3] });
  });

  it("tells what hides: rows, columns, letters in the colour of their ground, another format", async () => {
    await hand.unprotect();
    hand.hideRow(6);
    hand.hideColumn(3);
    hand.setFormat(4, 2, "0.0000");
    hand.setColour(5, 2, "#ffffff");
    hand.setColour(7, 4, "#ffffff");
    hand.setColour(4, 2, "#f4f8fa");
    hand.setColour(6, 2, "#909090");
    const looks = await hand.host.looks("My beam", whole);
    expect(looks).toMatchObject({
      hiddenRows: [6],
      hiddenColumns: [3],
      sameColour: [
        { row: 4, column: 2 },
        { row: 5, column: 2 },
      ],
    });
    expect(looks.formats[4]![2]).toBe("0.0000");
    expect(await hand.host.looks("My beam", { row: 5, column: 2, rows: 2, columns: 2 })).toEqual({
      formats: [
        ["General", "General"],
        ["General", "General"],
      ],
      hiddenRows: [6],
      hiddenColumns: [3],
      sameColour: [{ row: 5, column: 2 }],
      tooSmall: [],
    });
    expect(await hand.host.looks("My beam", { row: 0, column: 0, rows: 4, columns: 2 })).toMatchObject({
      hiddenRows: [],
      hiddenColumns: [],
      sameColour: [],
    });
  });

  it("takes letters too small to be read for such", async () => {
    await hand.unprotect();
    hand.setSize(4, 2, 1);
    hand.setSize(5, 2, 8);
    expect((await hand.host.looks("My beam", whole)).tooSmall).toEqual([{ row: 4, column: 2 }]);
  });

  it("tells the rules of a sheet as its plan has them: what is locked, what may be typed, which colours", async () => {
    const places = plan.validations.map(({ row, column }) => ({ row, column }));
    const { locked, entries, colours } = await hand.host.rules("My beam", whole, [...places, { row: 4, column: 2 }]);
    for (let row = 0; row < whole.rows; row++) {
      for (let column = 0; column < whole.columns; column++) {
        const open = plan.unlocked.some((one) => holds(one, { row, column }));
        // The grid protects what the plan covers, the others the whole sheet.
        if (row < plan.rows && column < plan.columns) expect(locked[row]![column], `${row}, ${column}`).toBe(!open);
      }
    }
    expect(entries).toEqual([...plan.validations.map(({ rule }) => ({ rule, refuses: true })), undefined]);
    const asPlanned = plan.highlights.map(({ text, begins, tone, ...area }) => ({
      areas: [area],
      text,
      ...(begins && { begins }),
      color: tones[tone].color.toUpperCase(),
      background: tones[tone].background.toUpperCase(),
    }));
    const sorted = (rules: readonly ColourRule[]) =>
      [...rules].sort((a, b) => JSON.stringify(a).localeCompare(JSON.stringify(b)));
    expect(sorted(colours)).toEqual(sorted(asPlanned));
  });

  it("tells that nothing is locked once the protection is taken away, and has no rules for a sheet that was not built", async () => {
    await hand.unprotect();
    expect((await hand.host.rules("My beam", whole, [])).locked.flat()).not.toContain(true);
    expect(
      await hand.host.rules("Sheet1", { row: 0, column: 0, rows: 1, columns: 1 }, [{ row: 0, column: 0 }]),
    ).toEqual({ locked: [[false]], entries: [undefined], colours: [] });
  });

  it("names who refers to a cell: directly, within an area, by a name, from other sheets", async () => {
    await hand.host.insert("Sheet1", [{ row: 0, column: 0, formula: "='My beam'!C5+1" }]);
    const sorted = async (row: number, column: number) =>
      (await hand.host.dependants({ sheet: "My beam", row, column }))!
        .map((place) => `${place.sheet} ${place.row},${place.column}`)
        .sort();
    expect(await sorted(4, 2)).toEqual(["My beam 10,1", "My beam 5,2", "My beam 6,2", "Sheet1 0,0"]);
    expect(await sorted(2, 2)).toEqual(["My beam 11,3", "My beam 4,2"]);
    expect(await sorted(0, 0)).toEqual([]);
  });

  it("computes anew", async () => {
    await hand.host.recalculate();
    expect((await hand.host.read("My beam", { row: 4, column: 2, rows: 1, columns: 1 }))[0]![0]!.value).toBeCloseTo(
      1395 * Math.exp(-(0.2 * 0.3 + 0.036)),
      10,
    );
  });

  it("takes several entries at once: texts stay texts, looks stay", async () => {
    await hand.host.enterAll("My beam", [
      { row: 2, column: 2, value: 0.3 },
      { row: 3, column: 0, value: "=2+2" },
    ]);
    const cells = await hand.host.read("My beam", whole);
    expect(cells[2]![2]).toMatchObject({ value: 0.3 });
    expect(cells[3]![0]).toEqual({ value: "=2+2", text: "=2+2" });
    expect(cells[4]![2]!.value).toBeCloseTo(1395 * Math.exp(-(0.3 * 0.3 + 0.036)), 10);
    await hand.host.enterAll("My beam", [
      { row: 2, column: 2, formula: "=0.1*2" },
      { row: 3, column: 0 },
    ]);
    const again = await hand.host.read("My beam", whole);
    expect(again[2]![2]).toMatchObject({ value: 0.2, formula: "=0.1*2", text: "0.200" });
    expect(again[3]![0]).toEqual({ value: null, text: "" });
    expect((await hand.host.looks("My beam", whole)).formats[2]![2]).toBe("0.000");
  });

  it("writes nothing where one cell is protected", async () => {
    const before = await hand.host.read("My beam", whole);
    await expect(
      hand.host.enterAll("My beam", [
        { row: 2, column: 2, value: 0.3 },
        { row: 4, column: 2, value: 1 },
      ]),
    ).rejects.toThrow(/C5 of “My beam” is protected; nothing was written/);
    expect(await hand.host.read("My beam", whole)).toEqual(before);
    await hand.host.enterAll("My beam", []);
  });
});
