import { format } from "numfmt";
import { ourFunctions } from "../../../functions/index.ts";
import {
  Book,
  Calculation,
  definedFunctions,
  type CellContent,
  type Computed,
  type Formulas,
  type OwnFunctions,
  type Snapshot,
} from "../../cells/index.ts";
import { basePlan, plannedSnapshot, type Plan, type PlannedCell } from "../../sheet/index.ts";

/** What each formula of a plan gives. */
export type PlanResults = ReadonlyMap<PlannedCell, Computed>;

/** By what a plan is based on: beside which sheets it was read last, and its formulas. */
const readKept = new WeakMap<Plan, { readonly beside: string; readonly formulas: Formulas }>();

const functionsKept = new WeakMap<NonNullable<Plan["functions"]>, OwnFunctions>();

/** Our functions, and those that a plan brings along. */
function functionsOf({ functions: own }: Plan): OwnFunctions {
  if (!own) return ourFunctions;
  const all = functionsKept.get(own) ?? definedFunctions(ourFunctions, own);
  functionsKept.set(own, all);
  return all;
}

/** What decides to which cells the references to other sheets lead. */
const whereabouts = (others: readonly Snapshot[]): string =>
  JSON.stringify(others.map(({ sheet, rows, columns, names }) => [sheet, rows, columns, [...names]]));

/**
 * A plan as a book beside the sheets it refers to, which keep their values; what plans of one configuration have in
 * common is read once. The formulas of a plan do not name their own sheet: what it is called makes no difference.
 */
export function bookOfPlan(plan: Plan, sheet: string, others: readonly Snapshot[] = []): Book {
  const base = basePlan(plan);
  const beside = whereabouts(others);
  const before = readKept.get(base);
  const read = before?.beside === beside ? before.formulas : undefined;
  const book = Book.beside(plannedSnapshot(plan, sheet), others, functionsOf(plan), read);
  readKept.set(base, { beside, formulas: book.formulas });
  return book;
}

/** Results of plans whose sheets are expected, by the cells of the plan, until they are asked for. */
const ahead = new WeakMap<Plan["cells"], PlanResults>();

/** Computes a plan without other sheets while there is time: whoever builds its sheet finds the results. */
export function computeAhead(plan: Plan): void {
  const results = planResults(plan, plan.template.title);
  if (results) ahead.set(plan.cells, results);
}

/**
 * The values of a plan's formulas, computed before there is a sheet: a tenth of the time a grid takes. Undefined where
 * one of them cannot be computed here; the host has to compute such a sheet itself. `others`: sheets that it refers to,
 * with their values.
 */
export function planResults(plan: Plan, sheet: string, others: readonly Snapshot[] = []): PlanResults | undefined {
  const expected = others.length === 0 ? ahead.get(plan.cells) : undefined;
  ahead.delete(plan.cells);
  if (expected) return expected;
  const book = bookOfPlan(plan, sheet, others);
  const calculation = new Calculation(book, [], { everything: true });
  const results = new Map<PlannedCell, Computed>();
  for (const cell of plan.cells) {
    if (cell.formula === undefined) continue;
    const computed = calculation.valueAt({ sheet, row: cell.row, column: cell.column });
    if (computed.cannot !== undefined) return undefined;
    results.set(cell, computed);
  }
  return results;
}

/** A plan's cells with their values, by row and column, as a host would show them; undefined where they cannot be computed here. */
export function planValues(
  plan: Plan,
  sheet: string,
  others: readonly Snapshot[] = [],
): readonly (readonly CellContent[])[] | undefined {
  const results = planResults(plan, sheet, others);
  if (!results) return undefined;
  const empty: CellContent = { value: null, text: "" };
  const rows: CellContent[][] = Array.from({ length: plan.rows }, () =>
    Array.from({ length: plan.columns }, () => empty),
  );
  for (const cell of plan.cells) {
    const { value = null, error } = results.get(cell) ?? { value: cell.value };
    rows[cell.row]![cell.column] = {
      value,
      ...(cell.formula !== undefined && { formula: cell.formula }),
      text: error ? error.code : printed(value, cell.format),
      ...(error && { error }),
    };
  }
  return rows;
}

/** A value as a cell with that number format shows it. */
export function printed(value: CellContent["value"], pattern?: string): string {
  if (value === null) return "";
  if (typeof value === "number" && pattern !== undefined) return format(pattern, value);
  return typeof value === "boolean" ? String(value).toUpperCase() : String(value);
}
