import { describe, expect, it } from "vitest";
import { worksheetFunctions, type FunctionParameter } from "../../functions/index.ts";
import { bookOfSheets } from "../../src/checker/index.ts";
import { Calculation, cellAt, quotedSheet, splitSheet, type Change } from "../../src/cells/index.ts";
import { unitFactor, unitNames, type Unit } from "../../src/core/units.ts";
import {
  departures,
  identifyCases,
  placeIn,
  sheetsOf,
  type Answer,
  type CaseArgument,
  type IdentifyCase,
} from "./set.ts";

const cases = identifyCases();
const inGroup = (...groups: readonly IdentifyCase["group"][]) => cases.filter(({ group }) => groups.includes(group));

function parametersOf({ function: id }: Answer): readonly FunctionParameter[] {
  const found = worksheetFunctions.find((f) => f.id === id);
  if (!found) throw new Error(`there is no function ${id}`);
  return found.parameters;
}

const quoted = (reference: string): string => {
  const { sheet, rest } = splitSheet(reference);
  return `${quotedSheet(sheet!)}!${rest}`;
};

function written({ cell, range, choice, value, times = 1 }: CaseArgument): string {
  if (choice !== undefined) return `"${choice}"`;
  if (value !== undefined) return String(value);
  if (range !== undefined) return quoted(range);
  return `${quoted(cell!)}*${times}`;
}

/** The call that the answer stands for. */
function callOf(answer: Answer): string {
  const args = parametersOf(answer).map(({ name }) => {
    const argument = answer.arguments[name];
    return argument ? written(argument) : "";
  });
  return `KERN.${answer.function}(${args.join(",").replace(/,+$/, "")})`;
}

/** The asked cell in the function's unit, and the function of the same cells. */
function bothWays(one: IdentifyCase, changes: readonly Change[] = []) {
  const calculation = new Calculation(bookOfSheets(sheetsOf(one)), changes, { everything: true });
  const asked = placeIn(one.ask);
  const answer = one.expect!;
  const rule = calculation.evaluate(callOf(answer), asked.sheet)[0]![0]!;
  expect(rule.error, callOf(answer)).toBeUndefined();
  return {
    typed: (calculation.valueAt(asked).value as number) * (answer.result.times ?? 1),
    rule: rule.value as number,
  };
}

/** The cells that are arguments and hold numbers typed in; those that count things stay as they are. */
function numbersOf(one: IdentifyCase) {
  const sheets = sheetsOf(one);
  const cells = parametersOf(one.expect!).flatMap(({ name, parameter }) => {
    const cell = one.expect!.arguments[name]?.cell;
    return cell !== undefined && parameter.kind === "number" && !parameter.whole ? [cell] : [];
  });
  return [...new Set(cells)].flatMap((cell) => {
    const place = placeIn(cell);
    const { value } = cellAt(
      sheets.find(({ sheet }) => sheet === place.sheet)!,
      place.row,
      place.column,
    );
    return typeof value === "number" ? [{ ...place, value }] : [];
  });
}

/** The numbers of the sheet moved a little, each by another share. */
const moved = (one: IdentifyCase, turn: number): readonly Change[] =>
  numbersOf(one).map((place, i) => ({ ...place, value: place.value * (1 + 0.02 * Math.sin(turn + 3 * i)) }));

const relative = (a: number, b: number): number => Math.abs(a / b - 1);

describe("the set", () => {
  it("is as large as it has to be, over many functions, each case under a name of its own", () => {
    expect(new Set(cases.map(({ id }) => id)).size).toBe(cases.length);
    expect(inGroup("identified").length).toBeGreaterThanOrEqual(60);
    expect(new Set(inGroup("identified").map(({ expect: e }) => e!.function)).size).toBeGreaterThanOrEqual(30);
    expect(inGroup("near").length).toBeGreaterThanOrEqual(30);
    expect(inGroup("unknown").length).toBeGreaterThanOrEqual(200);
  });

  it.each(cases.map((one) => [one.id, one] as const))(
    "%s asks of a formula, and answers where there is one",
    (_, one) => {
      const { sheet, row, column } = placeIn(one.ask);
      const asked = sheetsOf(one).find((s) => s.sheet === sheet)!;
      expect(cellAt(asked, row, column).formula).toMatch(/^=./);
      expect(one.expect === undefined).toBe(one.group === "unknown");
      expect(one.expect?.departs === undefined).toBe(one.group !== "near");
    },
  );
});

describe("answers", () => {
  const answered = inGroup("identified", "plain", "near").map((one) => [one.id, one] as const);

  it.each(answered)("%s names arguments that the function has, in units that agree with their factors", (_, one) => {
    const { function: id, arguments: given, either = [], also = [], departs } = one.expect!;
    const parameters = new Map(parametersOf(one.expect!).map((p) => [p.name, p.parameter]));
    expect([...parameters.keys()]).toEqual(expect.arrayContaining(Object.keys(given)));
    expect(Object.keys(given)).toEqual(expect.arrayContaining(either.flat()));
    if (departs?.argument !== undefined) expect([...parameters.keys()]).toContain(departs.argument);
    expect(worksheetFunctions.map((f) => f.id)).toEqual(expect.arrayContaining([id, ...also]));
    const known = (unit: string): unit is Unit => (unitNames as readonly string[]).includes(unit);
    for (const [name, { cell, unit, times = 1 }] of Object.entries(given)) {
      const parameter = parameters.get(name)!;
      if (cell === undefined || unit === undefined || parameter.kind !== "number") continue;
      // Of some arguments the unit follows from a choice.
      const to = parameter.unit.split(/, | or /)[0]!;
      if (known(unit) && known(to) && !parameter.unit.includes(" or ") && unit !== "–" && to !== "–")
        expect(relative(times, unitFactor(unit, to)), `${name} in ${unit}`).toBeLessThan(1e-12);
    }
  });
});

describe("formulas that are a rule", () => {
  const ruled = inGroup("identified", "plain").map((one) => [one.id, one] as const);

  it.each(ruled)("%s gives the function's value, with the sheet's numbers and with others nearby", (_, one) => {
    for (const changes of [[], moved(one, 1), moved(one, 2), moved(one, 5)]) {
      const { typed, rule } = bothWays(one, changes);
      expect(relative(typed, rule)).toBeLessThan(1e-9);
    }
  });
});

describe("near misses", () => {
  it.each(inGroup("near").map((one) => [one.id, one] as const))("%s differs by what is stated", (_, one) => {
    const { ratio, kinds } = one.expect!.departs!;
    const { typed, rule } = bothWays(one);
    expect(relative(typed / rule, ratio)).toBeLessThan(1e-6);
    expect(Math.abs(ratio - 1)).toBeGreaterThan(1e-4);
    expect(kinds.length).toBeGreaterThan(0);
    expect(departures).toEqual(expect.arrayContaining([...kinds]));
  });
});

describe("formulas that are no rule", () => {
  it.each(inGroup("unknown").map((one) => [one.id, one] as const))("%s computes", (_, one) => {
    const calculation = new Calculation(bookOfSheets(sheetsOf(one)), [], { everything: true });
    const computed = calculation.valueAt(placeIn(one.ask));
    if (one.beyond !== undefined) {
      expect(computed.cannot).toContain(one.beyond);
      return;
    }
    expect(computed.cannot).toBeUndefined();
    expect(computed.error).toBeUndefined();
    expect(["number", "string", "boolean"]).toContain(typeof computed.value);
  });
});
