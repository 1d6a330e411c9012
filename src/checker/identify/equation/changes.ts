import { numberOf, productOf, sumOf, within, withWithin, type Expression } from "./tree.ts";

/**
 * A usual departure from an equation: one place of it is otherwise. `limit` and `case` are left out, the others are wrong.
 */
export interface Change {
  readonly kind: "term" | "sign" | "factor" | "exponent" | "function";
  readonly changed: Expression;
  /** The part that is otherwise, and what stands around it. */
  readonly part: Expression;
  readonly around: Expression;
  /** What stands there instead; undefined where it is missing. */
  readonly instead?: Expression;
}

/** Exponents that are typed for one another. */
const exponents = [0.5, 1 / 3, 2 / 3, 1.5, 2, 3];
const alike: Readonly<Record<string, readonly string[]>> = {
  log: ["log10"],
  log10: ["log"],
  sin: ["tan"],
  tan: ["sin"],
  sqrt: [],
};

/** The number that an exponent is, also where it is written as a ratio. */
function exponentOf(e: Expression): number | undefined {
  if (e.kind === "number") return e.value;
  if (e.kind !== "product") return undefined;
  let value = 1;
  for (const { under, of } of e.factors) {
    if (of.kind !== "number") return undefined;
    value = under ? value / of.value : value * of.value;
  }
  return value;
}

/** What may be otherwise at the top of an expression. */
function* changesHere(e: Expression): Generator<Change> {
  if (e.kind === "sum" && e.terms.length > 1)
    for (const [i, term] of e.terms.entries()) {
      const others = e.terms.filter((_, n) => n !== i);
      yield { kind: "term", changed: sumOf(others), part: term.of, around: e };
      const turned = e.terms.map((one, n) => (n === i ? { ...one, minus: !one.minus } : one));
      if (i > 0) yield { kind: "sign", changed: sumOf(turned), part: term.of, around: e };
    }
  const [one, less, ...others] = e.kind === "sum" ? e.terms : [];
  if (one && !one.minus && one.of.kind === "number" && less?.minus && others.length === 0)
    yield { kind: "term", changed: less.of, part: one.of, around: e, instead: less.of };
  const [only, ...more] = e.kind === "sum" ? e.terms : [];
  if (only?.minus && more.length === 0) yield { kind: "sign", changed: only.of, part: only.of, around: e };
  if (e.kind === "product" && e.factors.length > 1)
    for (const [i, factor] of e.factors.entries()) {
      const others = e.factors.filter((_, n) => n !== i);
      yield { kind: "factor", changed: productOf(others), part: factor.of, around: e };
    }
  if (e.kind === "power") {
    yield { kind: "exponent", changed: e.base, part: e, around: e, instead: e.base };
    const own = exponentOf(e.exponent);
    if (own !== undefined)
      for (const other of exponents) {
        if (Math.abs(other - Math.abs(own)) < 1e-9) continue;
        const instead: Expression = { ...e, exponent: numberOf(Math.sign(own) * other) };
        yield { kind: "exponent", changed: instead, part: e, around: e, instead };
      }
  }
  if (e.kind === "call") {
    const [first] = e.given;
    const others = alike[e.name];
    if (!others || !first || e.given.length !== 1) return;
    yield { kind: "function", changed: first, part: e, around: e, instead: first };
    for (const name of others) {
      const instead: Expression = { ...e, name };
      yield { kind: "function", changed: instead, part: e, around: e, instead };
    }
  }
}

/** Every change of one place in an expression, wherever it is. */
function* singleChanges(e: Expression): Generator<Change> {
  yield* changesHere(e);
  const parts = within(e);
  for (const [i, part] of parts.entries())
    for (const change of singleChanges(part))
      yield {
        ...change,
        changed: withWithin(
          e,
          parts.map((one, n) => (n === i ? change.changed : one)),
        ),
      };
}

/** The expression without a number that stands as a term in several sums, such as the 1 in ln(t + 1) / ln(28 + 1). */
function* sameTermsLeftOut(e: Expression): Generator<Change> {
  const counted = new Map<number, number>();
  const count = (one: Expression): void => {
    if (one.kind === "sum" && one.terms.length > 1)
      for (const { of } of one.terms) if (of.kind === "number") counted.set(of.value, (counted.get(of.value) ?? 0) + 1);
    within(one).forEach(count);
  };
  count(e);
  const without = (one: Expression, value: number): Expression => {
    const own = withWithin(
      one,
      within(one).map((part) => without(part, value)),
    );
    if (own.kind !== "sum" || own.terms.length < 2) return own;
    return sumOf(own.terms.filter(({ of }) => of.kind !== "number" || of.value !== value));
  };
  for (const [value, times] of counted)
    if (times > 1) yield { kind: "term", changed: without(e, value), part: numberOf(value), around: e };
}

/** The usual departures from an equation. */
export function* changesOf(e: Expression): Generator<Change> {
  yield* singleChanges(e);
  yield* sameTermsLeftOut(e);
}
