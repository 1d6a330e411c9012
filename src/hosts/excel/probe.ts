import { namespace } from "../../cells/index.ts";
import type { ExcelDependencies } from "./runs.ts";

/** Errors that pass: the cell is still being computed. */
const unfinished: ReadonlySet<unknown> = new Set(["#BUSY!", "#GETTING_DATA", "#CONNECT!"]);
/** A function of ours that takes nothing and always answers. */
const probe = `${namespace}VERSION`;
const betweenLooks = 250;
const registrationLimit = 10_000;
export const calculationLimit = 120_000;

export class FunctionsNotRegistered extends Error {
  override readonly name = "FunctionsNotRegistered";
}

export function isUnfinished(value: unknown): boolean {
  return unfinished.has(value);
}

/** Loads a range's values again and again until none is still being computed. Rejects after two minutes, or when the signal says so. */
export async function computedValues(
  range: Excel.Range,
  { pause }: Pick<ExcelDependencies, "pause">,
  what: string,
  signal?: AbortSignal,
): Promise<readonly (readonly unknown[])[]> {
  for (let waited = 0; ; waited += betweenLooks) {
    range.load("values");
    await range.context.sync();
    signal?.throwIfAborted();
    const values = range.values as readonly (readonly unknown[])[];
    if (!values.some((row) => row.some(isUnfinished))) return values;
    if (waited >= calculationLimit)
      throw new Error(
        `${what} is still being computed after ${calculationLimit / 1000} s. Wait until the workbook is computed, then try again.`,
      );
    await pause(betweenLooks);
  }
}

/** Asks one cell of the new sheet whether the worksheet functions answer, before a whole sheet of them is written. */
export async function checkFunctions(
  sheet: Excel.Worksheet,
  { pause }: Pick<ExcelDependencies, "pause">,
  signal?: AbortSignal,
): Promise<void> {
  const cell = sheet.getRangeByIndexes(0, 0, 1, 1);
  for (let waited = 0; ; waited += betweenLooks) {
    cell.formulas = [[`=${probe}()`]];
    const value = (await computedValues(cell, { pause }, "A first formula", signal))[0]![0];
    if (value !== "#NAME?") {
      if (typeof value !== "string" || value.startsWith("#"))
        throw new FunctionsNotRegistered(
          `The worksheet functions answer ${String(value)} instead of their version; reload the add-in, then try again.`,
        );
      cell.clear();
      return;
    }
    if (waited >= registrationLimit)
      throw new FunctionsNotRegistered(
        `The functions are not registered yet: =${probe}() gives #NAME?. Wait a moment and try again; ` +
          "if it stays so, close and open the workbook or load the add-in anew.",
      );
    await pause(betweenLooks);
  }
}
