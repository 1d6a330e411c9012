/** An equation of the library as a tree; sums and products are flat, so that a term or factor can be taken out. */
export type Expression =
  | { readonly kind: "number"; readonly value: number }
  | { readonly kind: "name"; readonly name: string }
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "sum"; readonly terms: readonly Term[] }
  | { readonly kind: "product"; readonly factors: readonly Factor[] }
  | { readonly kind: "power"; readonly base: Expression; readonly exponent: Expression }
  | { readonly kind: "call"; readonly name: string; readonly given: readonly Expression[] }
  | { readonly kind: "compared"; readonly by: string; readonly a: Expression; readonly b: Expression }
  | { readonly kind: "case"; readonly when: Expression; readonly then: Expression; readonly otherwise: Expression };

export interface Term {
  readonly minus: boolean;
  readonly of: Expression;
}

export interface Factor {
  /** It stands below the line. */
  readonly under: boolean;
  readonly of: Expression;
}

export const numberOf = (value: number): Expression => ({ kind: "number", value });

/** A sum of what is left of its terms. */
export function sumOf(terms: readonly Term[]): Expression {
  const [first] = terms;
  if (!first) return numberOf(0);
  return terms.length === 1 && !first.minus ? first.of : { kind: "sum", terms };
}

/** A product of what is left of its factors. */
export function productOf(factors: readonly Factor[]): Expression {
  const [first] = factors;
  if (!first) return numberOf(1);
  return factors.length === 1 && !first.under ? first.of : { kind: "product", factors };
}

/** The parts right within an expression. */
export function within(e: Expression): readonly Expression[] {
  switch (e.kind) {
    case "sum":
      return e.terms.map(({ of }) => of);
    case "product":
      return e.factors.map(({ of }) => of);
    case "power":
      return [e.base, e.exponent];
    case "call":
      return e.given;
    case "compared":
      return [e.a, e.b];
    case "case":
      return [e.when, e.then, e.otherwise];
    default:
      return [];
  }
}

/** The expression with other parts right within it, as many as `within` gives. */
export function withWithin(e: Expression, parts: readonly Expression[]): Expression {
  switch (e.kind) {
    case "sum":
      return { ...e, terms: e.terms.map((term, i) => ({ ...term, of: parts[i]! })) };
    case "product":
      return { ...e, factors: e.factors.map((factor, i) => ({ ...factor, of: parts[i]! })) };
    case "power":
      return { ...e, base: parts[0]!, exponent: parts[1]! };
    case "call":
      return { ...e, given: parts };
    case "compared":
      return { ...e, a: parts[0]!, b: parts[1]! };
    case "case":
      return { ...e, when: parts[0]!, then: parts[1]!, otherwise: parts[2]! };
    default:
      return e;
  }
}

/** The expression with the choices made: cases that they decide are gone. */
export function decided(e: Expression, choices: Readonly<Record<string, unknown>>): Expression {
  const own = withWithin(
    e,
    within(e).map((part) => decided(part, choices)),
  );
  if (own.kind !== "case" || own.when.kind !== "call" || own.when.name !== "equalText") return own;
  const [name, text] = own.when.given;
  if (name?.kind !== "name" || text?.kind !== "text") return own;
  return String(choices[name.name]) === text.text ? own.then : own.otherwise;
}

/** The names in an expression. */
export function namesIn(e: Expression): readonly string[] {
  return e.kind === "name" ? [e.name] : within(e).flatMap(namesIn);
}
