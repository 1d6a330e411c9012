import { describe, expect, it } from "vitest";
import fc from "fast-check";
import { align } from "../../src/checker/recognise/align.ts";
import { outlineOf } from "../../src/checker/recognise/rows.ts";
import { normalNow, normalPlanned } from "../../src/cells/language/normal.ts";
import { formulaChange } from "../../src/checker/compare/formulaChange.ts";
import { formatChange, hidesNumbers, hidesTexts } from "../../src/checker/compare/numberFormat.ts";
import { gathered } from "../../src/checker/compare/finding.ts";
import { newer } from "../../src/checker/compare/sheetWide.ts";

const same =
  (a: readonly string[], b: readonly string[]) =>
  (p: number, n: number): number =>
    a[p] === b[n] ? 4 : 0;
const aligned = (a: readonly string[], b: readonly string[]): readonly number[] => [...align(a, b, same(a, b))];

describe("pairing of rows", () => {
  it("finds rows that were inserted and deleted", () => {
    expect(aligned(["a", "b", "c", "d"], ["a", "b", "c", "d"])).toEqual([0, 1, 2, 3]);
    expect(aligned(["a", "b", "c", "d"], ["a", "x", "b", "c", "d"])).toEqual([0, 2, 3, 4]);
    expect(aligned(["a", "b", "c", "d"], ["a", "d"])).toEqual([0, -1, -1, 1]);
    expect(aligned([], ["a"])).toEqual([]);
    expect(aligned(["a"], [])).toEqual([-1]);
  });

  it("pairs a row that was changed with the one in its place", () => {
    expect(aligned(["a", "b", "c"], ["a", "changed", "c"])).toEqual([0, 1, 2]);
  });

  it("never crosses, and pairs all rows that stand once in both after some were taken out of one and others put into it", () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 0, max: 500 }), { maxLength: 60 }),
        fc.array(fc.boolean(), { minLength: 60, maxLength: 60 }),
        fc.array(fc.nat(60), { maxLength: 8 }),
        (rows, stays, inserted) => {
          const before = rows.map((n) => `row ${n}`);
          const after = before.filter((_, i) => stays[i]);
          inserted.forEach((at, i) => after.splice(Math.min(at, after.length), 0, `new ${i}`));
          const pairs = aligned(before, after);
          before.forEach((row, i) => {
            if (stays[i]) expect(after[pairs[i]!]).toBe(row);
          });
          const found = pairs.filter((n) => n >= 0);
          expect(found).toEqual([...found].sort((a, b) => a - b));
          expect(new Set(found).size).toBe(found.length);
        },
      ),
    );
  });
});

describe("formulas as they are compared", () => {
  it("leave out what only looks different", () => {
    expect(normalNow("=kern.friction_stress( 'Beam'!$D7 , Beam!D6,,\"1/m\", $D$5)", "Beam")).toBe(
      '=KERN.FRICTION_STRESS(D7,D6,,"1/m",D5)',
    );
    expect(normalNow("=_xldudf_KERN_VERSION()", "Beam")).toBe("=KERN.VERSION()");
    expect(normalNow("=@SUM(d5:d9)", "Beam")).toBe("=SUM(D5:D9)");
    expect(normalNow("=@KERN.VERSION()+@D5", "Beam")).toBe("=KERN.VERSION()+D5");
    for (const range of ["D5:D9", "$D$5:$D$9", "D:D", "5:5", "Beam!D5:D9", "'Beam'!D5:D9"])
      expect(normalNow(`=SUM(@${range})`, "Beam"), range).toContain("@");
  });

  it("keep texts, other sheets, and names of functions that look like cells", () => {
    expect(normalNow('=IF(D5="d 5 $A$1",LOG10(D5),Other!D5)', "Beam")).toBe(
      "=IF(D5=\"d 5 $A$1\",LOG10(D5),'OTHER'!D5)",
    );
    expect(normalNow("='My ''beam'''!D5:E6", "My 'beam'")).toBe("=D5:E6");
    expect(normalNow("=#REF!+D5", "Beam")).toBe("=#REF!+D5");
    // Programs leave names of letters alone unquoted, whatever the alphabet.
    expect(normalNow("=Träger!D5+Балка!$D$6+Größe1", "Träger")).toBe("=D5+'БАЛКА'!D6+GRÖSSE1");
    expect(normalNow("=@Träger!D5:D9+@D5", "Träger")).toBe("=@D5:D9+D5");
  });

  const without = (gone: readonly number[]) => ({
    row: (r: number) => (gone.includes(r) ? undefined : r - gone.filter((g) => g < r).length),
    column: (c: number) => c,
  });
  it("follow rows that moved, and lose those that are gone", () => {
    expect(normalPlanned("=$D$5+$D$9", without([6]))).toBe("=D5+D8");
    expect(normalPlanned("=$D$7+$D$9", without([6]))).toBe("=#REF!+D8");
    expect(normalPlanned("=SUM($D$5:$D$9)", without([4, 8]))).toBe("=SUM(D5:D7)");
    expect(normalPlanned("=SUM($D$5:$D$6)", without([4, 5]))).toBe("=SUM(#REF!)");
    expect(normalPlanned("=SUM($D$5:$D$9)", { row: (r) => r + (r >= 6 ? 2 : 0), column: (c) => c + 1 })).toBe(
      "=SUM(E5:E11)",
    );
  });

  it("have an outline that does not change when rows move", () => {
    expect(outlineOf('=IF($D$5>0,SUM($F5:$F9),"D5")')).toBe(outlineOf('=IF($D$7>0,SUM($F7:$F19),"D5")'));
    expect(outlineOf("=LOG10(D5)")).not.toBe(outlineOf("=LOG10(D5)+1"));
    expect(outlineOf("=A1+#REF!")).toBe(outlineOf("=A1+B9"));
  });
});

describe("what was changed in a formula", () => {
  const kind = (a: string, b: string): string | undefined => formulaChange(a, b)?.kind;
  it("tells kinds of changes apart", () => {
    expect(kind("=D5*0.85", "=D5*0.850")).toBeUndefined();
    expect(kind("=D5*0.85", "=D5*0.8")).toBe("constant changed");
    expect(kind('=IF(D5="A",1,0)', '=IF(D5="B",1,0)')).toBe("constant changed");
    expect(kind("=KERN.F(D5,D6)", "=KERN.F(D6,D5)")).toBe("arguments in another order");
    expect(kind("=SUM(D5:D9)", "=SUM(D6:D10)")).toBe("range changed");
    expect(kind("=D5+D6", "=D5+D7")).toBe("other cells");
    expect(kind("=D5+D6", "=D5+#REF!")).toBe("lost cells");
    expect(kind("=MAX(D5,D6)", "=MIN(D5,D6)")).toBe("formula changed");
    expect(kind("=D5", "=D5*1.1")).toBe("formula changed");
  });
});

describe("number formats", () => {
  it("hide a value where a section shows no digit", () => {
    for (const format of [";;;", '""', "0.00;0.00;", '"ok"', "0.0;;0.0", '"OK";"OK";"OK"'])
      expect(hidesNumbers(format), format).toBe(true);
    for (const format of [
      "General",
      "0.00",
      "#,##0",
      "0.000E+00",
      '0.0" kN"',
      "0%",
      "[Red]0.0;-0.0",
      "yyyy-mm-dd",
      "0.0_);(0.0)",
      "@",
    ])
      expect(hidesNumbers(format === "@" ? "0;0;0;@" : format), format).toBe(false);
  });

  it("differ more or less gravely", () => {
    expect(formatChange("0.00", "0.00")).toBeUndefined();
    expect(formatChange("0.00", ";;;")).toMatchObject({ kind: "value hidden by format", grade: "serious" });
    expect(formatChange("0.00", "0%")).toMatchObject({ grade: "look" });
    expect(formatChange("0.00", "0")).toMatchObject({ grade: "look" });
    expect(formatChange("0.00", "0.0000")).toMatchObject({ grade: "note" });
    expect(formatChange("0.0", '0.0" kN"')).toMatchObject({ grade: "look" });
  });

  it("may show another number, or hide it in other ways than by leaving it out", () => {
    for (const format of ["[White]0.00", "[Color 2]0.00", "0.00;[White]-0.00", '"0.85"'])
      expect(formatChange("0.00", format), format).toMatchObject({ kind: "value hidden by format", grade: "serious" });
    for (const format of ["0.00;0.00", "-0.00"])
      expect(formatChange("0.00", format), format).toMatchObject({ grade: "serious" });
    for (const format of ["0,.00", "0.00,", "ss.00", "yyyy-mm-dd"])
      expect(formatChange("0.00", format), format).toMatchObject({ grade: "look" });
    for (const format of ["#,##0.00", "0.00;-0.00", "0.00_);(0.00)", "0.00E+00", "[$-409]0.00", "@"])
      expect(formatChange("0.00", format)?.grade, format).not.toBe("serious");
  });

  it("may hide a text or show another one", () => {
    for (const format of [
      ";;;",
      "General;General;General;",
      'General;General;General;"OK"',
      "General;General;General;[White]@",
      '"kN"@',
    ])
      expect(hidesTexts(format), format).toBe(true);
    for (const format of ["General", "0.00", "@", "0;-0;0;@", '0.0" kN"', '_(* #,##0_);_(* (#,##0);_(* "-"_);_(@_)'])
      expect(hidesTexts(format), format).toBe(false);
    expect(formatChange("General", 'General;General;General;"OK"')).toMatchObject({
      kind: "value hidden by format",
      grade: "serious",
    });
  });
});

describe("a list of findings", () => {
  it("makes one of equal ones below each other", () => {
    const one = (row: number, column = 3) =>
      ({ kind: "typed over", grade: "serious", what: "x", label: "5.1 force", at: { row, column } }) as const;
    expect(gathered([one(5), one(6), one(7), one(9), one(6, 4)]).map(({ at, rows }) => [at!.row, rows ?? 1])).toEqual([
      [5, 3],
      [9, 1],
      [6, 1],
    ]);
  });

  it("never makes a graver one part of a slighter one", () => {
    const one = (row: number, grade: "note" | "look") =>
      ({ kind: "format changed", grade, what: "x", label: "6.1 place", at: { row, column: 3 } }) as const;
    expect(
      gathered([one(5, "note"), one(6, "look"), one(7, "look")]).map(({ grade, rows }) => [grade, rows ?? 1]),
    ).toEqual([
      ["note", 1],
      ["look", 2],
    ]);
  });

  it("knows which version is newer", () => {
    expect(newer("1.10.0", "1.9.3")).toBeGreaterThan(0);
    expect(newer("1.4.0", "1.4.0")).toBe(0);
    expect(newer("0.9.9", "1.0.0")).toBeLessThan(0);
  });
});
