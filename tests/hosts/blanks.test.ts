import { isDeepStrictEqual } from "node:util";
import { a1, Calculation, type Address } from "../../src/cells/index.ts";
import { bookOfSheets } from "../../src/checker/index.ts";
import { describe, expect, it, vi } from "vitest";
import type { Argument } from "../../src/core/index.ts";
import type * as Functions from "../../functions/index.ts";
import { expand, plannedSnapshot, type Plan } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { changeCell } from "./excelFake/index.ts";
import { memoryCalculator } from "./excelFake/memoryCalculator.ts";
import { excelPicture } from "./excelPicture.ts";
import { openFake } from "./openFake.ts";
import { smallPlan } from "./smallPlan.ts";

/**
 * Desktop versions of the spreadsheet program hand a blank cell to a function as 0, the web version hands null. Here
 * the functions get it either way,
 * in single cells and within areas.
 */
const mode = vi.hoisted(() => ({ blank: null as 0 | null }));

vi.mock("../../functions/index.ts", async (original) => {
  const functions = await original<typeof Functions>();
  const handed = (argument: Argument): Argument =>
    Array.isArray(argument)
      ? ((argument as readonly (readonly Argument[])[]).map((row) => row.map(handed)) as unknown as Argument)
      : (argument ?? mode.blank);
  const worksheetFunctions = functions.worksheetFunctions.map((f) => ({
    ...f,
    call: (args: readonly Argument[]) => f.call(args.map(handed)),
  }));
  return { ...functions, worksheetFunctions, ourFunctions: new Map(worksheetFunctions.map((f) => [f.id, f])) };
});

const cases = templates.map((template) => [template.id, expand(template, template.example.inputs)] as const);
const quiet = { sheetName: "Beam", progress: () => undefined };

async function built(
  plan: Plan,
  blank: 0 | null,
  change: (sheet: Parameters<typeof changeCell>[0]) => void = () => undefined,
) {
  mode.blank = blank;
  const { excel, host } = openFake({ calculator: memoryCalculator() });
  await host.apply(plan, quiet);
  const sheet = excel.workbook.sheets.find(({ name }) => name === "Beam")!;
  change(sheet);
  const contents = await host.read("Beam", { row: 0, column: 0, rows: plan.rows, columns: plan.columns });
  return { contents, picture: excelPicture(sheet, contents, plan.columns) };
}

describe("a blank cell in an argument", () => {
  it("reaches the functions as 0 or as null", async () => {
    const clear = (sheet: Parameters<typeof changeCell>[0]): void =>
      changeCell(sheet, 2, 2, (cell) => {
        cell.value = "";
      });
    // Without friction coefficient: refused where the function is told so; no friction at all where it is handed 0.
    expect((await built(smallPlan, null, clear)).contents[4]![2]!.error?.code).toBe("#VALUE!");
    expect((await built(smallPlan, 0, clear)).contents[4]![2]!.value).toBeCloseTo(1395 * Math.exp(-0.036), 10);
  });
});

describe.each(cases)("%s", (_id, plan) => {
  const book = bookOfSheets([plannedSnapshot(plan, "Beam")]);
  const at = ({ row, column }: Address) => ({ sheet: "Beam", row, column });
  const valuesWith = (blank: 0 | null) => {
    mode.blank = blank;
    const calculation = new Calculation(book, [], { everything: true });
    return plan.cells
      .filter(({ formula }) => formula !== undefined)
      .map((cell) => [a1(cell), calculation.valueAt(at(cell))] as const);
  };

  it("shows the same in both ways when it is filled in", () => {
    const [asZero, asNull] = [valuesWith(0), new Map(valuesWith(null))];
    expect(asZero.filter(([where, value]) => !isDeepStrictEqual(value, asNull.get(where)))).toEqual([]);
  });

  it.each([0, null] as const)("never passes with an input left blank: handed as %s", (blank) => {
    mode.blank = blank;
    const cells = new Map(plan.cells.map((cell) => [a1(cell), cell]));
    const required = plan.validations
      .filter(({ allowBlank }) => !allowBlank)
      .map((input) => cells.get(a1(input))!)
      .filter(({ value }) => value !== undefined);
    // Every third input, from another one in each way.
    const some = required.filter((_, i) => i % 3 === (blank === 0 ? 0 : 1));
    expect(some.length).toBeGreaterThan(10);
    for (const cell of some) {
      const calculation = new Calculation(book, [{ ...at(cell), value: null }], { everything: true });
      const { value } = calculation.valueAt(at(plan.summary.overall));
      expect(value, a1(cell)).toBe(cell.role === "shape" ? "REBUILD" : "INCOMPLETE");
    }
  });
});
