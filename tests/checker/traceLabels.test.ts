import { describe, expect, it } from "vitest";
import { labelFromTexts } from "../../src/checker/trace/labels.ts";
import { inUnit, spelledUnit } from "../../src/checker/trace/units.ts";
import type { CellContent } from "../../src/hosts/index.ts";

/** Rows of cells as they stand; the cell asked for is marked by being in a list of its own. */
function label(rows: readonly (readonly (string | number | null | readonly [number])[])[]) {
  const row = rows.findIndex((cells) => cells.some((c) => Array.isArray(c)));
  const column = rows[row]!.findIndex((c) => Array.isArray(c));
  const at = (r: number, c: number): CellContent => {
    const cell = rows[r]?.[c] ?? null;
    const value = Array.isArray(cell) ? (cell as readonly [number])[0] : (cell as string | number | null);
    return { value, text: value === null ? "" : String(value) };
  };
  const found = labelFromTexts(at, row, column);
  return found && [found.description, found.symbol, found.known?.unit, found.known?.factor];
}

describe("what a cell is called by the texts around it", () => {
  it.each<readonly [string, Parameters<typeof label>[0], unknown]>([
    ["text, number, unit", [["Jacking force", [1200], "kN"]], ["Jacking force", "", "kN", 1]],
    [
      "item, text, symbol, number, unit",
      [["2.1", "Characteristic strength", "f_ck", [40], "N/mm2"]],
      ["Characteristic strength", "f_ck", "MPa", 1],
    ],
    [
      "text, symbol with =, number, unit",
      [["Area of tendons", "Ap =", [1500], "mm²"]],
      ["Area of tendons", "Ap", "mm²", 1],
    ],
    ["unit in brackets in the text", [["Force (kN)", [1200]]], ["Force", "", "kN", 1]],
    ["unit in brackets behind a symbol", [["Force P [kN]", [1200]]], ["Force P", "", "kN", 1]],
    ["only a symbol", [["P", [1200], "kN"]], ["", "P", "kN", 1]],
    ["unit between text and number", [["Span", "m", [20]]], ["Span", "", "m", 1]],
    [
      "a symbol that is a unit's as well, without a unit",
      [["Effective depth", "d", [900]]],
      ["Effective depth", "d", undefined, undefined],
    ],
    ["such a symbol with its unit", [["Axial force", "N", [4600], "kN"]], ["Axial force", "N", "kN", 1]],
    ["such a letter behind the number", [["Age at loading", "t", [28], "d"]], ["Age at loading", "t", "days", 1]],
    [
      "a table headed by such symbols",
      [
        ["part", "b", "h"],
        ["T1", 300, [150]],
      ],
      ["T1", "h", undefined, undefined],
    ],
    [
      "such symbols over units",
      [
        ["part", "b", "h"],
        [null, "mm", "mm"],
        ["T1", 300, [150]],
      ],
      ["T1", "h", "mm", 1],
    ],
    [
      "such a letter as unit below its heading",
      [
        ["step", "duration"],
        [null, "d"],
        ["T1", [28]],
      ],
      ["duration, T1", "", "days", 1],
    ],
    ["two pairs in one row", [["Force", 100, "kN", "Area", [200], "mm2"]], ["Area", "", "mm²", 1]],
    ["a gap between", [["Length of the tendon", null, null, [12], "m"]], ["Length of the tendon", "", "m", 1]],
    [
      "a table with heading",
      [
        ["tendon", "Stress (MPa)", "Area (mm2)"],
        ["T1", 1395, 150],
        ["T2", [1380], 150],
      ],
      ["Stress, T2", "", "MPa", 1],
    ],
    [
      "a table with a row of units",
      [
        ["point", "x", "e"],
        [null, "m", "mm"],
        [1, 0, 100],
        [2, 5, [300]],
      ],
      ["", "e", "mm", 1],
    ],
    ["per cent in words", [["Humidity", [70], "per cent"]], ["Humidity", "", "%", 1]],
    ["centimetres", [["Cover", [4], "cm"]], ["Cover", "", "mm", 10]],
    ["text stays text although it looks like a number", [["Year 2004", "Loss", [4], "%"]], ["Loss", "", "%", 1]],
    ["unit behind a comma", [["Force, kN", [1200]]], ["Force", "", "kN", 1]],
    [
      "unit behind a stroke",
      [
        ["x / m", "Force/kN"],
        [0, [1200]],
      ],
      ["Force", "", "kN", 1],
    ],
    ["unit behind words without brackets", [["Force P kN", [1200]]], ["Force P", "", "kN", 1]],
    ["a load by length without brackets", [["Self-weight kN/m", [12]]], ["Self-weight", "", "kN/m", 1]],
    ["a quotient is no unit", [["Ratio w/c", [0.4]]], ["Ratio w/c", "", undefined, undefined]],
    ["bars are no pressure", [["Diameter of Bars", [12]]], ["Diameter of Bars", "", undefined, undefined]],
    ["unit before the words end", [["E_cm (GPa) at 28 d", [34]]], ["E_cm at 28 d", "", "GPa", 1]],
    [
      "an argument in brackets is no unit",
      [["Strength f_cm (t) at release", [34]]],
      ["Strength f_cm (t) at release", "", undefined, undefined],
    ],
    ["unit behind a note in brackets", [["Force (kN) (note 2)", [12]]], ["Force (note 2)", "", "kN", 1]],
    ["a power of ten before the unit", [["I_c", [300], "10^6 mm^4"]], ["", "I_c", "mm⁴", 1e6]],
    ["a power of ten in brackets", [["Second moment (×10⁹ mm⁴)", [300]]], ["Second moment", "", "mm⁴", 1e9]],
    ["a power of ten alone", [["Shrinkage strain", [300], "x10-6"]], ["Shrinkage strain", "", "–", 1e-6]],
    [
      "a row that runs to the right",
      [
        ["x (m)", 0, 5, 10],
        ["Force (kN)", 1, 2, [3]],
      ],
      ["Force", "", "kN", 1],
    ],
    [
      "such a row under headings",
      [
        ["", "end", "middle"],
        ["Force (kN)", 1, [2]],
      ],
      ["middle, Force", "", "kN", 1],
    ],
    [
      "a row with another text between is none",
      [["Force (kN)", 1, "per strand", [2]]],
      ["per strand", "", undefined, undefined],
    ],
    ["a gap before the unit", [["Force", [1200], null, "kN"]], ["Force", "", "kN", 1]],
    ["colon", [["Prestress:", [4]]], ["Prestress", "", undefined, undefined]],
  ])("%s", (_, rows, expected) => expect(label(rows)).toEqual(expected));

  it("says nothing where no text stands", () =>
    expect(
      label([
        [null, null],
        [1, [2]],
      ]),
    ).toBeUndefined());
});

describe("units as people write them", () => {
  it.each([
    ["N/mm2", "MPa", 1],
    ["N/mm^2", "MPa", 1],
    ["kNm", "kN·m", 1],
    ["kN.m", "kN·m", 1],
    ["KN", "kN", 1],
    ["mm4", "mm⁴", 1],
    ["m2", "mm²", 1e6],
    ["kPa", "MPa", 1e-3],
    ["°", "rad", Math.PI / 180],
    ["1/m", "1/m", 1],
    ["rad/m", "rad/m", 1],
    ["hrs", "h", 1],
    ["kN-m", "kN·m", 1],
    ["sq.mm", "mm²", 1],
    ["10^3 kN", "kN", 1000],
    ["(mm)", "mm", 1],
  ])("%s", (text, unit, factor) => {
    expect(spelledUnit(text)).toMatchObject({ unit, factor });
  });

  it.each(["Force", "P", "", "kX", "2"])("“%s” is none", (text) => expect(spelledUnit(text)).toBeUndefined());

  it.each([
    ["kN", "N", 1000],
    ["MPa", "GPa", 1e-3],
    ["%", "–", 0.01],
    ["–", "%", 100],
    ["cm", "m", 0.01],
    ["1/m", "rad/m", undefined],
    ["kN", "mm", undefined],
  ] as const)("one %s in %s", (from, to, factor) => {
    const size = inUnit(spelledUnit(from)!, to);
    if (factor === undefined) expect(size).toBeUndefined();
    else expect(size).toBeCloseTo(factor, 12);
  });
});
