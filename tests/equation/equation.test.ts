import fc from "fast-check";
import { all, create, type Unit } from "mathjs";
import { describe, expect, it } from "vitest";
import {
  coherentUnit,
  formulas as functions,
  inForce,
  mathUnit,
  read,
  variantsOf,
  type Formula,
  type Step,
} from "../../src/core/index.ts";
import { evaluateSteps, evaluateWithUnits, namesIn } from "../../src/checker/trace/secondEvaluation.ts";
import { argumentsOf } from "./arguments.ts";
import { runs } from "../property/draws.ts";

const math = create(all!);
// Angles as a dimension of their own: mixing up the two wobble conventions then shows.
const angle = "angleunit";
math.createUnit(angle);
// A bare 0 has every dimension: `max(w, 0)` and `s >= 0` are sound with units too.
const isUnit = (value: unknown): value is Unit => math.typeOf(value) === "Unit";
for (const name of ["max", "min", "larger", "largerEq", "smaller", "smallerEq", "equal"] as const) {
  const plain = math[name].bind(math) as (...args: readonly unknown[]) => unknown;
  const lenient = (...args: readonly unknown[]): unknown => {
    const unit = args.find(isUnit);
    return plain(...args.map((arg) => (unit && arg === 0 ? math.multiply(unit, 0) : arg)));
  };
  math.import({ [name]: lenient }, { override: true });
}

// The sine of an angle is a number although the angle here has a dimension.
for (const name of ["sin", "cos"] as const) {
  const plain = math[name].bind(math) as (arg: unknown) => unknown;
  math.import(
    { [name]: (arg: unknown): unknown => plain(isUnit(arg) ? arg.toNumber(angle) : arg) },
    { override: true },
  );
}

/** A function that a choice makes one of several formulas counts as each of them. */
const formulas = functions.flatMap(variantsOf);
const decided = ({ id, params, variants }: Formula): string => {
  const by = functions.find((f) => f.id === id)?.variants?.argument;
  const choice = by === undefined || variants ? undefined : params[by];
  return choice?.kind === "choice" ? `${id} ${choice.values.map(({ value }) => value).join()}` : id;
};
const relative = 1e-10;
const isEquation = (step: Step): boolean => "equation" in step;
const each = (list: readonly Formula[]) => list.map((f) => [decided(f), f] as const);

/** Largest magnitude that enters a sum: a difference of great numbers may leave a small one with fewer digits. */
function scaleOf(
  f: Formula,
  name: string,
  value: number,
  steps: Readonly<Record<string, number>>,
  values: Readonly<Record<string, unknown>>,
): number {
  const step = f.steps[name]!;
  if (!("equation" in step)) return Math.abs(value);
  // Numbers alone: an argument such as `end` bears a name that mathjs keeps for itself.
  const scope = Object.fromEntries(Object.entries({ ...values, ...steps }).filter(([, v]) => typeof v === "number"));
  const largest = termsOf(step.equation).map((term) => {
    const part: unknown = math.parse(term).evaluate({ ...scope });
    return typeof part === "number" ? Math.abs(part) : 0;
  });
  return Math.max(Math.abs(value), ...largest);
}

/** The terms of the outermost sum of an equation. */
function termsOf(equation: string): readonly string[] {
  const root = math.parse(equation);
  const terms: string[] = [];
  const visit = (node: {
    readonly type: string;
    readonly op?: string;
    readonly args?: readonly unknown[];
    readonly content?: unknown;
    toString(): string;
  }): void => {
    if (node.type === "OperatorNode" && (node.op === "+" || node.op === "-") && node.args?.length === 2)
      node.args.forEach((arg) => visit(arg as typeof node));
    else if (node.type === "ParenthesisNode") visit(node.content as typeof node);
    else terms.push(node.toString());
  };
  visit(root);
  return terms.length > 1 ? terms : [];
}

describe("the equation shown and the function computed agree", () => {
  it.each(each(formulas.filter(({ steps }) => Object.values(steps).some(isEquation))))("%s", (_, f) => {
    fc.assert(
      fc.property(argumentsOf(f), (args) => {
        const values = read(f, args);
        const computed = f.stepwise(values);
        const shown = evaluateSteps(math, f, values);
        for (const name of Object.keys(f.steps)) {
          const [a, b] = [computed[name]!, shown[name]!];
          if (Number.isFinite(a) || Number.isFinite(b))
            expect(
              Math.abs(a - b),
              `${name}: computed ${a}, shown ${b}, arguments ${JSON.stringify(args)}`,
            ).toBeLessThanOrEqual(relative * scaleOf(f, name, a, computed, values));
          else expect(b, name).toBe(a);
        }
        expect(f.compute(values as never)).toBe(computed[Object.keys(f.steps).at(-1)!]);
      }),
      { numRuns: runs(60) },
    );
  });
});

describe("what is searched or integrated satisfies its governing equation", () => {
  const inWords = formulas.filter(({ steps }) => Object.values(steps).some((step) => "governing" in step));
  it.each(each(inWords))("%s", (id, f) => {
    expect(f.proof !== undefined, `${id} has a step in words and nothing that proves it`).toBe(true);
    fc.assert(
      fc.property(argumentsOf(f), (args) => {
        const values = read(f, args);
        expect(Math.abs(f.proof!(values as never, f.stepwise(values as never))), JSON.stringify(args)).toBeLessThan(
          1e-9,
        );
      }),
      { numRuns: runs(40) },
    );
  });
});

describe("a wrong result would show", () => {
  const proved = formulas.filter((f) => f.proof !== undefined);

  // A thousandth of the result and of its unit, so that a result near 0 is put off too; both ways, for a proof may count on one side only.
  // One whole unit from 0: there a governing equation may be flat, as the area of a draw-in that grows with the square of its length.
  // Places closer together than a formula's own δ are the same place: only what lies beyond δ is wrong.
  it.each(each(proved))("%s: the proof notices a result off by a thousandth", (id, f) => {
    const last = Object.keys(f.steps).at(-1)!;
    for (const args of fc.sample(argumentsOf(f), { numRuns: 12, seed: 7 })) {
      const values = read(f, args);
      const steps = f.stepwise(values);
      const result = steps[last]!;
      const notices = (by: number): boolean => Math.abs(f.proof!(values, { ...steps, [last]: result + by })) > 1e-9;
      const delta = typeof values["delta"] === "number" ? values["delta"] : 0;
      const by = delta + (result === 0 ? 1 : 1e-3 * (1 + Math.abs(result)));
      expect(notices(by) || notices(-by), `${id}: ${JSON.stringify(args)} gives ${result}`).toBe(true);
    }
  });
});

/** The powers of the base dimensions, as text. */
function dimension(value: unknown): string {
  if (typeof value === "number") return "a number";
  const powers = (value as Unit & { readonly dimensions: readonly number[] }).dimensions.map(
    (power) => Math.round(power * 1e9) / 1e9,
  );
  return powers.every((power) => power === 0) ? "a number" : powers.join(" ");
}

function declared({ unit, reads }: Pick<Step, "unit" | "reads">): string {
  const spelled = mathUnit(reads ?? coherentUnit(unit)).replace(/\brad\b/g, angle);
  return spelled === "" ? "a number" : dimension(math.unit(1, spelled));
}

describe("equations give the dimension that is declared", () => {
  const checked = formulas.filter((f) => f.empirical === undefined && Object.values(f.steps).every(isEquation));
  it.each(each(checked))("%s", (_, f) => {
    for (const args of fc.sample(argumentsOf(f), { numRuns: 6, seed: 3 })) {
      const found = evaluateWithUnits(math, f, read(f, args), angle);
      for (const [name, step] of Object.entries(f.steps)) expect(dimension(found[name]), name).toBe(declared(step));
    }
  });

  it("and refuse one wobble convention in place of the other", () => {
    const own = formulas.find(({ id }) => id === "FRICTION_STRESS")!;
    const values = { sigma0: 1395, mu: 0.2, alpha: 0.3, k: 5e-6, x: 12000 };
    for (const [wobble, other] of [
      ["1/m", "rad/m"],
      ["rad/m", "1/m"],
    ] as const) {
      const given = { ...values, wobble };
      const wrong = inForce(own.params["k"]!, { wobble: other });
      const mixed: Formula = { ...own, params: { ...own.params, k: wrong } };
      expect(() => dimension(evaluateWithUnits(math, own, given, angle)["result"])).not.toThrow();
      expect(() => evaluateWithUnits(math, mixed, given, angle), `k in ${other} where ${wobble} is said`).toThrow();
    }
  });

  it("unless they are a source's own fit, which says so", () => {
    for (const { id, empirical } of formulas)
      if (empirical !== undefined) expect(empirical.length, id).toBeGreaterThan(20);
  });
});

describe("every name in an equation", () => {
  it.each(each(formulas))("%s is a parameter or an earlier step", (_, f) => {
    const known = new Set(Object.keys(f.params));
    for (const [name, step] of Object.entries(f.steps)) {
      if ("equation" in step)
        for (const used of namesIn(math.parse(step.equation), name))
          expect([...known, "pi", "true", "false"], `${name} uses ${used}`).toContain(used);
      if ("lookup" in step) expect([...known]).toContain(step.lookup.of);
      known.add(name);
    }
  });
});
