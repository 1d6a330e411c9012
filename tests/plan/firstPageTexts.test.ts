/**
 * Rows of the first page have the height they were built with, whatever is entered later: what is said there must fit
 * them in any state. Which texts are too long to be read is common practice, no source.
 */
import { describe, expect, test } from "vitest";
import { computedLines, rowHeights } from "../../src/hosts/look/measures.ts";
import { a1, type Address } from "../../src/cells/index.ts";
import { heightOfLines, textWidth } from "../../src/sheet/index.ts";
import { fitsAsDescription } from "../../src/sheet/layout.ts";
import { templates } from "../../src/templates/index.ts";
import { draw, drawShape } from "../draws/inputs.ts";
import { Random } from "../draws/random.ts";
import { DrawnSheet } from "../draws/sheet.ts";

const states = 5;

describe.each(templates.map(({ id }, i) => [id, i] as const))("%s", (_id, i) => {
  const template = templates[i]!;
  const random = new Random(20 + i);
  const shapeOf = (inputs: typeof template.example.inputs) =>
    Object.fromEntries(template.shape.map((one) => [one.id, inputs[one.id] ?? one.default]));
  test.each([
    ["as shipped", shapeOf(template.example.inputs)],
    ["of another shape", drawShape(template, random)],
  ])("%s: the first page holds its texts in any state", (_what, shape) => {
    const sheet = new DrawnSheet(template, shape);
    const { plan } = sheet;
    // What the plan reserves, whatever the formulas say when the sheet is built.
    const built = rowHeights(plan, []);
    const first = plan.cells.filter(({ row }) => row < plan.print.pages!.body);
    const where = first.filter(({ role }) => role === "checkWhere");
    const names = first.filter(({ role, column }) => role === "description" && column === 1);
    const rowOf = (at: number, said: (cell: Address) => string): string =>
      first.flatMap((cell) => (cell.row === at ? [`${a1(cell)} ${said(cell)}`] : [])).join(" | ");
    expect(where.length).toBeGreaterThan(8);
    const found = new Set<string>();
    const empty = sheet.inputs.map(({ spec }) => (spec.freeText ? "" : null));
    for (let k = 0; k < states; k++) {
      const drawn = draw(sheet, random.pick([0, 0.02, 0.1]), random);
      const some = drawn.map((value) => (random.chance(0.3) ? null : value));
      const computed = sheet.with(k === 0 ? empty : k % 2 === 0 ? some : drawn);
      const said = (at: Address): string => {
        const value = computed.valueAt(at);
        return typeof value === "string" ? value : "";
      };
      const lines = computedLines({ ...plan, cells: where }, said);
      for (const cell of where)
        if (lines.get(cell.row)! > 1) found.add(`${textWidth(said(cell)).toFixed(1)} ${said(cell)}`);
      for (const cell of names) if (!fitsAsDescription(said(cell))) found.add(said(cell));
      for (const [row, many] of computedLines({ ...plan, cells: first }, said))
        if (heightOfLines(many) > (built.get(row) ?? heightOfLines(1)))
          found.add(`row ${row + 1}, ${many} lines: ${rowOf(row, said)}`);
    }
    expect([...found]).toEqual([]);
  });
});
