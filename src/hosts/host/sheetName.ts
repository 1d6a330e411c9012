import { faultOfSheetName, freeSheetName, isSheetNameTaken } from "../../sheet/index.ts";
import { SheetNameTaken } from "./host.ts";

/** Refuses a name no spreadsheet program takes, and one already on the workbook. */
export function checkSheetName(name: string, taken: readonly string[]): void {
  const fault = faultOfSheetName(name);
  if (fault !== undefined) throw new Error(fault);
  if (isSheetNameTaken(name, taken)) throw new SheetNameTaken(name, freeSheetName(name, taken));
}

/** The sheet's name as formulas write it before `!`. */
export function quotedSheet(name: string): string {
  return /^[A-Za-z_]\w*$/.test(name) && !/^[A-Za-z]{1,3}\d+$|^R\d*C\d*$/i.test(name)
    ? name
    : `'${name.replaceAll("'", "''")}'`;
}
