/**
 * Whole calculations by hand, typed by somebody other than the author of the method: what each formula computes, or is
 * nearly, as its writer stated it. Nothing may be called a rule that it is not.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { Calculation, keyOf, type Book } from "../../src/cells/index.ts";
import { Identifier, type IdentifyFinding } from "../../src/checker/index.ts";
import { Equations } from "../../src/checker/identify/equation/equations.ts";
import type { Match } from "../../src/checker/identify/match.ts";
import { offeredFormula } from "../../src/checker/identify/offer.ts";
import { libraryOfRules } from "../../src/checker/identify/rules.ts";
import { particulars } from "../../src/checker/identify/particular.ts";
import { bookOf, placeIn, type IdentifyCase } from "./set.ts";

interface ByHand extends Pick<IdentifyCase, "about" | "sheets" | "names"> {
  /** By cell of the first sheet: the function, "nearly" and the function, or nothing. */
  readonly expect: Readonly<Record<string, string>>;
}

interface Seen {
  readonly cell: string;
  readonly want: string;
  readonly finding: IdentifyFinding;
  readonly book: Book;
}

const folder = join(import.meta.dirname, "byHand");

function seenOf(file: string): readonly Seen[] {
  const one = JSON.parse(readFileSync(join(folder, file), "utf8")) as ByHand;
  const book = bookOf(one);
  const identifier = new Identifier(book);
  const sheet = Object.keys(one.sheets)[0]!;
  return Object.entries(one.expect).map(([cell, want]) => {
    return { cell, want, finding: identifier.identify(placeIn(`${sheet}!${cell}`)), book };
  });
}

const seen = readdirSync(folder).flatMap(seenOf);
const said = ({ verdict, found }: IdentifyFinding): string => {
  if (!found) return "";
  return verdict === "nearly" ? `nearly ${found.id}` : found.id;
};
const wanted = (kind: "rule" | "near" | "none"): readonly Seen[] =>
  seen.filter(({ want }) => kind === (want === "" ? "none" : want.startsWith("nearly ") ? "near" : "rule"));
const at = (formula: string): IdentifyFinding => seen.find(({ finding }) => finding.formula === formula)!.finding;

describe("calculations by hand", () => {
  it("are large", () => {
    expect(wanted("rule").length).toBeGreaterThanOrEqual(60);
    expect(wanted("near").length).toBeGreaterThanOrEqual(18);
    expect(wanted("none").length).toBeGreaterThanOrEqual(20);
  });

  it("get no name that is not theirs", () => {
    for (const { cell, want, finding } of seen)
      if (finding.verdict !== "unknown")
        expect([cell, finding.formula, said(finding)]).toEqual([cell, finding.formula, want]);
  });

  it("are recognised for the most part, and so are nearly all near misses", () => {
    const right = (kind: "rule" | "near"): number =>
      wanted(kind).filter(({ want, finding }) => said(finding) === want).length;
    expect(right("rule") / wanted("rule").length).toBeGreaterThanOrEqual(0.85);
    expect(right("near") / wanted("near").length).toBeGreaterThanOrEqual(0.95);
  });

  it("offer a call that gives the formula's value", () => {
    for (const { cell, want, finding, book } of seen) {
      const { found, place, formula } = finding;
      if (finding.verdict !== "identified" || said(finding) !== want) continue;
      // Cells put together to a range: the calculation of cells has no CHOOSE of several.
      if (found!.offered.includes("CHOOSE({")) continue;
      const calculation = new Calculation(book, [], { everything: true });
      const { value } = calculation.evaluate(found!.offered.slice(1), place.sheet)[0]![0]!;
      const own = calculation.valueAt(place).value as number;
      const difference = Math.abs((value as number) - own);
      expect(difference, `${cell} ${formula} ${found!.offered}`).toBeLessThanOrEqual(1e-9 * Math.abs(own));
    }
  });

  it("name the particular case, what it fixes, and that it is for others to set", () => {
    expect(at("=B20*B21^2/8").found!.offered).toBe('=KERN.MOMENT_UNIFORM(B21,B20,B21/2,"ENDS")');
    const stress = at("=B18*1000/B9+B18*1000*B17/B14-B19*10^6/B14").found!;
    expect(stress.open.join()).toContain("Any fibre with this modulus gives the same");
    const bursting = at("=0.25*B29*(1-B43/B44)");
    expect(bursting.verdict).toBe("nearly");
    expect(bursting.found!.differences[0]!.says).toContain("only where b is up to H/2; (6.59)");
    expect(at("=SQRT(B30/1000*Steel!B5/B31)").found!.open.join()).toContain("leaves the length of the tendon out");
    expect(at("=25*B9/10^6").found!.open.join()).toContain("25 for γc");
  });

  it("take a number typed in for an argument that people fix as the rule, and not as a mistake", () => {
    expect(at("=0.85*B21/1.5").verdict).toBe("identified");
  });

  it("say which number, sign or root is otherwise", () => {
    const says = (formula: string): string => at(formula).found!.differences[0]!.says;
    expect(says("=5/348*B20*(B21*1000)^4/(B8*B12)")).toBe("constant typed inside: 348; the rule has 384");
    expect(says("=EXP(0.3*(1-SQRT(28/B4)))")).toContain("the rule has 0.25 here");
    expect(says("=2.5*(B3-10)*10^-6*(1-EXP(-0.2*B4))")).toBe("t stands where the rule has √(t)");
    expect(says("=0.25*B29*(1+B43/B44)")).toContain("the other sign");
    expect(says("=SQRT(B30/1000*Steel!B5/(2*B31))")).toContain("factor of 2");
  });

  it("name all that gives the same numbers, and bounds as the rule has them", () => {
    expect(at("=B45*B46/10000").found).toMatchObject({ id: "JACK_FORCE", others: ["TENDON_FORCE"] });
    expect(at("=0.6*B3").found!.open.join()).toContain("CHARACTERISTIC or TRANSFER");
    expect(at("=0.3*POWER(B3,2/3)").found!.differences[0]!.says).toMatch(/only up to fck .* = 50 MPa/);
  });

  it("take forces in a law for stresses as they stand", () => {
    const { found } = at("=B29/EXP(B22*B25+B24*B26)");
    expect(found).toMatchObject({
      resultUnit: "kN",
      offered: '=KERN.FRICTION_STRESS(B25,B22,B24,"1/m",B29,B26)',
    });
    expect(found!.arguments.find(({ name }) => name === "sigma0")!.unit).toBe("kN");
    expect(found!.open.join()).toContain("The same law holds");
  });

  it("are told that what is not recognised may be a rule all the same", () => {
    expect(at("=4/3*PI()*B98^3").because).toContain("does not say that the library has no such rule");
  });
});

describe("a long sheet", () => {
  it("has its near misses told in every row, also where labels are out of sight and none stands by the result", () => {
    const head = ["s0", "mu", "alpha", "k", "x", "fck"];
    const rows = Array.from({ length: 200 }, (_, i) => {
      const row = i + 2;
      const formula = i % 2 === 0 ? `=0.31*F${row}^(2/3)` : `=A${row}*EXP(B${row}*(C${row}+D${row}*E${row}))`;
      return [1390 - (i % 50), 0.19, 0.1 + 0.001 * i, 0.008, 5 + (i % 20), 30 + (i % 20), null, formula];
    });
    const identifier = new Identifier(bookOf({ sheets: { Many: [head, ...rows] } }));
    const findings = identifier.formulasOf("Many").map((place) => identifier.identify(place));
    const ids = ["nearly CONCRETE_TENSILE_STRENGTH_EN1992_2004", "nearly FRICTION_STRESS"];
    expect(findings.map(said)).toEqual(findings.map((_, i) => ids[i % 2]));
  });
});

describe("particular cases", () => {
  const rules = [...libraryOfRules().rules.values()].flat().filter(({ particular }) => particular);

  it("are all searched", () => {
    expect(rules.map(({ particular }) => particular)).toEqual(expect.arrayContaining([...particulars()]));
  });

  it.each(rules.map((rule) => [`${rule.formula.id} ${Object.values(rule.choices).join()}`, rule] as const))(
    "%s is what the function gives with the arguments as they are written",
    (_, rule) => {
      for (const [k, point] of rule.points.slice(0, 8).entries()) {
        const book = bookOf({ sheets: { Inputs: point.map((value) => [value]) } });
        const inputs = point.map((value, i) => ({ key: keyOf(0, i, 0), label: undefined, value }));
        const order = point.map((_value, i) => i);
        const match = { rule, target: { inputs, cell: { sheet: 0 } }, order, scales: point.map(() => 1), out: 1 };
        const call = offeredFormula(book, match as unknown as Match);
        const { value } = new Calculation(book, [], { everything: true }).evaluate(call.slice(1), "Inputs")[0]![0]!;
        expect(Math.abs((value as number) / rule.values[k]! - 1), `${call} ${String(value)}`).toBeLessThan(1e-9);
        const equation = Equations.of(rule)!;
        expect(equation, "its equation and the function agree").toBeDefined();
      }
    },
  );
});
