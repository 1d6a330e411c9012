import { inForce, type Parameters, type Quantity, type Values } from "./parameters.ts";
import type { Source } from "./sources.ts";
import type { Unit } from "./units.ts";

/** The subjects by which functions are grouped for people. */
export const families = {
  sizing: "Choosing and sizing",
  section: "Section",
  tendon: "Tendon geometry",
  friction: "Friction",
  drawIn: "Anchorage draw-in",
  bed: "Pre-tensioning bed and heat curing",
  transmission: "Transmission and anchorage by bond",
  elastic: "Elastic shortening",
  creep: "Creep",
  shrinkage: "Shrinkage",
  relaxation: "Relaxation",
  timeDependent: "Combined time-dependent loss",
  loading: "Loads, moments and stations",
  limits: "Limits",
  stress: "Stress check",
  region: "Force and eccentricity",
  bending: "Strength in bending",
  shear: "Strength in shear",
  endZone: "End zones",
  composite: "Composite members",
  deflection: "Deflection and camber",
  stressing: "Stressing",
  materials: "Materials",
  workbook: "Workbook",
} as const;
export type Family = keyof typeof families;

/** One line of a calculation that takes several. The last step is the result. */
export type Step = StepOfEquation | StepOfTable | StepInWords;

interface StepBase {
  readonly symbol: string;
  readonly unit: Unit;
  /** The unit the equation works in; the coherent one unless said otherwise. */
  readonly reads?: Unit;
  readonly text?: string;
  readonly clause?: string;
}
/** A step as a mathjs expression in the parameters and the steps before it. */
interface StepOfEquation extends StepBase {
  readonly equation: string;
  /** Where a choice decides between equations: what people read for each of its values. */
  readonly cases?: Cases;
}

/** The argument that decides, and the equation for each of its values. */
interface Cases {
  readonly argument: string;
  readonly as: Readonly<Record<string, string>>;
}

/** An equation for each value of a choice, which is evaluated as one conditional expression. */
export function byChoice(
  argument: string,
  as: Readonly<Record<string, string>>,
): Pick<StepOfEquation, "equation" | "cases"> {
  const equations = Object.entries(as);
  const last = equations.at(-1)![1];
  const equation = equations
    .slice(0, -1)
    .reduceRight((rest, [value, own]) => `equalText(${argument}, "${value}") ? ${own} : (${rest})`, last);
  return { equation, cases: { argument, as } };
}

/** What people read for these values of the arguments: the equation of a step, or its governing equation as TeX. */
export function equationFor(
  step: StepOfEquation | StepInWords,
  values: Readonly<Record<string, unknown>> = {},
): string {
  const { cases } = step;
  return (cases && cases.as[String(values[cases.argument])]) ?? ("equation" in step ? step.equation : step.governing);
}
/** A step read from a table: by the value of a choice, or between points (linear between, as stated in `text`). */
export interface StepOfTable extends StepBase {
  readonly lookup:
    | { readonly of: string; readonly values: Readonly<Record<string, number>> }
    | { readonly of: string; readonly points: readonly (readonly [number, number])[] };
}
/** A step that sums, searches or integrates: the governing equation as TeX. Its residual or second way stands in `proof`. */
export interface StepInWords extends StepBase {
  readonly governing: string;
  /** Where a choice decides: the governing equation for each of its values. */
  readonly cases?: Cases;
}
export type Steps = Readonly<Record<string, Step>>;

/** Further bounds that follow from the other arguments, in the unit the equation reads. */
export type Limits<P extends Parameters> = {
  readonly [K in keyof P]?: { readonly min?: number; readonly max?: number; readonly because: string };
};

interface FormulaBase<P extends Parameters> {
  /** Worksheet id without the namespace: UPPER_SNAKE, at most 58 characters. A promise to old workbooks. */
  readonly id: string;
  readonly family: Family;
  /** One line: what it gives, for whom the sign matters with the sign. */
  readonly summary: string;
  /** Definitions, sign and range that decide the result, a sentence each. */
  readonly notes?: readonly string[];
  readonly source: Source;
  /** Where a choice among the arguments takes the rule as a standard writes it: that argument, and the source for its values. */
  readonly sourceFollows?: { readonly argument: string; readonly as: Readonly<Record<string, Source>> };
  /** Worksheet argument order. */
  readonly params: P;
  /** Bounds that depend on other arguments. */
  limits?(values: Values<P>): Limits<P>;
  /** Sentences about this very input that a user should know; no error. */
  cautions?(values: Values<P>): readonly string[];
  /** Why units cannot be checked: the source's own empirical equation. */
  readonly empirical?: string;
  /** Why no published result stands against it. */
  readonly unpublished?: string;
}

interface OneLine<P extends Parameters> {
  readonly result: Quantity;
  /** mathjs expression in the parameters: what the engineer sees. */
  readonly equation: string;
  readonly compute: (values: Values<P>) => number;
}
interface Stepwise<P extends Parameters, S extends Steps> {
  readonly result: Quantity;
  readonly steps: S;
  /** Gives every step by name, in the units the equations work in; the last is the result. */
  readonly compute: (values: Values<P>) => { readonly [K in keyof S]: number };
  /**
   * For steps in words: what must vanish (a residual, or the difference to a second way of computing), relative to 1.
   * Tests drive it to zero; Trace shows it.
   */
  readonly proof?: (values: Values<P>, steps: { readonly [K in keyof S]: number }) => number;
}

type OneLineSpec<P extends Parameters> = FormulaBase<P> & OneLine<P>;
type StepwiseSpec<P extends Parameters, S extends Steps> = FormulaBase<P> & Stepwise<P, S>;

/** A formula as the rest of the project sees it, whatever its parameters. */
export interface Formula<P extends Parameters = Parameters> extends FormulaBase<P> {
  readonly result: Quantity;
  /** One step for a one-line formula, named `result`. */
  readonly steps: Steps;
  /** The steps' values by name, in the units the equations work in. */
  stepwise(values: Values<P>): Readonly<Record<string, number>>;
  /** The result alone, in the unit the equation works in. */
  compute(values: Values<P>): number;
  proof?(values: Values<P>, steps: Readonly<Record<string, number>>): number;
  /** Where a choice among the arguments decides which formula it is: it has no steps of its own then. See `formulaFor`. */
  readonly variants?: Variants;
}

/** The argument that decides, and the formula for each of its values. */
interface Variants {
  readonly argument: string;
  readonly as: Readonly<Record<string, Formula>>;
}

/** The formula that a call with these values of the arguments is. */
export function formulaFor(f: Formula, values: Readonly<Record<string, unknown>>): Formula {
  if (!f.variants) return f;
  const { argument, as } = f.variants;
  const own = as[String(values[argument])];
  if (!own) throw new Error(`${f.id} is no formula for ${argument} = ${String(values[argument])}`);
  return own;
}

/** Every formula that a function may be: itself, or one for each value of the choice that decides, which then has that value alone. */
export function variantsOf(f: Formula): readonly Formula[] {
  if (!f.variants) return [f];
  const { argument, as } = f.variants;
  return Object.entries(as).map(([value, own]) => {
    const params = Object.entries(own.params).map(([name, parameter]) => {
      if (name !== argument || parameter.kind !== "choice") return [name, inForce(parameter, { [argument]: value })];
      return [name, { ...parameter, values: parameter.values.filter((one) => String(one.value) === value) }];
    });
    return { ...own, params: Object.fromEntries(params) as Parameters };
  });
}

/** A function whose result fills a block of cells: rows with the same columns. */
export interface Spill<P extends Parameters = Parameters> extends FormulaBase<P> {
  /** What stands in the columns, from the left. */
  readonly columns: Readonly<Record<string, Quantity>>;
  /** The governing equation as TeX. */
  readonly governing: string;
  /** The rows, in the units the columns read. */
  compute(values: Values<P>): readonly Readonly<Record<string, number>>[];
}

/** What formulas and spills have in common. */
export type Declaration<P extends Parameters = Parameters> = FormulaBase<P>;

/** The source of a rule as it is used with these values of its arguments. */
export function sourceFor(
  { source, sourceFollows }: Pick<Declaration, "source" | "sourceFollows">,
  values: Readonly<Record<string, unknown>>,
): Source {
  return (sourceFollows && sourceFollows.as[String(values[sourceFollows.argument])]) ?? source;
}

/** Declares a function of several rows. */
export function spilling<const P extends Parameters, const C extends Readonly<Record<string, Quantity>>>(
  spec: FormulaBase<P> & {
    readonly columns: C;
    readonly governing: string;
    readonly compute: (values: Values<P>) => readonly { readonly [K in keyof C]: number }[];
  },
): Spill<P> {
  return spec;
}

/**
 * Declares a formula of one line: its `equation` and its `compute` say the same thing, which tests prove.
 * From the declaration follow metadata, registration, checking, trace, reference and tests.
 */
export function formula<const P extends Parameters>(spec: OneLineSpec<P>): Formula<P> {
  const { equation, compute, ...rest } = spec;
  const { symbol, unit, reads, text } = spec.result;
  return {
    ...rest,
    compute,
    steps: { result: { symbol, unit, ...(reads && { reads }), text, equation } },
    stepwise: (values) => ({ result: compute(values) }),
  };
}

/** Declares a formula of several named steps; the last is the result. */
export function stepwise<const P extends Parameters, const S extends Steps>(spec: StepwiseSpec<P, S>): Formula<P> {
  const { compute, proof, ...rest } = spec;
  const last = Object.keys(spec.steps).at(-1)!;
  return {
    ...rest,
    stepwise: compute,
    compute: (values) => compute(values)[last]!,
    ...(proof && { proof: proof }),
  };
}
