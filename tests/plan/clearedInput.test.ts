/** One input cleared on a sheet or on the one it is linked to: the first page says so in words. The rule is the project's own. */
import { expect, test } from "vitest";
import { a1, Calculation } from "../../src/cells/index.ts";
import { bookOfSheets } from "../../src/checker/index.ts";
import { plannedSnapshot, type Plan } from "../../src/sheet/index.ts";
import { allTemplates } from "../../src/templates/index.ts";
import { exampleOf, planned, sourceName } from "./builtSheet.ts";

const own = "Sheet1";

/** Where inputs with a value stand, of each column the first. */
function filled(plan: Plan, sheet: string) {
  const columns = new Set<string>();
  return plan.cells.flatMap(({ role, row, column, value }) => {
    if (role !== "input" || value === null || value === undefined || value === "") return [];
    const { id, at } = plan.meanings.find(
      (one) => one.at.column === column && row >= one.at.row && row < one.at.row + one.at.rows,
    ) ?? { id: a1({ row, column }), at: undefined };
    const of = at ? id : a1({ row, column });
    if (columns.has(of)) return [];
    columns.add(of);
    return [{ sheet, id: of, row, column }];
  });
}

test.each([
  "end-zones-post-tensioned-en1992-2004",
  "end-zones-pre-tensioned-en1992-2004",
  "long-line-pre-tensioned-en1992-2004",
])("%s: the first page shows no error whichever input is cleared", (id) => {
  const template = allTemplates.find((one) => one.id === id)!;
  const { plan, source } = planned(template, exampleOf(template));
  const end = Math.min(...plan.cells.flatMap(({ row, role }) => (role === "input" || role === "choice" ? [row] : [])));
  const front = plan.cells.filter(({ row, formula }) => row < end && formula !== undefined);
  const book = bookOfSheets([plannedSnapshot(plan, own), plannedSnapshot(source!.plan, sourceName)]);
  // Every other one is enough to see what breaks.
  const all = [...filled(plan, own), ...filled(source!.plan, sourceName)].filter((_, i) => i % 2 === 0);
  expect(all.length).toBeGreaterThan(30);
  const shown = all.flatMap(({ id: input, ...at }) => {
    const calculation = new Calculation(book, [{ ...at, value: null }], { everything: true });
    return front.flatMap((cell) => {
      const { error } = calculation.valueAt({ sheet: own, row: cell.row, column: cell.column });
      return error ? [`${input} cleared: ${a1(cell)} ${error.code}`] : [];
    });
  });
  expect(shown).toEqual([]);
});
