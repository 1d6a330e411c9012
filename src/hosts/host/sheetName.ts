import { faultOfSheetName, freeSheetName, isSheetNameTaken } from "../../sheet/index.ts";
import { SheetNameTaken } from "./host.ts";

/** Refuses a name no spreadsheet program takes, and one already on the workbook. */
export function checkSheetName(name: string, taken: readonly string[]): void {
  const fault = faultOfSheetName(name);
  if (fault !== undefined) throw new Error(fault);
  if (isSheetNameTaken(name, taken)) throw new SheetNameTaken(name, freeSheetName(name, taken));
}
