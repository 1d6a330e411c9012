import type { EnteredCell } from "../checker/index.ts";
import type { FileSheet } from "../hosts/index.ts";
import type { PlannedCell, Template } from "../sheet/index.ts";
import type { OfficeDefaults } from "./defaults.ts";

/** Cells that people write, filled on a sheet that is not on any host yet: nothing that is computed changes. */
function withEntered(sheet: FileSheet, entered: readonly EnteredCell[]): FileSheet {
  const keyOf = ({ row, column }: { readonly row: number; readonly column: number }): string => `${row} ${column}`;
  const byPlace = new Map(entered.map((cell) => [keyOf(cell), cell]));
  const cells = sheet.plan.cells.map((cell): PlannedCell => {
    const value = byPlace.get(keyOf(cell))?.value;
    return value === undefined || value === null ? cell : { ...cell, value };
  });
  return { ...sheet, plan: { ...sheet.plan, cells } };
}

/** A sheet that says which of its inputs are the office's, and of which version. */
export function withOfficeMarks(sheet: FileSheet, template: Template, defaults: OfficeDefaults): FileSheet {
  return withEntered(sheet, defaults.marksFor(sheet.plan, template));
}
