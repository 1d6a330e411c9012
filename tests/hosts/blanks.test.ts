import { a1 } from "../../src/cells/index.ts";
import { describe, expect, it, vi } from "vitest";
import type { Argument } from "../../src/core/index.ts";
import type * as Functions from "../../functions/index.ts";
import { openGridInNode } from "../../src/hosts/index.ts";
import { expand, type Plan } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { differences } from "./differences.ts";
import { changeCell } from "./excelFake/index.ts";
import { gridCalculator } from "./excelFake/gridCalculator.ts";
import { excelPicture } from "./excelPicture.ts";
import { openFake } from "./openFake.ts";
import { smallPlan } from "./smallPlan.ts";

/**
 * Desktop versions of the spreadsheet program hand a blank cell to a function as 0, the web version hands null. Here the functions get it either way,
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
  const { excel, host } = openFake({ calculator: gridCalculator() });
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
  it("shows the same in both ways when it is filled in", async () => {
    expect(differences((await built(plan, 0)).picture, (await built(plan, null)).picture)).toEqual([]);
  }, 180_000);

  // Each edit of a full sheet takes its time: every eighth input, from another one in each way.
  it.each([0, null] as const)(
    "never passes with an input left blank: handed as %s",
    async (blank) => {
      mode.blank = blank;
      const grid = await openGridInNode();
      try {
        await grid.apply(plan, quiet);
        const overall = async () => (await grid.read("Beam", { ...plan.summary.overall, rows: 1, columns: 1 }))[0]![0]!;
        const cells = new Map(plan.cells.map((cell) => [a1(cell), cell]));
        const required = plan.validations.filter(({ allowBlank }) => !allowBlank);
        const some = required.filter((_, i) => i % 8 === (blank === 0 ? 0 : 2));
        expect(some.length).toBeGreaterThan(3);
        for (const input of some) {
          const cell = cells.get(a1(input))!;
          if (cell.value === undefined) continue;
          await grid.enter({ sheet: "Beam", ...input }, null);
          expect((await overall()).value, a1(input)).toBe(cell.role === "shape" ? "REBUILD" : "INCOMPLETE");
          await grid.enter({ sheet: "Beam", ...input }, cell.value);
        }
      } finally {
        grid.dispose();
      }
    },
    300_000,
  );
});
