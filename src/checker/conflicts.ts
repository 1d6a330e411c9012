import { Calculation, type Address, type CellContent, type Snapshot } from "../cells/index.ts";
import type { Plan } from "../sheet/index.ts";
import { bookOfSheets } from "./book/bookOfSheets.ts";

const sheet = "Sheet1";

/** A plan as a sheet whose formulas have yet to be computed. */
export function plannedSnapshot(plan: Plan): Snapshot {
  const empty: CellContent = { value: null, text: "" };
  const cells = Array.from({ length: plan.rows }, () => Array.from({ length: plan.columns }, () => empty));
  for (const { row, column, value, formula } of plan.cells) {
    const line = cells[row];
    if (line) line[column] = { value: value ?? null, text: "", ...(formula !== undefined && { formula }) };
  }
  const names = plan.names.map(({ name, ...area }) => [name.toLowerCase(), { ...area, sheet }] as const);
  return { sheet, rows: plan.rows, columns: plan.columns, cells, names: new Map(names) };
}

/** Inputs of a plan that contradict each other. */
export interface Conflict {
  /** The inputs of which one contradicts another; those of a table with their row. */
  readonly of: readonly { readonly id: string; readonly index: number }[];
  /** With the row of the table in front: "tendon 2: d = 25 mm …". */
  readonly message: string;
}

/** What the status cells of a plan would say about inputs that contradict each other: the same formulas, computed before there is a sheet. */
export function conflictsIn(plan: Plan): readonly Conflict[] {
  const judged = plan.conflicts ?? [];
  if (judged.length === 0) return [];
  const calculation = new Calculation(bookOfSheets([plannedSnapshot(plan)]), [], { everything: true });
  const text = (at: Address): string => String(calculation.valueAt({ sheet, ...at }).value ?? "");
  return judged.flatMap(({ of, where, status, message }) =>
    text(status) === "CONFLICT" ? [{ of, message: `${where && `${where}: `}${text(message)}` }] : [],
  );
}
