import { expect, it } from "vitest";
import { version } from "../../src/core/index.ts";
import { expand, type Plan } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { planValues } from "../../src/hosts/index.ts";

/** The second row, at the top of every page: what the verdict means. */
const band = { row: 1, column: 3 } as const;
const call = "ISERROR(KERN.VERSION())";

it("the first page says in the program's own formulas when the functions are missing, which version is needed and what to do", () => {
  const template = templates.find(({ id }) => id === "pre-tensioned-is1343-1980")!;
  const plan = expand(template, template.example.inputs);
  const isBand = (cell: { readonly row: number; readonly column: number }): boolean =>
    cell.row === band.row && cell.column === band.column;
  const formula = plan.cells.find(isBand)!.formula!;
  expect(formula).toContain(call);
  const said = (of: Plan) => planValues(of, "Beam")![band.row]![band.column]!.value;
  expect(said(plan)).not.toMatch(/functions/);
  // A program without the functions gives #NAME? for the call.
  const without = plan.cells.map((cell) =>
    isBand(cell) ? { ...cell, formula: formula.replace(call, "ISERROR(#NAME?)") } : cell,
  );
  expect(said({ ...plan, cells: without })).toBe(
    "The Kernbook functions are not loaded here: values are missing or old. Load the Kernbook add-in, version " +
      `${version} or later, open its panel and press “Repair the formulas”.`,
  );
});
