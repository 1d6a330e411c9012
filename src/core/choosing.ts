import { cautions } from "./cautions.ts";
import { byChoiceOf } from "./varies.ts";
import type { Declaration, Family, Formula, Spill } from "./formula.ts";
import type { Source } from "./sources.ts";
import type { AnyValues, Choice, Parameter, Parameters, Quantity } from "./parameters.ts";

/** Formulas of one kind under one name: a choice among the arguments says which of them a call is. */
interface Choosing<D extends Declaration> {
  readonly id: string;
  readonly family: Family;
  readonly summary: string;
  readonly notes?: readonly string[];
  /** The name of the argument that decides, and its values. */
  readonly by: Readonly<Record<string, Choice>>;
  readonly as: Readonly<Record<string, D>>;
  /** The arguments as they stand on the worksheet. */
  readonly order: readonly string[];
  /** How an argument is described that is another quantity in each formula. */
  readonly joint?: Parameters;
  /**
   * Why arguments that a choice does not ask for may keep their values. Only where the choice names one of several
   * figures of the same thing, so that one call serves them all; without it they must be blank.
   */
  readonly ignored?: string;
  readonly unpublished?: string;
  /** Where a choice takes a standard's rule for what is no standard's own: whose it is itself. */
  readonly source?: Source;
}

/** The one thing that all have in common; undefined where they differ. */
function common<T>(all: readonly T[]): T | undefined {
  return all.every((one) => one === all[0]) ? all[0] : undefined;
}

/** The parameter of a name in each declaration that has it. */
function byValue(all: readonly (readonly [string, Declaration])[], name: string): Readonly<Record<string, Parameter>> {
  return Object.fromEntries(all.flatMap(([value, { params }]) => (params[name] ? [[value, params[name]]] : [])));
}

const isCaution = (note: string): boolean => Object.values(cautions).some((caution) => caution === note);

/** The notes of the function: its own, those of all its formulas, and every caution of any of them. */
function notesOf(own: readonly string[] = [], all: readonly Declaration[]): readonly string[] {
  const each = all.map(({ notes = [] }) => notes);
  const shared = each.flat().filter((note) => isCaution(note) || each.every((notes) => notes.includes(note)));
  return [...new Set([...own, ...shared])];
}

/** What follows from the choice, whatever the declarations give. */
function chosenAmong<D extends Declaration>({ by, as, order, joint = {}, ignored, ...said }: Choosing<D>) {
  const [argument, choice] = Object.entries(by)[0]!;
  const all = Object.entries(as);
  const wanted = choice.values.map(({ value }) => String(value));
  if ([...wanted].sort().join() !== Object.keys(as).sort().join())
    throw new Error(`${said.id}: the choices are ${wanted.join()}, the formulas ${Object.keys(as).join()}`);
  const params: Record<string, Parameter> = {};
  const decided = (name: string): Parameter =>
    byChoiceOf({ argument, as: byValue(all, name), joint: joint[name], many: all.length, ignored });
  for (const name of order) params[name] = name === argument ? choice : decided(name);
  for (const [value, declaration] of all)
    for (const name of Object.keys(declaration.params))
      if (!params[name]) throw new Error(`${said.id}: ${name} of ${value} has no place among the arguments`);
  const within = (values: Readonly<Record<string, unknown>>): D => as[String(values[argument])]!;
  const reasons = [...new Set(all.flatMap(([, { unpublished }]) => unpublished ?? []))];
  const unpublished = said.unpublished ?? reasons.join("; ");
  const followed = common(all.map(([, { sourceFollows }]) => sourceFollows));
  const sources = Object.fromEntries(all.map(([value, { source }]) => [value, source]));
  return {
    argument,
    params,
    within,
    declared: {
      ...said,
      notes: notesOf(
        said.notes,
        all.map(([, declaration]) => declaration),
      ),
      ...(unpublished !== "" && { unpublished }),
      source: said.source ?? all[0]![1].source,
      sourceFollows: followed ?? { argument, as: sources },
      params,
      limits: (values: AnyValues) => within(values).limits?.(values) ?? {},
      cautions: (values: AnyValues) => within(values).cautions?.(values) ?? [],
    },
  };
}

/**
 * Declares one worksheet function of several formulas. What a formula asks for, its bounds, steps, source, limits and
 * cautions are its own; arguments that it does not ask for must be blank, unless `ignored` says why not. `result`
 * describes what they give where that differs.
 */
export function choosing({ result, ...spec }: Choosing<Formula> & { readonly result?: Quantity }): Formula {
  const { argument, params, within, declared } = chosenAmong(spec);
  const formulas = Object.entries(spec.as);
  const given = result ?? common(formulas.map(([, f]) => f.result));
  if (!given) throw new Error(`${spec.id}: its formulas give different quantities; state one for all`);
  const own = (f: Formula): Formula => ({
    ...f,
    id: declared.id,
    family: declared.family,
    notes: [...new Set([...(declared.notes ?? []), ...(f.notes ?? [])])],
    params,
  });
  return {
    ...declared,
    result: given,
    steps: {},
    variants: { argument, as: Object.fromEntries(formulas.map(([value, f]) => [value, own(f)])) },
    stepwise: (values) => within(values).stepwise(values),
    compute: (values) => within(values).compute(values),
  };
}

/** The same of functions that fill several cells; all of them with the same columns. */
export function choosingRows(spec: Choosing<Spill>): Spill {
  const { within, declared } = chosenAmong(spec);
  const { columns, governing } = Object.values(spec.as)[0]!;
  return { ...declared, columns, governing, compute: (values) => within(values).compute(values) };
}
