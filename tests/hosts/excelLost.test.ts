import { beforeEach, describe, expect, it } from "vitest";
import { lostCell } from "../../src/hosts/host/lostCell.ts";
import { mayBeLost, typedAnew } from "../../src/hosts/host/lostFunctions.ts";
import { lostSentences, repairedSentences } from "../../taskpane/addin/repair.ts";
import { memoryCalculator } from "./excelFake/memoryCalculator.ts";
import { openFake, type OpenFake } from "./openFake.ts";
import { smallPlan } from "./smallPlan.ts";

const calculator = memoryCalculator();
let open: OpenFake;
beforeEach(async () => {
  open = openFake({ calculator });
  await open.host.apply(smallPlan, { sheetName: "Beam", progress: () => undefined });
});
const whole = { row: 0, column: 0, rows: smallPlan.rows, columns: smallPlan.columns };
const shown = async () =>
  (await open.host.read("Beam", whole)).map((line) => line.map(({ value, error }) => error?.code ?? value));
const formulas = smallPlan.cells.filter(({ formula }) => formula?.includes("KERN."));

describe("formulas that met the program without the functions", () => {
  it.each(["", "[2]!"])(
    "are found, entered anew and give their values again; nothing else changes (%s)",
    async (before) => {
      const sound = { book: open.excel.snapshot(), values: await shown() };
      expect(await open.host.lostCells()).toEqual([]);
      open.excel.loseFunctions(undefined, before);
      const lost = await open.host.lostCells();
      expect(lost.map(({ sheet, row, column, typed }) => ({ sheet, row, column, typed }))).toEqual(
        formulas.map(({ row, column, formula }) => ({ sheet: "Beam", row, column, typed: formula })),
      );
      expect((await shown())[4]![2]).toBe("#NAME?");
      // The row that only speaks of them shows the error too, and is no cell to repair.
      expect((await shown())[6]![2]).toBe("#NAME?");
      const done = await open.host.repair(lost);
      expect(done).toEqual({ cells: formulas.length, differ: [], still: [], locked: [] });
      expect(await shown()).toEqual(sound.values);
      expect(open.excel.snapshot()).toEqual(sound.book);
      expect(await open.host.lostCells()).toEqual([]);
    },
  );

  it("are repaired alone: a sound cell beside them is not written", async () => {
    const sound = open.excel.snapshot();
    open.excel.loseFunctions((_sheet, key) => key === "4 2");
    const lost = await open.host.lostCells();
    expect(lost.map(({ row, column }) => [row, column])).toEqual([[4, 2]]);
    const written: string[] = [];
    open.excel.watch = (label) => void (/formulas =/.test(label) && written.push(label));
    await open.host.repair(lost);
    expect(written).toHaveLength(1);
    expect(open.excel.snapshot()).toEqual(sound);
  });

  it("whose value differs from the stored one are named", async () => {
    open.excel.loseFunctions();
    const [first, ...rest] = await open.host.lostCells();
    const done = await open.host.repair([{ ...first!, stored: 1 }, ...rest]);
    expect([done.cells, done.differ.map(({ cell }) => [cell.row, cell.column])]).toEqual([rest.length, [[4, 2]]]);
    expect(repairedSentences(done)).toMatch(/1 cell on “Beam” \(C5\) show another value than the one stored/);
  });

  it("under a password are left alone, and it is said", async () => {
    open.excel.loseFunctions();
    open.excel.workbook.sheets.find(({ name }) => name === "Beam")!.password = true;
    const before = open.excel.snapshot();
    const done = await open.host.repair(await open.host.lostCells());
    expect([done.cells, done.locked.map(({ sheet }) => sheet)]).toEqual([0, ["Beam"]]);
    expect(open.excel.snapshot()).toEqual(before);
    expect(repairedSentences(done)).toMatch(/“Beam” was left alone: .* \(the password is not correct\)/);
  });

  it("are left alone, for the program's own reason, where it fails otherwise", async () => {
    open.excel.loseFunctions();
    const lost = await open.host.lostCells();
    open.excel.watch = (label) => {
      if (/unprotect/.test(label)) throw new Error("the connection was lost");
    };
    const done = await open.host.repair(lost);
    expect(done.locked).toEqual([{ sheet: "Beam", why: "the connection was lost" }]);
    expect(repairedSentences(done)).not.toMatch(/password/);
  });

  it("of a function this version lacks still give #NAME?, and it is said", async () => {
    const lost = { sheet: "Beam", row: 4, column: 2, formula: "=_xldudf_KERN_GONE(1)", typed: "=_xldudf_KERN_GONE(1)" };
    const done = await open.host.repair([lost]);
    expect(done.still).toEqual([lost]);
    expect(repairedSentences(done)).toMatch(/still show #NAME\?: this version of Kernbook lacks a function/);
  });

  it("are told in words", async () => {
    open.excel.loseFunctions();
    expect(lostSentences(await open.host.lostCells())).toMatch(
      /not loaded: 2 cells on “Beam” \(C5, C9\) lost them and show #NAME\?/,
    );
  });
});

describe("a cell's formula", () => {
  const at = { row: 0, column: 0 };
  it.each([
    ["=_xldudf_KERN_VERSION()", "=KERN.VERSION()"],
    ["=1+[3]!_xldudf_KERN_LOSS(A1,_xldudf_KERN_VERSION())", "=1+KERN.LOSS(A1,KERN.VERSION())"],
    ["='[kern.xll]x'!_xldudf_KERN_LOSS(A1)", "=KERN.LOSS(A1)"],
    ["=_xlfn.KERN.VERSION()", "=KERN.VERSION()"],
    ["=SUM(A1:A3)", "=SUM(A1:A3)"],
  ])("%s is entered as %s", (formula, typed) => {
    expect(typedAnew(formula)).toBe(typed);
  });

  it("is lost by its mark, whatever it shows, or by #NAME? where it calls a function of ours", () => {
    const name = { code: "#NAME?" };
    const lost = (formula: string, error?: { readonly code: string }) => {
      const content = { formula, value: error ? null : 5, text: "", ...(error && { error }) };
      const found = lostCell("S", at, content);
      // Only such cells are looked at more closely.
      if (found) expect(mayBeLost(content)).toBe(true);
      return found;
    };
    expect(mayBeLost({ formula: "=KERN.VERSION()", value: 5, text: "5" })).toBe(false);
    expect(lost("=_xldudf_KERN_VERSION()")).toMatchObject({ typed: "=KERN.VERSION()", stored: 5 });
    expect(lost("=KERN.VERSION()", name)).toMatchObject({ typed: "=KERN.VERSION()" });
    expect(lost("=KERN.VERSION()")).toBeUndefined();
    expect(lost("=A1*2", name)).toBeUndefined();
    expect(lost("=NOSUCH(1)", name)).toBeUndefined();
    expect(lostCell("S", at, { value: "_xldudf_KERN_VERSION()", text: "" })).toBeUndefined();
  });
});
