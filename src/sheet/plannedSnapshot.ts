import type { CellContent, Snapshot } from "../cells/index.ts";
import type { Plan } from "./plan.ts";

/** A plan as a sheet whose formulas have yet to be computed. */
export function plannedSnapshot(plan: Plan, sheet: string): Snapshot {
  const empty: CellContent = { value: null, text: "" };
  const cells = Array.from({ length: plan.rows }, () => Array.from({ length: plan.columns }, () => empty));
  for (const { row, column, value, formula } of plan.cells) {
    const line = cells[row];
    if (line) line[column] = { value: value ?? null, text: "", ...(formula !== undefined && { formula }) };
  }
  const names = plan.names.map(({ name, ...area }) => [name.toLowerCase(), { ...area, sheet }] as const);
  return { sheet, rows: plan.rows, columns: plan.columns, cells, names: new Map(names) };
}
