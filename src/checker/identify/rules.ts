import {
  argumentCount,
  equationFor,
  formulas,
  inForce,
  isOptional,
  isRefusal,
  isUnused,
  readFactor,
  run,
  variantsOf,
  type Argument,
  type Formula,
  type Label,
  type Quantity,
  type Table,
} from "../../core/index.ts";
import { drawing, drawnValue } from "./draws.ts";
import { particulars, type Particular } from "./particular.ts";
import { allFlags, bothShapes, directionOf, shapeKey, shapeOf, stretches, type Shape } from "./shape.ts";

/** A column of a table that takes the value of another argument. */
interface Tie {
  readonly of: string;
  readonly column: string;
  readonly to: string;
}

/** A number that a rule takes. */
interface RuleInput {
  readonly name: string;
  /** Of a table with one row: the argument and its column. */
  readonly column?: { readonly of: string; readonly name: string };
  /** As it is with the choices made. */
  readonly quantity: Quantity;
}

/**
 * A function of the library with every choice made and every optional argument either given or left out: a rule from
 * numbers to one number.
 */
export interface Rule {
  readonly formula: Formula;
  readonly choices: Readonly<Record<string, Label>>;
  readonly inputs: readonly RuleInput[];
  /** Columns of a table of one row that are the same as another input. */
  readonly tied: readonly Tie[];
  /** In the cells' own units; NaN where there is no value. */
  readonly evaluate: (values: ArrayLike<number>) => number;
  /** Every argument and step by name, in the units the equations work in; undefined where there is no value. */
  readonly stepsAt: (values: ArrayLike<number>) => Readonly<Record<string, unknown>> | undefined;
  readonly result: Quantity;
  /** Drawn inputs that the function accepts, and its values there. */
  readonly points: readonly (readonly number[])[];
  readonly values: readonly number[];
  readonly shapes: readonly Shape[];
  /** The shapes that each input shows at single points. */
  readonly seen: readonly ReadonlySet<string>[];
  /** 1 where the value's size rises with an input at every point, −1 where it falls, 0 else. */
  readonly directions: readonly number[];
  /** Numbers in its equations that say something. */
  readonly constants: readonly number[];
  /** How much its form alone says. */
  readonly form: Form;
  /** Where it is a function in a particular case. */
  readonly particular?: Particular;
}

/**
 * `common`: a product, a sum or a ratio as any sheet has; `own`: longer, but without constants of its own; `known by its
 * form`: constants, powers or exponentials that hardly anything else has.
 */
export type Form = "common" | "own" | "known by its form";

const pointsWanted = 32;
const mostTries = 400;
const mostChoices = 64;

type Given = Readonly<Record<string, Label>>;

/** Every way to make the choices of a formula. */
function choicesOf(f: Formula): readonly Given[] {
  let all: readonly Given[] = [{}];
  for (const [name, declared] of Object.entries(f.params)) {
    if (declared.kind !== "choice") continue;
    all = all.flatMap((before) => {
      if (isUnused(declared, before)) return [before];
      const own = inForce(declared, before);
      return own.kind === "choice" ? own.values.map(({ value }) => ({ ...before, [name]: value })) : [before];
    });
    if (all.length > mostChoices) return [];
  }
  return all;
}

/** Every way to give or leave out what is optional; where that is much, all, none and each by itself. */
function subsets(names: readonly string[]): readonly (readonly string[])[] {
  if (names.length > 4) return [[], names, ...names.map((name) => [name])];
  return Array.from({ length: 2 ** names.length }, (_, i) => names.filter((_n, j) => i & (2 ** j)));
}

const sameLetter = (a: Quantity, b: Quantity): boolean => a.symbol.split("_")[0] === b.symbol.split("_")[0];

/** A table of one row that is as good as a few arguments. */
function hasFewNumbers({ columns }: Table): boolean {
  const all = Object.values(columns);
  return all.length <= 2 && all.every(({ kind }) => kind === "number");
}

/** The same quantity, however often it is declared, so that what is found out of it is found out once. */
const quantities = new Map<string, Quantity>();
function theSame(quantity: Quantity): Quantity {
  const text = JSON.stringify(quantity);
  const before = quantities.get(text);
  if (before) return before;
  quantities.set(text, quantity);
  return quantity;
}

/** The inputs and fixed values of a formula with its choices made and some optional arguments given; undefined where a table is needed. */
function takenBy(f: Formula, choices: Given, given: readonly string[], tie: boolean) {
  const inputs: RuleInput[] = [];
  const tied: Tie[] = [];
  const fixed: Record<string, unknown> = { ...choices };
  const args: (string | number | null)[] = [];
  for (const [name, declared] of Object.entries(f.params)) {
    if (isUnused(declared, choices)) {
      fixed[name] = declared.kind === "table" ? [] : undefined;
      args.push(null);
      continue;
    }
    const own = inForce(declared, choices);
    if (own.kind === "choice") args.push(choices[name] ?? null);
    else if (own.kind === "number" && (!isOptional(own) || given.includes(name))) {
      inputs.push({ name, quantity: theSame(own) });
      args.push(0);
    } else if (own.kind === "number") {
      fixed[name] = own.default === undefined ? undefined : own.default * readFactor(own);
      args.push(null);
    } else if (own.kind === "table" && !own.kinds && !own.optional && own.minRows <= 1 && hasFewNumbers(own)) {
      for (const [column, quantity] of Object.entries(own.columns)) {
        if (quantity.kind !== "number") continue;
        const like =
          tie && inputs.find((input) => input.quantity.unit === quantity.unit && sameLetter(input.quantity, quantity));
        if (like) tied.push({ of: name, column, to: like.name });
        else
          inputs.push({ name: `${name}.${column}`, column: { of: name, name: column }, quantity: theSame(quantity) });
      }
      args.push(null);
    } else if (own.kind === "table" && own.optional) {
      fixed[name] = [];
      args.push(null);
    } else return undefined;
  }
  return tie && (tied.length === 0 || !inputs.some(({ column }) => column)) ? undefined : { inputs, tied, fixed, args };
}

const optionalNames = (f: Formula, choices: Given): readonly string[] =>
  Object.entries(f.params).flatMap(([name, declared]) => {
    if (isUnused(declared, choices)) return [];
    const own = inForce(declared, choices);
    return own.kind === "number" && isOptional(own) ? [name] : [];
  });

/** The numbers in an equation that say something: no 1, 2, 100 and the like. */
function constantsIn(equation: string): readonly string[] {
  const usual = new Set(["0", "1", "2", "3", "4", "6", "8", "10", "12", "100", "1000", "0.5"]);
  const numbers = equation.match(/(?<![\w.])\d+(?:\.\d+)?(?:e-?\d+)?(?![\w.])/g) ?? [];
  return numbers.filter((n) => !usual.has(n));
}

const equationsOf = (f: Formula, choices: Given): readonly string[] =>
  Object.values(f.steps).flatMap((step) => ("lookup" in step ? [] : [equationFor(step, choices)]));

function formOf(f: Formula, choices: Given, shapes: readonly Shape[]): Form {
  const equations = equationsOf(f, choices);
  const constants = new Set(equations.flatMap(constantsIn)).size;
  const text = equations.join(" ");
  const curved = /\b(?:exp|log|log10|ln)\b|\^ ?\(?-?\d*\.\d|\^ ?\(?-?\d ?\/ ?\d|e\^/.test(text);
  const powers = shapes.every(({ power }) => power !== undefined);
  if (powers) {
    const odd = shapes.some(({ power }) => Math.abs(2 * power! - Math.round(2 * power!)) > 1e-6);
    return odd && constants > 0 ? "known by its form" : "common";
  }
  if (constants >= 2 || (constants >= 1 && curved)) return "known by its form";
  return shapes.length >= 5 ? "own" : "common";
}

/** How a function of numbers depends on each of them, over all points given; and what it does in some part only. */
function shapesOver(
  evaluate: (values: ArrayLike<number>) => number,
  points: readonly (readonly number[])[],
): Pick<Rule, "shapes" | "seen" | "directions"> {
  const count = points[0]?.length ?? 0;
  const shapes: Shape[] = [];
  const all: Set<string>[] = [];
  const directions: number[] = [];
  const signs = new Set<number>();
  for (let i = 0; i < count; i++) {
    let over: Shape | undefined;
    const seen = new Set<string>();
    const own = new Set<number>();
    for (const point of points) {
      const changed = [...point];
      const values = stretches.map((by) => {
        changed[i] = point[i]! * by;
        return evaluate(changed);
      });
      const shape = shapeOf(values[0]!, values[1]!, values[2]!);
      if (!shape) continue;
      for (const value of values) signs.add(Math.sign(value));
      own.add(directionOf(values[0]!, values[1]!));
      seen.add(shapeKey(shape));
      over = over ? bothShapes(over, shape) : shape;
    }
    shapes.push(over ?? { power: undefined, flags: allFlags });
    all.push(seen);
    directions.push(Number(own.has(1)) - Number(own.has(-1)));
  }
  // About a zero the size of a value falls and rises.
  const crosses = signs.has(1) && signs.has(-1);
  return { shapes, seen: all, directions: crosses ? directions.map(() => 0) : directions };
}

/** Whether each input changes the value somewhere. */
function allMatter({ shapes }: Pick<Rule, "shapes">): boolean {
  return shapes.every(({ power }) => power !== 0);
}

function drawnPoints(
  f: Formula,
  inputs: readonly RuleInput[],
  tied: readonly Tie[],
  args: readonly (string | number | null)[],
  seed: number,
) {
  const chance = drawing(seed);
  const points: number[][] = [];
  const values: number[] = [];
  const names = Object.keys(f.params);
  for (let tries = 0; points.length < pointsWanted && tries < mostTries; tries++) {
    const point = inputs.map(({ quantity }) => drawnValue(quantity, chance));
    try {
      const value = run(
        f,
        args.map((arg, i) => argumentAt(names[i]!, inputs, tied, point) ?? arg),
      );
      points.push(point);
      values.push(value);
    } catch (error) {
      // Drawn values that do not go together are drawn anew.
      if (!isRefusal(error)) throw error;
    }
  }
  return { points, values };
}

/** An argument of a drawn point; undefined where it is none of the inputs. */
function argumentAt(
  name: string,
  inputs: readonly RuleInput[],
  tied: readonly Tie[],
  point: readonly number[],
): Argument {
  const valueOf = (input: string): number => point[inputs.findIndex((one) => one.name === input)]!;
  if (inputs.some((input) => input.name === name)) return valueOf(name);
  // A tied column comes before those that are inputs of their own.
  const row = [
    ...tied.flatMap((tie) => (tie.of === name ? [valueOf(tie.to)] : [])),
    ...inputs.flatMap(({ column }, i) => (column?.of === name ? [point[i]!] : [])),
  ];
  return row.length > 0 ? [row] : undefined;
}

function ruleOf(f: Formula, choices: Given, given: readonly string[], tie: boolean, seed: number): Rule | undefined {
  const taken = takenBy(f, choices, given, tie);
  if (!taken || taken.inputs.length === 0) return undefined;
  const { inputs, tied, fixed, args } = taken;
  const { points, values } = drawnPoints(f, inputs, tied, args, seed);
  if (points.length < pointsWanted / 2) return undefined;
  const held: Record<string, unknown> = { ...fixed };
  const factors = inputs.map(({ quantity }) => readFactor(quantity));
  const fromResult = 1 / readFactor(f.result);
  for (const { column } of inputs) if (column) held[column.of] = [{}];
  for (const { of } of tied) held[of] = [{}];
  const ties = tied.map(({ of, column, to }) => ({
    record: (held[of] as Record<string, unknown>[])[0]!,
    column,
    from: inputs.findIndex((input) => input.name === to),
  }));
  const into = inputs.map(({ name, column }) =>
    column ? { record: (held[column.of] as Record<string, unknown>[])[0]!, name: column.name } : { record: held, name },
  );
  const take = (given: ArrayLike<number>): void => {
    for (let i = 0; i < into.length; i++) into[i]!.record[into[i]!.name] = given[i]! * factors[i]!;
    for (const { record, column, from } of ties) record[column] = given[from]! * factors[from]!;
  };
  const evaluate = (given: ArrayLike<number>): number => {
    take(given);
    try {
      return f.compute(held as never) * fromResult;
    } catch (error) {
      if (!isRefusal(error)) throw error;
      return NaN;
    }
  };
  const stepsAt: Rule["stepsAt"] = (given) => {
    take(given);
    try {
      return { ...held, ...f.stepwise(held as never) };
    } catch (error) {
      if (!isRefusal(error)) throw error;
      return undefined;
    }
  };
  const found = shapesOver(evaluate, points);
  if (!allMatter(found)) return undefined;
  return {
    formula: f,
    choices,
    inputs,
    tied,
    evaluate,
    stepsAt,
    result: theSame(f.result),
    points,
    values,
    ...found,
    form: formOf(f, choices, found.shapes),
    constants: [...new Set(equationsOf(f, choices).flatMap(constantsIn))].map(Number),
  };
}

/** Rules by how many numbers they take. */
type RulesByCount = ReadonlyMap<number, readonly Rule[]>;

function byCount(rules: readonly Rule[]): RulesByCount {
  const out = new Map<number, Rule[]>();
  for (const rule of rules) {
    const same = out.get(rule.inputs.length);
    if (same) same.push(rule);
    else out.set(rule.inputs.length, [rule]);
  }
  return out;
}

const mostInputs = 12;

function* madeRules(): Generator<Rule> {
  let seed = 1;
  for (const declared of formulas) {
    const [least] = argumentCount(declared);
    if (least > mostInputs + 6) continue;
    for (const f of variantsOf(declared))
      for (const choices of choicesOf(f))
        for (const given of subsets(optionalNames(f, choices))) {
          for (const tie of [false, true]) {
            const rule = ruleOf(f, choices, given, tie, seed++);
            if (rule && rule.inputs.length <= mostInputs) yield rule;
          }
        }
  }
  for (const particular of particulars()) {
    const rule = ruleOf(particular.formula, particular.choices, [], false, seed++);
    if (rule) yield { ...rule, particular };
  }
}

/** What is searched: the library's rules. */
export interface Library {
  readonly rules: RulesByCount;
}

let library: Library | undefined;

/** Made when it is first asked for; half a second or so. */
export function libraryOfRules(): Library {
  if (library) return library;
  return (library = { rules: byCount([...madeRules()]) });
}
