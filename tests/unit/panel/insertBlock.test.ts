import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openGridInNode, type GridHost, type InsertedCell, type Selection } from "../../../src/hosts/index.ts";
import type { Plan } from "../../../src/sheet/index.ts";
import { smallPlan } from "../../hosts/smallPlan.ts";
import { blockFor, sourceWords } from "../../../taskpane/insert/block.ts";
import { designFunctions, type DesignFunction } from "../../../taskpane/insert/search.ts";
import { bindingText, cellNotice, shapeFault, typedFault } from "../../../taskpane/insert/wire.ts";
import { worksheetFunctions } from "../../../functions/index.ts";

const named = (id: string): DesignFunction => designFunctions.find((f) => f.id === id)!;
/** A sheet of so many cells, all free. */
const emptySheet = (rows: number, columns: number): Plan => ({
  ...smallPlan,
  rows,
  columns,
  widths: [],
  spans: [],
  lines: {},
  cells: [],
  names: [],
  validations: [],
  highlights: [],
  charts: [],
  meanings: [],
  unlocked: [{ row: 0, column: 0, rows, columns }],
});
const none = { included: new Set<string>(), tableRows: 3 };
const at = (cells: readonly InsertedCell[], row: number, column: number): InsertedCell | undefined =>
  cells.find((c) => c.row === row && c.column === column);

describe("a labelled block", () => {
  it("has a heading, a row an argument with symbol, value, unit and range, and the formula last", () => {
    const { cells, area, inputs, result } = blockFor(named("FRICTION_STRESS"), { row: 2, column: 1 }, none);
    expect(area).toEqual({ row: 2, column: 1, rows: 8, columns: 5 });
    expect(at(cells, 2, 1)).toMatchObject({ value: expect.stringContaining("KERN.FRICTION_STRESS: ") as string });
    expect(at(cells, 4, 2)).toMatchObject({ value: "μ" });
    expect(at(cells, 4, 3)).toMatchObject({ role: "input" });
    expect(at(cells, 4, 4)).toMatchObject({ value: "1/rad" });
    expect(at(cells, 4, 5)).toMatchObject({ value: "0 to 1 1/rad" });
    expect(inputs).toHaveLength(6);
    expect(result).toEqual({ row: 9, column: 3 });
    expect(at(cells, 9, 3)).toMatchObject({ formula: "=KERN.FRICTION_STRESS(D4,D5,D6,D7,D8,D9)" });
    expect(at(cells, 9, 5)).toMatchObject({ value: sourceWords(named("FRICTION_STRESS")) });
  });
  it("leaves optional arguments out unless they are ticked, and keeps the place of one between", () => {
    const f = named("BOND_STRENGTH_EN1992_2004");
    const formula = (...included: string[]): string | undefined =>
      blockFor(f, { row: 0, column: 0 }, { included: new Set(included), tableRows: 1 }).cells.find((c) => c.formula)
        ?.formula;
    expect(formula()).toBe("=KERN.BOND_STRENGTH_EN1992_2004(C2,C3,C4)");
    expect(formula("gamma_C")).toBe("=KERN.BOND_STRENGTH_EN1992_2004(C2,C3,C4,,C5)");
  });
  it("fills in defaults of ticked arguments and gives a range as many rows as are asked for", () => {
    const relaxation = blockFor(
      named("RELAXATION_LOSS_EN1992_2004"),
      { row: 0, column: 0 },
      { included: new Set(["t"]), tableRows: 1 },
    );
    expect(relaxation.cells.filter((c) => c.role === "input" && c.value !== undefined)).toMatchObject([
      { value: 500000 },
    ]);
    const station = blockFor(named("STATION"), { row: 0, column: 0 }, { included: new Set(), tableRows: 6 });
    expect(station.cells.find((c) => c.formula)?.formula).toBe("=KERN.STATION(C4:C9,C10,C11)");
  });
});

describe("wiring", () => {
  const here: Selection = { sheet: "Beam", row: 3, column: 2, rows: 1, columns: 1 };
  it("refers to cells, on other sheets with the sheet's name, fixed where asked", () => {
    expect(bindingText({ kind: "cells", at: here }, "Beam", false)).toBe("C4");
    expect(bindingText({ kind: "cells", at: here }, "Other", true)).toBe("Beam!$C$4");
    expect(bindingText({ kind: "cells", at: { ...here, sheet: "My beam", rows: 3 } }, "Other", false)).toBe(
      "'My beam'!C4:C6",
    );
    expect(bindingText({ kind: "choice", value: "LEFT" }, "Beam", false)).toBe('"LEFT"');
    expect(bindingText({ kind: "choice", value: 2 }, "Beam", false)).toBe("2");
  });
  it("takes numbers, references and names, and nothing else, when typed", () => {
    for (const good of ["0.19", "1e-5", "B4", "$B$4:C9", "'My beam'!B2", "kb_mu"])
      expect(typedFault(good), good).toBeUndefined();
    for (const bad of ["", "B4+1", "SUM(B4:B9)", "=B4", '"x"']) expect(typedFault(bad), bad).toMatch(/type a number/);
  });
  it("refuses several cells for one value, and a range of the wrong width", () => {
    const sigma = named("FRICTION_STRESS").parameters.find(({ name }) => name === "sigma0");
    expect(shapeFault(sigma!.parameter, { ...here, rows: 2 })).toMatch(/takes one cell; 2 × 1/);
    const tendons = named("TRANSFORMED_SECTION").parameters.find(({ name }) => name === "tendons")!;
    expect(shapeFault(tendons.parameter, { ...here, rows: 4 })).toMatch(/has 2 columns/);
    expect(shapeFault(tendons.parameter, { ...here, rows: 4, columns: 2 })).toBeUndefined();
  });
  it("tells what to look at in a picked cell, by the argument's own range", () => {
    const mu = named("FRICTION_STRESS").parameters[1]!.parameter;
    expect(cellNotice(mu, { value: null, text: "" })).toMatch(/empty/);
    expect(cellNotice(mu, { value: "0,19", text: "0,19" })).toMatch(/text, where a number/);
    expect(cellNotice(mu, { value: 1.9, text: "1.9" })).toBe("1.9 is above what is allowed: 0 to 1 1/rad");
    expect(cellNotice(mu, { value: 0.19, text: "0.19" })).toBe("");
  });
});

describe("blocks on the grid", () => {
  let grid: GridHost;
  beforeAll(async () => {
    grid = await openGridInNode();
  }, 60_000);
  afterAll(() => grid.dispose());

  it("compute what the function gives for the same arguments", async () => {
    const [sheet] = await grid.sheetNames();
    const f = named("FRICTION_STRESS");
    const block = blockFor(f, { row: 2, column: 1 }, none);
    await grid.insert(sheet!, block.cells);
    const values = [0.3, 0.2, 0.003, "1/m", 1395, 12];
    for (const [i, cell] of block.inputs.entries()) await grid.enter({ sheet: sheet!, ...cell }, values[i]!);
    const expected = worksheetFunctions.find(({ id }) => id === f.id)!.call(values) as { readonly value: number };
    expect((await grid.read(sheet!, { ...block.result, rows: 1, columns: 1 }))[0]![0]!.value).toBe(expected.value);
    await expect(grid.insert(sheet!, blockFor(f, { row: 4, column: 1 }, none).cells)).rejects.toThrow(
      /are not empty; nothing was written/,
    );
    expect(
      (await grid.read(sheet!, { row: 10, column: 1, rows: 2, columns: 5 })).flat().every((c) => c.value === null),
    ).toBe(true);
  });

  it("of every function are known to the grid and miss nothing but what is to be filled in", async () => {
    const sheet = "Functions";
    let row = 0;
    const placed = designFunctions.map((f) => {
      const block = blockFor(
        f,
        { row, column: 1 },
        { included: new Set(f.parameters.map(({ name }) => name)), tableRows: 3 },
      );
      row += block.area.rows + 1;
      return { f, block };
    });
    await grid.apply(emptySheet(row, 20), { sheetName: sheet, progress: () => undefined });
    await grid.insert(
      sheet,
      placed.flatMap(({ block }) => block.cells),
    );
    const all = await grid.read(sheet, { row: 0, column: 3, rows: row, columns: 1 });
    for (const { f, block } of placed) {
      const cell = all[block.result.row]![0]!;
      // Empty inputs are refused by name; a function whose arguments all have defaults computes.
      if (cell.error)
        expect(cell.error, f.id).toMatchObject({
          code: "#VALUE!",
          message: expect.stringMatching(/^(?!internal error).*\S/) as string,
        });
      else expect(typeof cell.value, f.id).toBe("number");
    }
  });
});
