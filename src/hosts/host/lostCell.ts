import { functionsIn, ourFunction, type Address, type CellContent } from "../../cells/index.ts";
import { typedAnew, type LostCell } from "./lostFunctions.ts";

/** Whether the cell's formula has lost our functions: their names carry the program's own mark, or give #NAME?. */
export function lostCell(sheet: string, at: Address, { formula, value, error }: CellContent): LostCell | undefined {
  if (formula === undefined) return undefined;
  const typed = typedAnew(formula);
  const ours = functionsIn(typed).some((name) => ourFunction(name) !== undefined);
  if (!ours || (typed === formula && error?.code !== "#NAME?")) return undefined;
  return { sheet, row: at.row, column: at.column, formula, typed, ...(error === undefined && { stored: value }) };
}
