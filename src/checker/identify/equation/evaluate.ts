import type { Expression } from "./tree.ts";

/** The values of the names in an equation; what is not there has no value. */
export type Values = Map<string, number>;
export type Evaluate = (values: Values) => number;

const functions: Readonly<Record<string, (...given: number[]) => number>> = {
  abs: Math.abs,
  atan: Math.atan,
  ceil: Math.ceil,
  cos: Math.cos,
  exp: Math.exp,
  floor: Math.floor,
  log: Math.log,
  log10: Math.log10,
  max: Math.max,
  min: Math.min,
  round: Math.round,
  sin: Math.sin,
  sinh: Math.sinh,
  sqrt: Math.sqrt,
  tan: Math.tan,
};

const comparisons: Readonly<Record<string, (a: number, b: number) => boolean>> = {
  "<": (a, b) => a < b,
  "<=": (a, b) => a <= b,
  "==": (a, b) => a === b,
  "!=": (a, b) => a !== b,
  ">": (a, b) => a > b,
  ">=": (a, b) => a >= b,
};

/** An equation ready to be evaluated; NaN where it has no value. */
export function evaluation(e: Expression): Evaluate {
  switch (e.kind) {
    case "number":
      return () => e.value;
    case "name":
      return (values) => values.get(e.name) ?? NaN;
    case "text":
      return () => NaN;
    case "sum": {
      const terms = e.terms.map(({ minus, of }) => ({ minus, of: evaluation(of) }));
      return (values) => {
        let sum = 0;
        for (const { minus, of } of terms) sum += minus ? -of(values) : of(values);
        return sum;
      };
    }
    case "product": {
      const factors = e.factors.map(({ under, of }) => ({ under, of: evaluation(of) }));
      return (values) => {
        let product = 1;
        for (const { under, of } of factors) product = under ? product / of(values) : product * of(values);
        return product;
      };
    }
    case "power": {
      const [base, exponent] = [evaluation(e.base), evaluation(e.exponent)];
      return (values) => base(values) ** exponent(values);
    }
    case "call": {
      const f = functions[e.name];
      const given = e.given.map(evaluation);
      return f ? (values) => f(...given.map((one) => one(values))) : () => NaN;
    }
    case "compared": {
      const holds = comparisons[e.by]!;
      const [a, b] = [evaluation(e.a), evaluation(e.b)];
      return (values) => Number(holds(a(values), b(values)));
    }
    case "case": {
      const [when, then, otherwise] = [evaluation(e.when), evaluation(e.then), evaluation(e.otherwise)];
      return (values) => (when(values) === 1 ? then(values) : otherwise(values));
    }
  }
}
