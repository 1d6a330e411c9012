import { describe, expect, it } from "vitest";
import {
  declarations,
  neighbourHint,
  neighboursOf,
  outside,
  q,
  unusual,
  valueWarnings,
  type Neighbour,
  type Parameter,
  type Quantity,
} from "../../src/core/index.ts";
import { allTemplates } from "../../src/templates/index.ts";
import { boundsOf, says, type InputSpec, type Saying, type Template } from "../../src/sheet/index.ts";
import { everydayValues, sequence, undrawable } from "./everyday.ts";
import { exceptions, type Exception } from "./exceptions.ts";

const drawsEach = 40;

/** Every number that a parameter takes: in each table that a range may be, and as each quantity that another argument may make of it. */
function numbersOf(parameter: Parameter, where: string): readonly { readonly q: Quantity; readonly where: string }[] {
  // What a choice decides is judged as it is with each choice that asks for it.
  if (parameter.varies)
    return Object.entries(parameter.varies.as).flatMap(([value, own]) => numbersOf(own, `${where} with ${value}`));
  if (parameter.kind === "number")
    return parameter.follows
      ? Object.entries(parameter.follows.as).map(([value, one]) => ({ q: one, where: `${where} in ${value}` }))
      : [{ q: parameter, where }];
  if (parameter.kind !== "table") return [];
  if (parameter.kinds)
    return Object.entries(parameter.kinds.tables).flatMap(([is, table]) => numbersOf(table, `${where} as ${is}`));
  return Object.entries(parameter.columns).flatMap(([column, one]) => numbersOf(one, `${where}.${column}`));
}

/** Every number that some function takes, once for each range it takes it in. */
function argumentsOfFunctions(): ReadonlyMap<string, { readonly q: Quantity; readonly of: readonly string[] }> {
  const out = new Map<string, { q: Quantity; of: string[] }>();
  const note = (one: Quantity, of: string): void => {
    const key = `${one.key} ${JSON.stringify([one.min, one.above, one.max, one.below, one.typical, one.smallest])}`;
    const known = out.get(key) ?? { q: one, of: [] };
    out.set(key, { q: known.q, of: [...known.of, of] });
  };
  for (const { id, params } of declarations)
    for (const [name, parameter] of Object.entries(params))
      for (const { q: one, where } of numbersOf(parameter, `${id}.${name}`)) note(one, where);
  return out;
}

/** The inputs of a template, whatever its shape, as the sheet judges them. */
function inputsOf(template: Template): readonly { readonly id: string; readonly q: Quantity }[] {
  return template.blocks
    .flatMap(({ items }) => items)
    .flatMap((item): readonly (Saying & { readonly input?: InputSpec })[] => {
      if ("table" in item) return item.columns;
      return "id" in item ? [item] : [];
    })
    .flatMap((saying) => {
      const { input } = saying;
      if (!input || input.choices || input.freeText) return [];
      const { quantity } = says(saying);
      if (!quantity) return [];
      const { min: _min, max: _max, above: _above, below: _below, ...rest } = quantity;
      return [{ id: saying.id, q: { ...rest, ...boundsOf(input, quantity) } }];
    });
}

const noticed = (one: Quantity, value: number): boolean =>
  outside(one, value) !== undefined || valueWarnings(one, value).length > 0;

function exceptionFor(one: Quantity, { name }: Neighbour): Exception | undefined {
  return exceptions.find(
    ({ quantity, typical, typedIn }) =>
      quantity === one.key &&
      typedIn === name &&
      (typical === undefined || JSON.stringify(typical) === JSON.stringify(one.typical)),
  );
}

interface Tally {
  draws: number;
  readonly silent: string[];
  readonly used: Set<Exception>;
}

/** Tries every neighbouring unit with everyday values of a quantity and notes what passes silently. */
function confuse(one: Quantity, where: string, random: () => number, tally: Tally): void {
  const units = neighboursOf(one);
  if (units.length === 0) return;
  const why = undrawable(one);
  if (why !== undefined) return void tally.silent.push(`${one.key} ${why} (${where})`);
  for (const unit of units) {
    const values = everydayValues(one, drawsEach, random);
    tally.draws += values.length;
    const slips = values.filter((value) => !noticed(one, value * unit.factor));
    if (slips.length === 0) continue;
    const exception = exceptionFor(one, unit);
    if (exception) tally.used.add(exception);
    else
      tally.silent.push(
        `${one.key} [${String(one.typical)}] typed in ${unit.name}: ${slips.length} of ${values.length} pass ` +
          `silently, such as ${slips[0]} as ${slips[0]! * unit.factor} (${where})`,
      );
  }
}

const newTally = (): Tally => ({ draws: 0, silent: [], used: new Set() });

describe("a value in a neighbouring unit is refused or warned of", () => {
  const ofFunctions = newTally();
  const ofTemplates = newTally();

  it("as an argument of every function", () => {
    const random = sequence(2004);
    for (const { q: one, of } of argumentsOfFunctions().values()) confuse(one, of[0]!, random, ofFunctions);
    expect(ofFunctions.silent).toEqual([]);
    expect(ofFunctions.draws).toBeGreaterThan(8000);
    console.log(`arguments of functions: ${ofFunctions.draws} draws`);
  });

  it("as an input of every template", () => {
    const random = sequence(1343);
    for (const template of allTemplates)
      for (const { id, q: one } of inputsOf(template)) confuse(one, `${template.id} ${id}`, random, ofTemplates);
    expect(ofTemplates.silent).toEqual([]);
    expect(ofTemplates.draws).toBeGreaterThan(8000);
    console.log(`inputs of templates: ${ofTemplates.draws} draws`);
  });

  it("with no exception that is not needed", () => {
    const idle = exceptions.filter((one) => !ofFunctions.used.has(one) && !ofTemplates.used.has(one));
    expect(idle).toEqual([]);
    for (const { because } of exceptions) expect(because.length).toBeGreaterThan(30);
  });
});

describe("everyday values", () => {
  it("are allowed, and are not warned of", () => {
    const random = sequence(7);
    for (const one of Object.values(q)) {
      if (!one.typical || undrawable(one) !== undefined) continue;
      for (const value of everydayValues(one, 10, random))
        expect(unusual(one, value), `${one.key} ${value}`).toBe(undefined);
    }
  });

  it("hold 0 where a smallest one is said, and what adding up leaves of it", () => {
    const { moment } = q;
    expect(unusual(moment, 0)).toBeUndefined();
    expect(unusual(moment, 1e-12)).toBeUndefined();
    expect(unusual(moment, 0.01)).toBe("small");
  });
});

describe("the message", () => {
  it("asks for the unit in which the value would be an everyday one", () => {
    expect(neighbourHint(q.relativeHumidity, 0.7)).toBe("A value in parts of 1, not per cent?");
    expect(neighbourHint(q.finalRelaxationTime, 57)).toBe("A value in years?");
    expect(neighbourHint(q.ageAtEndOfService, 57)).toBe("A value in years?");
    expect(neighbourHint(q.span, 24000)).toBe("A value in mm?");
    expect(neighbourHint(q.frictionCoefficient, 19)).toBe("A value in per cent?");
    expect(neighbourHint(q.angleChange, 20)).toBe("A value in degrees?");
  });

  it("asks nothing of a value that is odd in every unit", () => {
    expect(neighbourHint(q.relativeHumidity, 20)).toBe("");
    expect(neighbourHint(q.span, -3)).toBe("");
  });
});
