/**
 * What is found of the formulas of the set, and of further ones written after the method stood. A part of the set is
 * enough to see what breaks; WHOLE_SET=1 takes all of it.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { Identifier, type IdentifyFinding } from "../../src/checker/index.ts";
import { cutsOf, cutsWithPart } from "../../src/checker/identify/cuts.ts";
import { partKey, Program, valueAt } from "../../src/checker/identify/program.ts";
import { Calculation, type Change } from "../../src/cells/index.ts";
import { bookOf, identifyCases, placeIn, type IdentifyCase } from "./set.ts";

/** A near miss by itself: the function's call with the sheet's cells, and the names of the departure that are right. */
interface FurtherNear extends Pick<IdentifyCase, "id" | "about" | "sheets" | "ask"> {
  readonly rule: string;
  readonly kinds: readonly string[];
}

const further = <T>(name: string): readonly T[] =>
  JSON.parse(readFileSync(join(import.meta.dirname, "further", `${name}.json`), "utf8")) as readonly T[];

const isWhole = process.env["WHOLE_SET"] === "1";
function some(groups: readonly IdentifyCase["group"][], each: number): readonly IdentifyCase[] {
  return identifyCases()
    .filter(({ group }) => groups.includes(group))
    .filter((_, i) => isWhole || i % each === 0);
}

function found(one: Pick<IdentifyCase, "sheets" | "names" | "ask">): IdentifyFinding {
  return new Identifier(bookOf(one)).identify(placeIn(one.ask));
}

const relative = (a: number, b: number): number => Math.abs(a / b - 1);

/** The names that the set has for a departure as it is told. */
const namesOf: Readonly<Record<string, readonly string[]>> = {
  quantity: ["age"],
  exchanged: ["exchanged", "age"],
  typed: ["constant"],
  exponent: ["exponent", "constant", "term"],
  sign: ["term"],
};

const isNamed = ({ found: rule }: IdentifyFinding, kinds: readonly string[]): boolean => {
  const kind = rule?.differences[0]?.kind ?? "";
  return (namesOf[kind] ?? [kind]).some((name) => kinds.includes(name));
};

/** Whether the function that is offered gives the formula's value, with the sheet's numbers and with others nearby. */
function isOffered(one: IdentifyCase, { found: rule }: IdentifyFinding): boolean {
  const book = bookOf(one);
  const inputs = rule!.arguments.flatMap(({ from, kind }) => (kind === "cell" && !from.includes("!") ? [from] : []));
  return [0, 1, 2].every((turn) => {
    const changes = inputs.flatMap((cell, i): Change[] => {
      const place = placeIn(`${placeIn(one.ask).sheet}!${cell}`);
      const value = book.hostValue(book.sheetNumber(place.sheet)!, place.row, place.column);
      const isCount = Number.isInteger(value) && Math.abs(value as number) < 6;
      if (turn === 0 || isCount || book.formulas.cells.has(book.keyOf(place))) return [];
      return [{ ...place, value: (value as number) * (1 + 0.01 * Math.sin(turn + 3 * i)) }];
    });
    const calculation = new Calculation(book, changes, { everything: true });
    const offered = calculation.evaluate(rule!.offered.slice(1), placeIn(one.ask).sheet)[0]![0]!;
    return relative(offered.value as number, calculation.valueAt(placeIn(one.ask)).value as number) < 1e-8;
  });
}

describe("what is found of the set", () => {
  it("identifies rules in other guises, each with the function that gives the same values", () => {
    const cases = some(["identified", "plain"], 8);
    let right = 0;
    for (const one of cases) {
      const finding = found(one);
      if (finding.verdict !== "identified") continue;
      expect([one.expect!.function, ...(one.expect!.also ?? [])], one.id).toContain(finding.found!.id);
      expect(isOffered(one, finding), `${one.id}: ${finding.found!.offered}`).toBe(true);
      right++;
    }
    expect(right / cases.length).toBeGreaterThanOrEqual(0.85);
  });

  it("names near misses and what they come to, and calls none of them the rule", () => {
    const cases = some(["near"], 3);
    let right = 0;
    for (const one of cases) {
      const finding = found(one);
      const { function: id, also = [], departs } = one.expect!;
      expect(finding.verdict, one.id).not.toBe("identified");
      if (finding.verdict !== "nearly" || ![id, ...also].includes(finding.found!.id)) continue;
      const { effect } = finding.found!.differences[0]!;
      if (isNamed(finding, departs!.kinds) && effect !== undefined && relative(1 + effect, departs!.ratio) < 1e-4)
        right++;
    }
    expect(right / cases.length).toBeGreaterThanOrEqual(0.8);
  });

  it("calls nothing the rule that agrees with it in a part of its range alone, and says what part", () => {
    // (10.1) is for ages up to 28 days, and the function refuses others: the formula agrees wherever there is a rule.
    const cases = identifyCases().filter(({ where, id }) => where !== undefined && id !== "heat-cured");
    const told = new Map(cases.map((one) => [one.id, found(one)]));
    for (const [id, { verdict, found: rule }] of told) {
      expect(verdict, id).not.toBe("identified");
      if (verdict !== "nearly") continue;
      expect(rule!.differences[0]!.kind, id).toBe("case");
      expect(rule!.evidence.agreeing, id).toBeLessThan(rule!.evidence.points);
    }
    const says = (id: string): string => told.get(id)!.found!.differences[0]!.says;
    expect(says("creep-en-one-cell")).toContain("only from fcm (mean cylinder strength at 28 days) = 35 MPa on");
    expect(says("fctm-high")).toContain("= 50 MPa on");
    expect(says("interface")).toContain("= 0 MPa on");
  });

  it("names nothing for what is no rule", () => {
    for (const one of some(["unknown"], 12)) expect(found(one).verdict, one.id).toBe("unknown");
  });
});

/** The same with another sheet before it on which nothing is written beside the numbers. */
function afterBare(one: IdentifyCase): IdentifyFinding {
  const [[name, rows]] = Object.entries(one.sheets) as [[string, (typeof one.sheets)[string]]];
  const bare = rows.map((row) => row.map((cell) => (typeof cell === "string" && !cell.startsWith("=") ? null : cell)));
  const identifier = new Identifier(bookOf({ ...one, sheets: { Bare: bare, [name]: rows } }));
  const place = placeIn(one.ask);
  identifier.identify({ ...place, sheet: "Bare" });
  return identifier.identify(place);
}

describe("labels beside a formula count", () => {
  it("whatever was found of the same formula without labels", () => {
    const cases = some(["identified", "plain", "near"], 6).filter(
      ({ sheets, names }) => Object.keys(sheets).length === 1 && !names,
    );
    expect(cases.length).toBeGreaterThan(15);
    for (const one of cases) {
      const [alone, after] = [found(one), afterBare(one)];
      expect([after.verdict, after.found?.id, after.found?.differences[0]?.kind], one.id).toEqual([
        alone.verdict,
        alone.found?.id,
        alone.found?.differences[0]?.kind,
      ]);
    }
  });
});

describe("what is found of further formulas", () => {
  it("names near misses and what they come to", () => {
    const cases = further<FurtherNear>("near");
    expect(cases.length).toBeGreaterThanOrEqual(30);
    let right = 0;
    for (const one of cases) {
      const finding = found(one);
      expect(finding.verdict, one.id).not.toBe("identified");
      if (finding.verdict !== "nearly" || !one.rule.startsWith(`KERN.${finding.found!.id}(`)) continue;
      const calculation = new Calculation(bookOf(one), [], { everything: true });
      const rule = calculation.evaluate(one.rule, placeIn(one.ask).sheet)[0]![0]!.value as number;
      const ratio = (calculation.valueAt(placeIn(one.ask)).value as number) / rule;
      const told = 1 + finding.found!.differences[0]!.effect!;
      // Sheet and function may have other units: powers of ten.
      const powers = Math.log10(Math.abs(ratio / told));
      if (isNamed(finding, one.kinds) && Math.abs(powers - Math.round(powers)) < 1e-6) right++;
    }
    expect(right / cases.length).toBeGreaterThanOrEqual(0.8);
  });

  it("names nothing for what is no rule", () => {
    const cases = further<IdentifyCase>("unknown");
    expect(cases.length).toBeGreaterThanOrEqual(30);
    for (const one of cases) expect(found(one).verdict, one.id).toBe("unknown");
  });
});

describe("plain arithmetic", () => {
  it("gives what the calculation of cells gives, for every way to look at a formula", () => {
    let compared = 0;
    for (const one of some(["identified", "near"], 6)) {
      const book = bookOf(one);
      const cell = book.formulas.cells.get(book.keyOf(placeIn(one.ask)))!;
      for (const { part, inputs, steps } of [...cutsOf(book, cell), ...cutsWithPart(book, cell)]) {
        const program = new Program(book, part ? steps[0]! : cell, inputs, steps, part?.around);
        const base = inputs.map((key) => (part && key === partKey ? part.value : (valueAt(book, key) as number)));
        for (const turn of [0, 1, 2]) {
          const given = base.map((value, i) => value * (1 + 0.3 * Math.sin(turn * (i + 1))));
          const [quick, asCells] = [program.run(given), program.runAsCells(given)];
          if (Number.isNaN(asCells)) expect(quick, one.id).toBeNaN();
          else expect(quick, one.id).toBeCloseTo(asCells, 12 - Math.ceil(Math.log10(Math.abs(asCells) + 1e-300)));
          compared++;
        }
      }
    }
    expect(compared).toBeGreaterThan(200);
  });
});
