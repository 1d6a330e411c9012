import { all, create } from "mathjs";
import { describe, expect, it } from "vitest";
import { worksheetFunctions, type WorksheetFunction } from "../../functions/index.ts";
import {
  nameOf,
  parametersFor,
  read,
  readFactor,
  trace,
  type Argument,
  type Bounds,
  type Cell,
  type Formula,
  type Quantity,
  type Steps,
} from "../../src/core/index.ts";
import { evaluateSteps } from "../../src/checker/trace/secondEvaluation.ts";
import { next } from "./draws.ts";
import { basesOf, drawArguments } from "./fuzz.ts";
import { randomFrom } from "./random.ts";

const seed = 1980;
const declared = worksheetFunctions.filter(({ formula, spill }) => formula ?? spill);

/** A number parameter or a column of a range, and how to put a value there. */
interface Place {
  readonly name: string;
  /** The column that tells which of several tables the range is: words there make another table of it. */
  readonly tells: boolean;
  readonly quantity: Quantity;
  readonly put: (args: readonly Argument[], value: Cell) => readonly Argument[];
}

/** Where numbers stand in a call, each with the quantity it is there. What is left blank stays so. */
function placesOf(f: WorksheetFunction, call: readonly Argument[]): readonly Place[] {
  const inForce = parametersFor((f.formula ?? f.spill)!, call);
  return f.parameters.flatMap(({ name, parameter: own }, at): readonly Place[] => {
    const parameter = inForce[at]!;
    if (call[at] === null) return [];
    if (parameter.kind === "number")
      return [
        {
          name,
          tells: false,
          quantity: parameter,
          put: (args, value) => args.map((arg, i) => (i === at ? value : arg)),
        },
      ];
    if (parameter.kind !== "table" || (call[at] as readonly unknown[]).length === 0) return [];
    const columns = Object.values(parameter.columns);
    return columns.flatMap((column, c) => {
      if (column.kind !== "number") return [];
      const put: Place["put"] = (args, value) =>
        args.map((arg, i) =>
          i === at
            ? (arg as readonly (readonly Cell[])[]).map((row, r) =>
                r === 0 ? row.map((cell, n) => (n === c ? value : cell)) : row,
              )
            : arg,
        );
      const tells = own.kind === "table" && own.kinds !== undefined && columns.length === 3 && c === 2;
      return [{ name: `${name}.${column.symbol}`, tells, quantity: column, put }];
    });
  });
}

/**
 * One call of each form: with every table that a range may be, every quantity that a choice makes of a number, and
 * what may stay blank given or not.
 */
function formsOf(f: WorksheetFunction): readonly (readonly Argument[])[] {
  const forms = new Map<string, readonly Argument[]>();
  for (const args of basesOf(f, seed)) {
    const given = parametersFor((f.formula ?? f.spill)!, args).map(({ key }, i) => {
      const arg = args[i];
      return Array.isArray(arg) ? `${key} ${arg.length > 0}` : `${key} ${arg !== null}`;
    });
    const form = given.join();
    if (!forms.has(form)) forms.set(form, args);
  }
  return [...forms.values()];
}

const callsOf = (f: WorksheetFunction): readonly (readonly [readonly Argument[], Place])[] =>
  formsOf(f).flatMap((args) => placesOf(f, args).map((place) => [args, place] as const));

/** Values just outside each bound, and some way outside. */
function justOutside({ min, max, above, below }: Bounds): readonly number[] {
  const under = (edge: number): readonly number[] => [
    next(edge, -Infinity),
    edge - 0.01 * Math.max(1, Math.abs(edge)),
    -1e300,
  ];
  const over = (edge: number): readonly number[] => [
    next(edge, Infinity),
    edge + 0.01 * Math.max(1, Math.abs(edge)),
    1e300,
  ];
  return [
    ...(min === undefined ? [] : under(min)),
    ...(above === undefined ? [] : [above, ...under(above)]),
    ...(max === undefined ? [] : over(max)),
    ...(below === undefined ? [] : [below, ...over(below)]),
  ];
}

const messageOf = (f: WorksheetFunction, args: readonly Argument[]): string | undefined => {
  const result = f.call(args);
  return "error" in result ? result.error.message : undefined;
};

describe("a number outside its declared bounds is refused, by name and with the range allowed", () => {
  it.each(declared.map((f) => [f.id, f] as const))("%s", (_, f) => {
    for (const [args, { name, quantity, put, tells }] of callsOf(f)) {
      for (const value of justOutside(quantity)) {
        // Where the choice does not ask for it: a blank cell that a program hands over as 0.
        if (value === 0 && "varies" in quantity) continue;
        const message = messageOf(f, put(args, value));
        expect(message, `${name} = ${value}`).toContain(nameOf(quantity));
        expect(message, `${name} = ${value}`).toMatch(/ is (not )?(above|below) .*; allowed: /);
      }
      if (quantity.whole)
        expect(messageOf(f, put(args, (quantity.min ?? 0) + 0.5)), name).toMatch(/is not a whole number/);
      for (const value of [
        NaN,
        Infinity,
        -Infinity,
        ...(tells ? [] : ["1", "text"]),
        true,
        false,
        ...(quantity.default === undefined && quantity.blank === undefined ? [null, undefined, ""] : []),
      ]) {
        expect(messageOf(f, put(args, value)), `${name} = ${value}`).toContain(nameOf(quantity));
      }
    }
  });
});

describe("a number on a bound that belongs to the range is not refused for it", () => {
  it.each(declared.map((f) => [f.id, f] as const))("%s", (_, f) => {
    for (const [args, { name, quantity, put }] of callsOf(f)) {
      for (const edge of [quantity.min, quantity.max])
        if (edge !== undefined)
          expect(messageOf(f, put(args, edge)) ?? "", `${name} = ${edge}`).not.toMatch(
            / is (not )?(above|below) [^,;]*; allowed: /,
          );
    }
  });
});

describe("what other arguments forbid is refused", () => {
  const limited = declared.filter((f) => (f.formula ?? f.spill)!.limits !== undefined);
  it.each(limited.map((f) => [f.id, f] as const))("%s", (_, f) => {
    const declaration = (f.formula ?? f.spill)!;
    for (const args of basesOf(f, seed)) {
      const limits = declaration.limits!(read(declaration, args)) as Readonly<Record<string, Bounds | undefined>>;
      for (const [name, limit] of Object.entries(limits)) {
        const at = f.parameters.findIndex((p) => p.name === name);
        const quantity = f.parameters[at]!.parameter as Quantity;
        const outward = (edge: number, side: 1 | -1): number =>
          edge / readFactor(quantity) +
          side * (quantity.whole ? 1 : 1e-9 * Math.max(1, Math.abs(edge / readFactor(quantity))));
        const values = [
          ...(limit?.min === undefined ? [] : [outward(limit.min, -1)]),
          ...(limit?.max === undefined ? [] : [outward(limit.max, 1)]),
        ];
        for (const value of values)
          expect(
            messageOf(
              f,
              args.map((arg, i) => (i === at ? value : arg)),
            ),
            `${name} = ${value}`,
          ).toContain(nameOf(quantity));
      }
    }
  });
});

describe("an argument left out or blank counts as the default that is declared", () => {
  const optional = declared.filter((f) => f.parameters.some((p) => p.optional));
  it.each(optional.map((f) => [f.id, f] as const))("%s", (_, f) => {
    for (const args of basesOf(f, seed).slice(0, 6)) {
      f.parameters.forEach(({ name, parameter, optional: may }, at) => {
        if (!may) return;
        const given = parameter.kind === "table" ? [] : parameter.kind === "text" ? "" : parameter.default;
        const wanted = f.call(args.map((arg, i) => (i === at ? given : arg)));
        for (const left of [null, undefined, "", [[null]]])
          expect(f.call(args.map((arg, i) => (i === at ? left : arg))), name).toEqual(wanted);
        if (at === args.length - 1) expect(f.call(args.slice(0, at)), name).toEqual(wanted);
      });
    }
  });
});

describe("a table is not read beyond its ends without a word", () => {
  const pointsOf = (steps: Steps) =>
    Object.entries(steps).flatMap(([name, step]) =>
      "lookup" in step && "points" in step.lookup
        ? [{ name, step, of: step.lookup.of, points: step.lookup.points }]
        : [],
    );
  const math = create(all!);
  /** Does what this table gives enter the result, or is it another table that applies? */
  const decides = (formula: Formula, name: string, values: Readonly<Record<string, unknown>>): boolean => {
    const step = formula.steps[name] as Steps[string] & {
      readonly lookup: { readonly of: string; readonly points: readonly (readonly [number, number])[] };
    };
    const other = {
      ...step,
      lookup: { ...step.lookup, points: step.lookup.points.map(([x, y]) => [x, 1.1 * y + 0.1] as const) },
    };
    const last = Object.keys(formula.steps).at(-1)!;
    return (
      evaluateSteps(math, formula, values)[last] !==
      evaluateSteps(math, { ...formula, steps: { ...formula.steps, [name]: other } }, values)[last]
    );
  };
  const tabled = declared.filter(({ formula }) => formula && pointsOf(formula.steps).length > 0);
  it.each(tabled.map((f) => [f.id, f] as const))("%s", (_, f) => {
    const formula = f.formula!;
    const random = randomFrom(seed);
    const words = [...(formula.notes ?? []), ...Object.values(formula.steps).map(({ text = "" }) => text)].join(" ");
    let read = 0;
    for (let n = 0; n < 600; n++) {
      const args = drawArguments(random, f, basesOf(f, seed));
      if (!("value" in f.call(args))) continue;
      const traced = trace(formula, args);
      for (const { name, of, points } of pointsOf(formula.steps)) {
        const value = traced.steps.find((s) => s.name === of)?.value ?? (traced.values[of] as number);
        const slack = 1e-12 * Math.abs(value);
        read++;
        const beyond = value < points[0]![0] - slack || value > points.at(-1)![0] + slack;
        if (beyond && decides(formula, name, traced.values))
          expect(
            traced.warnings.length > 0 || /\b(held|holds?|beyond)\b/.test(words),
            `${name}: ${of} = ${value} lies beyond the table`,
          ).toBe(true);
      }
    }
    expect(read).toBeGreaterThan(100);
  });
});
