import { ExcelHost } from "./excelHost.ts";
import type { Swept } from "./passingSheets.ts";
import type { ExcelDependencies, ExcelRun } from "./runs.ts";

export type { Repaired } from "./lost.ts";
export { FunctionsNotRegistered } from "./probe.ts";
export { optionalSets, requiredSets, type ApiSet, type RequiredSet } from "./requirements.ts";
export { sideLoading } from "./sideLoading.ts";
export type { ExcelDependencies, ExcelHost, ExcelRun, Swept };

/** The spreadsheet program as a host: in the add-in with `Excel.run` and the program's own answers about its API sets. */
export function openExcel({
  pause = (milliseconds) => new Promise((resolve) => setTimeout(resolve, milliseconds)),
  ...dependencies
}: Omit<ExcelDependencies, "pause"> & Partial<Pick<ExcelDependencies, "pause">>): ExcelHost {
  return new ExcelHost({ ...dependencies, pause });
}
