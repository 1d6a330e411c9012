import type { MathJsInstance, MathNode } from "mathjs";
import {
  mathUnit,
  coherentUnit,
  inForce,
  valueBetween,
  valueFor,
  type Formula,
  type Label,
  type Quantity,
  type Step,
} from "../../core/index.ts";

/** The part of mathjs that reads and evaluates expressions. */
type Evaluator = Pick<MathJsInstance, "parse">;

/** An equation that names something which is neither a parameter nor a step before it. */
export class UnboundName extends Error {
  override readonly name = "UnboundName";
  constructor(
    readonly unbound: string,
    readonly step: string,
  ) {
    super(`the equation of ${step} names “${unbound}”, which is no parameter and no step before it`);
  }
}

/** Functions an equation may call. Anything else is a name without a meaning here. */
const functions: ReadonlySet<string> = new Set([
  "abs",
  "acos",
  "asin",
  "atan",
  "cbrt",
  "ceil",
  "cos",
  "cosh",
  "equalText",
  "exp",
  "floor",
  "hypot",
  "log",
  "log10",
  "max",
  "min",
  "round",
  "sign",
  "sin",
  "sinh",
  "sqrt",
  "tan",
  "tanh",
]);
const constants: Readonly<Record<string, unknown>> = { pi: Math.PI, true: true, false: false };

interface Visited {
  readonly type: string;
  readonly name?: string;
  readonly fn?: { readonly name?: string };
}

/** The names an expression uses that are not functions; a call of an unknown function is refused. */
export function namesIn(expression: MathNode, step: string): ReadonlySet<string> {
  const names = new Set<string>();
  expression.traverse((node, path, parent) => {
    const { type, name, fn } = node as unknown as Visited;
    if (type === "FunctionNode") {
      if (!functions.has(fn?.name ?? "")) throw new UnboundName(`${fn?.name ?? "?"}()`, step);
    } else if (
      type === "SymbolNode" &&
      !((parent as unknown as Visited | null)?.type === "FunctionNode" && path === "fn")
    ) {
      names.add(name!);
    }
  });
  return names;
}

/** mathjs turns unbound single letters into units and constants: so every name must be bound, by us. */
function bound(expression: MathNode, step: string, scope: ReadonlyMap<string, unknown>): Map<string, unknown> {
  const out = new Map<string, unknown>();
  for (const name of namesIn(expression, step)) {
    if (scope.has(name)) out.set(name, scope.get(name));
    else if (name in constants) out.set(name, constants[name]);
    else throw new UnboundName(name, step);
  }
  return out;
}

function lookUp(
  step: Extract<Step, { readonly lookup: unknown }>,
  name: string,
  scope: ReadonlyMap<string, unknown>,
): number {
  const { lookup } = step;
  if (!scope.has(lookup.of)) throw new UnboundName(lookup.of, name);
  const of = scope.get(lookup.of);
  return "values" in lookup ? valueFor(lookup.values, of as Label) : valueBetween(lookup.points, of as number);
}

/**
 * Evaluates the equations as displayed, apart from the compiled function: every step's value in the unit its equation works in.
 * Table steps are read by the generic reader. Steps in words have no equation: their compiled value is taken over,
 * and what proves them is their residual.
 * @param values as `read` or `trace` gives them
 */
export function evaluateSteps(
  math: Evaluator,
  formula: Formula,
  values: Readonly<Record<string, unknown>>,
): Readonly<Record<string, number>> {
  const scope = new Map(Object.entries(values));
  const out: Record<string, number> = {};
  let compiled: Readonly<Record<string, number>> | undefined;
  for (const [name, step] of Object.entries(formula.steps)) {
    let value: unknown;
    if ("equation" in step) {
      const expression = math.parse(step.equation);
      value = expression.evaluate(bound(expression, name, scope));
    } else if ("lookup" in step) {
      value = lookUp(step, name, scope);
    } else {
      value = (compiled ??= formula.stepwise(values as never))[name];
    }
    if (typeof value !== "number") throw new Error(`the equation of ${name} gives no number`);
    out[name] = value;
    scope.set(name, value);
  }
  return out;
}

/** The difference of two numbers relative to the greater; 0 where both vanish. */
export function relativeDifference(a: number, b: number): number {
  const scale = Math.max(Math.abs(a), Math.abs(b));
  return scale === 0 ? 0 : Math.abs(a - b) / scale;
}

/** Beyond this the two ways of computing disagree; rounding alone stays far below. */
export const agreement = 1e-9;

/** mathjs with units; to keep radians apart from numbers it needs a unit made for them with `createUnit`. */
type UnitEvaluator = Pick<MathJsInstance, "parse" | "unit">;

/**
 * Evaluates every equation with units and gives each step's value as a mathjs unit (or number).
 * Throws where dimensions do not fit. Not for formulas that are empirical.
 * @param angle the name of the unit that stands for a radian as a dimension
 */
export function evaluateWithUnits(
  math: UnitEvaluator,
  formula: Formula,
  values: Readonly<Record<string, unknown>>,
  angle: string,
): Readonly<Record<string, unknown>> {
  const measured = (value: number, { unit, reads }: Pick<Quantity, "unit" | "reads">): unknown => {
    const spelled = mathUnit(reads ?? coherentUnit(unit)).replace(/\brad\b/g, angle);
    return spelled === "" ? value : math.unit(value, spelled);
  };
  const scope = new Map<string, unknown>();
  for (const [name, value] of Object.entries(values)) {
    const declared = formula.params[name];
    const parameter = declared && inForce(declared, values);
    scope.set(name, parameter?.kind === "number" && typeof value === "number" ? measured(value, parameter) : value);
  }
  const plain = formula.stepwise(values as never);
  const out: Record<string, unknown> = {};
  for (const [name, step] of Object.entries(formula.steps)) {
    if ("equation" in step) {
      const expression = math.parse(step.equation);
      out[name] = expression.evaluate(bound(expression, name, scope));
    } else {
      out[name] = measured(plain[name]!, step);
    }
    scope.set(name, out[name]);
  }
  return out;
}
