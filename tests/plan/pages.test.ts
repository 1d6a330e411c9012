/**
 * Printed pages of every template's example. Nothing under 7 points is common practice for drawings and calculation
 * sheets, no source; how many pages are too many, the same.
 */
import { describe, expect, test } from "vitest";
import { breaksOf, rowHeights } from "../../src/hosts/look/measures.ts";
import { styleOf } from "../../src/hosts/look/styles.ts";
import { textWidth } from "../../src/sheet/index.ts";
import { allTemplates } from "../../src/templates/index.ts";
import { exampleOf, planned } from "./builtSheet.ts";

/** Letters of 10 points print at 8: what is drawn smaller to fit its cell must keep seven eighths of that. */
const printed = 8;
const smallest = 7;
/** Subscripts count as letters of full size, but are drawn at seven tenths; a symbol is at most half subscript. */
const subscripts = 1.15;

describe.each(allTemplates.map(({ id }) => id))("%s on paper", (id) => {
  const template = allTemplates.find((one) => one.id === id)!;
  const { plan, values } = planned(template, exampleOf(template));
  test("has no page for the revisions alone", () => {
    const { area, pages } = plan.print;
    const breaks = breaksOf(plan, rowHeights(plan, values))!;
    const titles = plan.cells.filter(
      ({ role, row, value }) => role === "block" && row < area.rows && value !== undefined,
    );
    const rowOf = (title: string) => titles.find(({ value }) => value === title)!.row;
    expect(breaks.filter((row) => row > rowOf("Configuration, template and conventions"))).toEqual([]);
    expect(rowOf("Revisions")).toBeGreaterThan(rowOf("Configuration, template and conventions"));
    expect(pages!.printed).toBe(area.rows);
    expect(breaks.length + 1).toBeLessThanOrEqual(template.source ? 6 : 12);
  });
  test("draws no symbol and no word of a result so small that it cannot be read", () => {
    const spans = new Map(plan.spans.map(({ row, column, columns }) => [`${row} ${column}`, columns]));
    const small = plan.cells.flatMap((cell) => {
      const { row, column, role, formula } = cell;
      const value = formula === undefined ? cell.value : values[row]?.[column]?.value;
      if (row >= plan.print.area.rows || !styleOf(cell).shrink || typeof value !== "string") return [];
      const over = spans.get(`${row} ${column}`) ?? 1;
      const room = plan.widths.slice(column, column + over).reduce((sum, width) => sum + width, over - 1);
      const size = (printed * room * subscripts) / textWidth(value);
      return size < smallest ? [`${role} ${value}: ${size.toFixed(1)} pt`] : [];
    });
    expect([...new Set(small)]).toEqual([]);
  });
});
