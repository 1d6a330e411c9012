import type { Address } from "../cells/index.ts";
import { configurationOf } from "./configuration.ts";
import { faultOf, nested, shapeValues, type Inputs } from "./inputs.ts";
import type { Plan } from "./plan.ts";
import { Problems, RefusedSheet } from "./problems.ts";
import type { Says } from "./says.ts";
import type { InputSpec, InputValue, Template } from "./template.ts";

/** A cell that takes an input: `id` with its number in the table where it stands in one, counted in its table's main rows. */
export interface InputCell {
  readonly id: string;
  readonly index: number;
  readonly of: number;
  readonly at: Address;
  readonly spec: InputSpec;
  readonly says: Says;
}

/** What a template builds for a shape, before any other input is known. */
export interface Skeleton {
  readonly plan: Plan;
  readonly inputs: readonly InputCell[];
}

/** Why an input may not hold a value; undefined where it may. */
export function faultOfInput(value: string | number | null, { spec, says }: InputCell): string | undefined {
  return faultOf(value, spec, says);
}

/** Throws RefusedSheet where a shape input is wrong. The template is taken as linted. */
export function skeletonOf(template: Template, shape: Inputs): Skeleton {
  const wrong = new Problems();
  const values = shapeValues(template, shape, wrong);
  if (wrong.list.length > 0) throw new RefusedSheet(wrong.list);
  const configuration = configurationOf(template, values);
  if (configuration.problems.length > 0) throw new RefusedSheet(configuration.problems);
  return configuration.skeleton;
}

const bases = new WeakMap<Plan, Plan>();

/** The plan that a plan was filled from: all that is filled from it have the same formulas in the same places. */
export function basePlan(plan: Plan): Plan {
  return bases.get(plan) ?? plan;
}

/** A plan with the same formulas in the same places as another. */
export function basedOn(plan: Plan, out: Plan): Plan {
  bases.set(out, basePlan(plan));
  return out;
}

/** Values, one a cell in the order of `skeleton.inputs`, put into the plan's inputs and cells; null leaves a cell empty. */
export function filled({ plan, inputs }: Skeleton, values: readonly (string | number | null)[]): Plan {
  const keyOf = ({ row, column }: Address): number => row * plan.columns + column;
  const byPlace = new Map(inputs.map(({ at }, i) => [keyOf(at), values[i] ?? null] as const));
  const given: Record<string, InputValue> = { ...plan.inputs };
  inputs.forEach(({ id, index, of }, i) => {
    if (index === 0) given[id] = nested(values.slice(i, i + of), sizesOf(plan.inputs[id]));
  });
  const cells = plan.cells.map((cell) => {
    const value = byPlace.get(keyOf(cell));
    if (value === undefined) return cell;
    const { value: _before, ...rest } = cell;
    return value === null || value === "" ? rest : { ...rest, value };
  });
  return basedOn(plan, { ...plan, inputs: given, cells });
}

/** What people would enter in a cell beside the inputs: a value, or a mark's formula in the column "checked". */
export interface Entered extends Address {
  readonly value?: string | number;
  readonly formula?: string;
}

/** Plans with the same formulas entered into the same plan, the last of each. */
const enteredKept = new WeakMap<Plan, { readonly formulas: string; readonly base: Plan }>();

/**
 * What a plan is the base of: formulas entered beside it make another, which those with the same formulas share.
 */
function baseWith(plan: Plan, out: Plan, entered: readonly Entered[]): Plan {
  const base = basePlan(plan);
  const formulas = entered
    .flatMap(({ row, column, formula }) => (formula === undefined ? [] : [`${row},${column}${formula}`]))
    .join("\n");
  if (formulas === "") return base;
  const known = enteredKept.get(base);
  if (known?.formulas === formulas) return known.base;
  enteredKept.set(base, { formulas, base: out });
  return out;
}

/** The plan with entries in cells that it leaves to people, so that they come with the sheet instead of one by one after it. */
export function withEntered(plan: Plan, entered: readonly Entered[]): Plan {
  const keyOf = ({ row, column }: Address): number => row * plan.columns + column;
  const left = new Map(entered.map((cell) => [keyOf(cell), cell] as const));
  const cells = plan.cells.map((cell) => {
    const own = left.get(keyOf(cell));
    if (own === undefined) return cell;
    if (cell.formula !== undefined)
      throw new Error(`the cell at row ${cell.row + 1} of the plan is no cell to type into`);
    left.delete(keyOf(cell));
    const { value: _before, ...rest } = cell;
    if (own.formula !== undefined) return { ...rest, formula: own.formula };
    return own.value === undefined ? rest : { ...rest, value: own.value };
  });
  if (left.size > 0)
    throw new Error(
      `the plan has no cells to type into for ${[...left.values()].map((one) => one.formula ?? one.value).join(", ")}`,
    );
  const out = { ...plan, cells };
  const base = baseWith(plan, out, entered);
  if (base !== out) bases.set(out, base);
  return out;
}

/** How many members each dimension of an input has. */
function sizesOf(value: InputValue | undefined): readonly number[] {
  return Array.isArray(value) ? [value.length, ...sizesOf(value[0] as InputValue)] : [];
}
