import { describe, expect, it } from "vitest";
import { valuesAgainstHost } from "../../src/cells/index.ts";
import { bookOfSheets } from "../../src/checker/index.ts";
import type { CellContent, CellValue } from "../../src/hosts/index.ts";

const place = '="x = "&INDEX(A1:A2,MATCH(MAX(B1:B2),B1:B2,0))';

/** Two equal utilisations of 0.6, and the place of the higher one, as a host shows them. */
function shown(first: CellValue, second: CellValue, at: string, next = "at x = 1") {
  const cell = (value: CellValue, formula?: string): CellContent => ({
    value,
    text: String(value),
    ...(formula !== undefined && { formula }),
  });
  const cells = [
    [cell(1), cell(first, "=3*0.2"), cell(at, place)],
    [cell(2), cell(second, "=3*0.2"), cell(next, '="at "&C1')],
  ];
  return bookOfSheets([{ sheet: "Beam", rows: 2, columns: 3, cells, names: new Map() }]);
}
const found = (...args: Parameters<typeof shown>) =>
  valuesAgainstHost(shown(...args)).differences.map(({ place: { row, column } }) => [row, column]);

const value = 3 * 0.2;
const less = value - 1e-16;

describe("a value that the host shows, held against its formula", () => {
  it("is the same where only rounding says which of equal values is the highest", () => {
    expect(less).not.toBe(value);
    expect(found(value, value, "x = 1")).toEqual([]);
    expect(found(less, value, "x = 2", "at x = 2")).toEqual([]);
  });
  it("differs where the text does not follow from the values shown", () => {
    expect(found(value, value, "x = 2", "at x = 2")).toEqual([
      [0, 2],
      [1, 2],
    ]);
  });
  it("differs, with all that follows, where a number does", () => {
    expect(found(value * (1 - 1e-6), value, "x = 2", "at x = 2")).toEqual([
      [0, 1],
      [0, 2],
      [1, 2],
    ]);
  });
});
