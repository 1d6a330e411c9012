import { equationFor, readFactor, valueBetween, valueFor } from "../../../core/index.ts";
import type { Rule } from "../rules.ts";
import { changesOf, type Change } from "./changes.ts";
import { evaluation, type Evaluate, type Values } from "./evaluate.ts";
import { parseEquation } from "./parse.ts";
import { decided, namesIn, type Expression } from "./tree.ts";

/** A step of a rule: an equation, or what is read from a table or worked out otherwise. */
interface EquationStep {
  readonly name: string;
  readonly equation?: Expression;
  readonly evaluate: Evaluate;
}

/** A change in one of a rule's equations. */
export interface StepChange extends Change {
  readonly step: string;
  readonly evaluate: Evaluate;
}

/** The equations of a rule, to be evaluated as they are or with a change. */
export class Equations {
  readonly #steps: readonly EquationStep[];
  readonly #factors: readonly number[];
  readonly #fromResult: number;
  #changes: readonly StepChange[] | undefined;

  private constructor(private readonly rule: Rule) {
    const { formula, choices } = rule;
    this.#factors = rule.inputs.map(({ quantity }) => readFactor(quantity));
    this.#fromResult = 1 / readFactor(rule.result);
    this.#steps = Object.entries(formula.steps).map(([name, step]): EquationStep => {
      if ("equation" in step) {
        const equation = decided(parseEquation(equationFor(step, choices)), choices);
        return { name, equation, evaluate: evaluation(equation) };
      }
      if (!("lookup" in step)) return { name, evaluate: (values) => values.get(name) ?? NaN };
      const { lookup } = step;
      if ("points" in lookup)
        return { name, evaluate: (values) => valueBetween(lookup.points, values.get(lookup.of) ?? NaN) };
      const choice = choices[lookup.of];
      const value = choice === undefined ? NaN : valueFor(lookup.values, choice);
      return { name, evaluate: () => value };
    });
  }

  /** The equations of a rule; undefined where they cannot be evaluated by themselves. */
  static of(rule: Rule): Equations | undefined {
    if (known.has(rule)) return known.get(rule);
    const made = Equations.#tried(rule);
    known.set(rule, made);
    return made;
  }

  static #tried(rule: Rule): Equations | undefined {
    const equations = new Equations(rule);
    const proved = rule.points.slice(0, 3).every((point, k) => {
      const value = equations.valueWith(equations.valuesAt(point));
      return Math.abs(value - rule.values[k]!) <= 1e-9 * Math.abs(rule.values[k]!);
    });
    return proved ? equations : undefined;
  }

  /** Arguments by name, in the units the equations work in. What has no value is left out, with all that needs it. */
  valuesAt(given: ArrayLike<number | undefined>): Values {
    const values: Values = new Map();
    const whole = this.rule.inputs.every((_, j) => given[j] !== undefined);
    const held = this.rule.stepsAt(whole ? (given as ArrayLike<number>) : this.rule.points[0]!) ?? {};
    for (const [name, value] of Object.entries(held))
      if (typeof value === "number" && (whole || !(name in this.rule.formula.steps))) values.set(name, value);
    this.rule.inputs.forEach(({ name }, j) => {
      const value = given[j];
      if (value === undefined) values.delete(name);
      else values.set(name, value * this.#factors[j]!);
    });
    return values;
  }

  /** The result in the cell's unit, where the steps are computed one after the other, one of them otherwise. */
  valueWith(values: Values, step?: string, evaluate?: Evaluate): number {
    let value = NaN;
    for (const one of this.#steps) {
      value = one.name === step ? evaluate!(values) : one.evaluate(values);
      values.set(one.name, value);
    }
    return value * this.#fromResult;
  }

  /** Steps before the last, by name, with what decides them. */
  get inner(): readonly string[] {
    return this.#steps.slice(0, -1).map(({ name }) => name);
  }

  /** The usual departures from the equations. */
  get changes(): readonly StepChange[] {
    return (this.#changes ??= [...this.#made()]);
  }

  *#made(): Generator<StepChange> {
    for (const { name, equation } of this.#steps) {
      if (!equation) continue;
      for (const change of changesOf(equation)) yield { ...change, step: name, evaluate: evaluation(change.changed) };
    }
    // A step that is a factor left out wherever it stands.
    const equations = this.#steps.flatMap(({ equation }) => (equation ? [equation] : []));
    for (const name of this.inner) {
      const users = equations.filter((equation) => namesIn(equation).includes(name));
      if (users.length === 0) continue;
      const part: Expression = { kind: "name", name };
      yield { kind: "factor", step: name, changed: part, part, around: users[0]!, evaluate: () => 1 };
    }
  }
}

const known = new WeakMap<Rule, Equations | undefined>();
