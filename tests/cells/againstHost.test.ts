import { describe, expect, it } from "vitest";
import { type Difference, valuesAgainstHost } from "../../src/cells/index.ts";
import { bookOfSheets } from "../../src/checker/index.ts";
import type { CellContent, CellValue } from "../../src/hosts/index.ts";

const cell = (value: CellValue, formula?: string): CellContent => ({
  value,
  text: String(value),
  ...(formula !== undefined && { formula }),
});

/** Rows of cells as a host shows them. */
const against = (...cells: CellContent[][]) => {
  const columns = Math.max(...cells.map((row) => row.length));
  return valuesAgainstHost(bookOfSheets([{ sheet: "Beam", rows: cells.length, columns, cells, names: new Map() }]));
};
const told = ({ place: { row, column }, byLastDigits }: Difference) =>
  `${String.fromCharCode(65 + column)}${row + 1}${byLastDigits ? " by the last digits" : ""}`;
const differing = (...cells: CellContent[][]) => against(...cells).differences.map(told);

const place = '="x = "&INDEX(A1:A2,MATCH(MAX(B1:B2),B1:B2,0))';
const value = 3 * 0.2;
const less = value - 1e-16;

/** Two equal utilisations of 0.6, and the place of the higher one, as a host shows them. */
const found = (first: CellValue, second: CellValue, at: string, next = "at x = 1") =>
  differing(
    [cell(1), cell(first, "=3*0.2"), cell(at, place)],
    [cell(2), cell(second, "=3*0.2"), cell(next, '="at "&C1')],
  );

describe("a value that the host shows, held against its formula", () => {
  it("is the same where only rounding says which of equal values is the highest", () => {
    expect(less).not.toBe(value);
    expect(found(value, value, "x = 1")).toEqual([]);
    expect(found(less, value, "x = 2", "at x = 2")).toEqual([]);
  });
  it("differs where the text does not follow from the values shown", () => {
    expect(found(value, value, "x = 2", "at x = 2")).toEqual(["C1", "C2"]);
  });
  it("differs, with all that follows, where a number does", () => {
    expect(found(value * (1 - 1e-6), value, "x = 2", "at x = 2")).toEqual(["B1", "C1", "C2"]);
  });
  it("differs where it does not follow from a value that rounding decides", () => {
    expect(found(less, value, "x = 2", "at x = 1")).toEqual(["C2"]);
  });
});

describe("a step at typed numbers", () => {
  it.each([
    ["a flag and its verdict", [cell(28), cell(0, "=IF(A1>=28,1,0)"), cell("FAIL", '=IF(B1=1,"PASS","FAIL")')]],
    ["a verdict that OK depends on", [cell(1), cell(0, "=IF(A1>=1,1,0)"), cell("OK", '=IF(B1=0,"OK","FAIL")')]],
    ["a decimal", [cell(0.6), cell(0, "=IF(A1>=0.6,1,0)"), cell("OK", '=IF(B1=0,"OK","FAIL")')]],
    ["a count", [cell(1), cell(0, '=COUNTIF(A1:A1,">=1")'), cell("OK", '=IF(B1=0,"OK","FAIL")')]],
    ["a truth value", [cell(1), cell(false, "=A1<=1"), cell("FAIL", '=IF(B1,"PASS","FAIL")')]],
  ])("hides nothing: %s", (_what, row) => {
    expect(differing(row)).toEqual(["B1", "C1"]);
  });
  it("does not pass any number up to the size of the step", () => {
    expect(differing([cell(28), cell(37, "=IF(A1>=28,500,0)")])).toEqual(["B1"]);
    expect(differing([cell(3), cell(0, "=INDEX(C1:E1,A1)"), cell(5), cell(6), cell(7)])).toEqual(["B1"]);
    expect(differing([cell(1), cell(2), cell(-9, "=SUMPRODUCT((A1:B1>=1)*9)")])).toEqual(["C1"]);
  });
  it("passes neither 1e-6 of a result beside a pole nor 1e-9 of one between two steps", () => {
    expect(differing([cell(1.00001), cell(1e5 * (1 + 1e-6), "=1/(A1-1)")])).toEqual(["B1"]);
    expect(differing([cell(28), cell(1 + 3e-9, "=IF(A1>=28,1,1000)")])).toEqual(["B1"]);
  });
});

describe("a verdict at its limit", () => {
  const verdict = '=IF(A1<=1,"PASS","FAIL")';
  it("follows from the value shown, where that is its formula's to the last digits", () => {
    expect(differing([cell(1 + 2 ** -52, "=3*0.2/0.6"), cell("FAIL", verdict)])).toEqual([]);
    expect(differing([cell(1, "=3*0.2/0.6"), cell("PASS", verdict)])).toEqual([]);
  });
  it("is told of where the number shown is another in the tenth digit", () => {
    expect(differing([cell(1, "=(1+9E-10)*1"), cell("PASS", verdict)])).toEqual(["B1 by the last digits"]);
    expect(differing([cell(1 + 1e-10, "=0.6/0.6"), cell("FAIL", verdict)])).toEqual(["B1 by the last digits"]);
    expect(differing([cell(1 + 1e-10, "=0.6/0.6"), cell("PASS", verdict)])).toEqual(["B1 by the last digits"]);
  });
  it("is judged by what it depends on alone", () => {
    const tie = [cell(1, "=3*0.2/0.6"), cell("PASS", verdict)];
    expect(differing([...tie, cell(3.1, "=1+2")])).toEqual(["C1"]);
    expect(differing([cell(1 + 1e-10, "=0.6/0.6"), cell("FAIL", verdict), cell(3.1, "=1+2")])).toEqual([
      "B1 by the last digits",
      "C1",
    ]);
  });
  it("is PASS in a program that compares 15 digits, FAIL in one that compares all", () => {
    expect(3 * 0.2 > 0.6).toBe(true);
    const compared = '=IF(A1*0.2<=0.6,"PASS","FAIL")';
    expect(differing([cell(3), cell("PASS", compared)])).toEqual([]);
    expect(differing([cell(3), cell("FAIL", compared)])).toEqual([]);
    expect(differing([cell(3.0000000001), cell("PASS", compared)])).toEqual(["B1"]);
  });
});

describe("what rounding leaves of terms that cancel", () => {
  it("may be any such remainder, wherever the terms stand", () => {
    const rest = "=A1+A3-E1";
    const rows = (shown: number) => [
      [cell(0.1), cell(0), cell(0), cell(0), cell(0.3, "=0.3"), cell(shown, rest)],
      [cell(0)],
      [cell(0.2)],
    ];
    expect(0.1 + 0.2 - 0.3).not.toBe(0);
    expect(differing(...rows(0.1 + 0.2 - 0.3))).toEqual([]);
    expect(differing(...rows(0))).toEqual([]);
    expect(differing(...rows(-5e-17))).toEqual([]);
    expect(differing(...rows(1e-12))).toEqual(["F1"]);
  });
  it("is no more than its terms can leave", () => {
    const stress = [cell(1200.4), cell(1199.3)];
    const rest = 1200.4 - 1199.3;
    expect(differing([...stress, cell(rest + 1e-12, "=A1-B1")])).toEqual([]);
    expect(differing([...stress, cell(rest + 1e-8, "=A1-B1")])).toEqual(["C1"]);
  });
});

describe("what cannot be told by looking at each formula alone", () => {
  it("a circle whose cells follow from one another", () => {
    const { differences, notCompared } = against([cell(5, "=B1"), cell(5, "=A1"), cell(6, "=B1+1")]);
    expect(differences).toEqual([]);
    expect(notCompared.map(({ place: { column } }) => column)).toEqual([0, 1, 2]);
  });
  it("a condition keeps formulas out of a circle", () => {
    const cells = [cell(1), cell(2, "=IF(A1=1,2,C1)"), cell(2, "=IF(A1=1,B1,3)")];
    expect(against(cells)).toMatchObject({ compared: 2, differences: [], notCompared: [] });
  });
  it("what rests on a formula that cannot be computed", () => {
    const { compared, notCompared } = against([cell(1, "=INDIRECT(C1)"), cell(2, "=A1+1"), cell("D9")]);
    expect([compared, notCompared.length]).toEqual([0, 2]);
  });
});
