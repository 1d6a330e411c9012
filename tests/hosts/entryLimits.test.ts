import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { nodeGrid } from "../../src/hosts/grid/node.ts";
import { openWorkbook, writeBook } from "../../src/hosts/index.ts";

const { host, runtime, workbook } = nodeGrid();
const told: string[] = [];
host.onTrouble((text) => told.push(text));
beforeEach(() => void told.splice(0));
afterAll(() => host.dispose());

const sheet = "Sheet1";
const read = async (row: number) => (await host.read(sheet, { row, column: 0, rows: 1, columns: 1 }))[0]![0]!;
/** 32,766 characters, one of two halves, and more. */
const long = `${"a".repeat(32_766)}\u{1F600}${"b".repeat(10)}`;

describe("an entry longer than a cell of a file may be", () => {
  it("is cut between two characters where it is a text, typed or written by a tool", async () => {
    await host.enter({ sheet, row: 0, column: 0 }, long);
    await host.enterAll(sheet, [
      { row: 1, column: 0, value: long },
      { row: 2, column: 0, value: long },
    ]);
    expect(told).toEqual([
      "“Sheet1”: A1 was given a text of 32,778 characters; up to 32,767 are allowed. The rest was cut off.",
      "“Sheet1”: A2 was given a text of 32,778 characters; up to 32,767 are allowed. The rest was cut off. " +
        "The same holds for 1 more.",
    ]);
    for (const row of [0, 1, 2]) expect((await read(row)).value).toBe("a".repeat(32_766));
  });

  it.each([
    ["a long formula", `=1${"+1".repeat(5000)}`, /A4 was given a formula of 10,002 characters; up to 8,192/],
    [
      "brackets within brackets",
      `=${"ABS(".repeat(200)}1${")".repeat(200)}`,
      /A4 was given a formula with 200 brackets within one another; up to 128/,
    ],
  ])("becomes a text where it is %s", async (_, formula, said) => {
    await host.enter({ sheet, row: 3, column: 0 }, formula);
    expect(told.join()).toMatch(said);
    expect(await read(3)).toMatchObject({ value: formula });
    expect((await read(3)).formula).toBeUndefined();
  });

  it("keeps of a list of choices what a file holds, when it is made and when it is changed", async () => {
    const cells = workbook.getSheetByName(sheet)!.getRange("B1");
    const listOf = (values: readonly string[]) => runtime.api.newDataValidation().requireValueInList([...values]);
    const kept = async () => openWorkbook(writeBook(await host.contents())).workbook.sheets[0]!.entries[0]!.rule;
    const words = Array.from({ length: 40 }, (_, i) => `choice ${i + 10}`);
    cells.setDataValidation(listOf(["one", "two, or more", "three"]).build());
    expect(await kept()).toEqual({ kind: "list", values: ["one", "three"] });
    const { DataValidationOperator, DataValidationType } = runtime.core;
    cells
      .getDataValidation()!
      .setCriteria(DataValidationType.LIST, [DataValidationOperator.EQUAL, words.join(","), ""]);
    expect(await kept()).toEqual({ kind: "list", values: words.slice(0, 25) });
    cells.setDataValidation(listOf(["one", "two"]).build());
    expect(await kept()).toEqual({ kind: "list", values: ["one", "two"] });
    expect(told).toEqual([
      expect.stringMatching(/^“Sheet1”: choices for B1: 2 of 3 are kept\. A workbook file holds up to 255 characters/),
      expect.stringMatching(/choices for .*: 25 of 40 are kept\. /),
    ]);
  });

  it("shortens choices where none fits: a list never becomes empty", async () => {
    const cells = workbook.getSheetByName(sheet)!.getRange("B2");
    const listOf = (values: readonly string[]) => runtime.api.newDataValidation().requireValueInList([...values]);
    const kept = async () =>
      openWorkbook(writeBook(await host.contents())).workbook.sheets[0]!.entries.find(
        ({ areas }) => areas[0]!.row === 1,
      )?.rule;
    cells.setDataValidation(listOf(["one, or so", "two, or more", ", three, or less", "one, at least"]).build());
    expect(await kept()).toEqual({ kind: "list", values: ["one", "two", "three"] });
    cells.setDataValidation(listOf(["x".repeat(300)]).build());
    expect(await kept()).toEqual({ kind: "list", values: ["x".repeat(255)] });
    expect(told).toEqual([
      expect.stringMatching(/choices for B2: 3 of 4 are kept, shortened\. .*put the choices in cells/),
      expect.stringMatching(/choices for B2: 1 of 1 are kept, shortened\. /),
    ]);
  });

  it("never stands in the way of saving and opening again", async () => {
    await host.enter({ sheet, row: 4, column: 0 }, '=REPT("abc",10000)&REPT("abc",10000)');
    const { workbook } = openWorkbook(writeBook(await host.contents()));
    expect(workbook.sheets[0]!.cells.map(({ row }) => row)).toEqual([0, 1, 2, 3, 4]);
  });
});
