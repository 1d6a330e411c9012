/** A protected cell says what it is and where to type instead. */
import { expect, it } from "vitest";
import { a1, type Address } from "../../src/cells/index.ts";
import { whyLocked, type LookedAt } from "../../src/hosts/grid/whyLocked.ts";
import { expand, plannedSnapshot } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";

const template = templates[0]!;
const plan = expand(template, template.example.inputs);
const { cells } = plannedSnapshot(plan, "Beam");
const sheet: LookedAt = {
  formula: ({ row, column }) => cells[row]?.[column]?.formula ?? "",
  text: ({ row, column }) => String(cells[row]?.[column]?.value ?? ""),
  open: ({ row, column }) =>
    plan.unlocked.some(
      (area) =>
        row >= area.row && row < area.row + area.rows && column >= area.column && column < area.column + area.columns,
    ),
  columns: plan.columns,
};
const of = (id: string): Address => plan.meanings.find((one) => one.id === id)!.at;
const beside = (id: string, column: number): Address => ({ row: of(id).row, column });

it("a formula names the nearest inputs that it follows from", () => {
  expect(whyLocked(sheet, of("phi"))).toMatch(
    new RegExp(`^${a1(of("phi"))} holds a formula. It follows from .*: type there.$`),
  );
  const self = whyLocked(sheet, of("Ecm"));
  expect(self).toContain(a1(of("fck")));
});

it("the words beside an input name the input's cell", () => {
  expect(whyLocked(sheet, beside("fck", 1))).toBe(
    `${a1(beside("fck", 1))} holds a text of the template. The input of this row is ${a1(of("fck"))} (${sheet.text(beside("fck", 1))}).`,
  );
});

it("what shapes the sheet is changed under Build", () => {
  expect(whyLocked(sheet, of("tendons"))).toContain("Change it under Build");
});

it("a heading says that nothing is typed there", () => {
  expect(whyLocked(sheet, { row: 0, column: 0 })).toMatch(/nothing is typed here/);
});
