import type { Host } from "../../src/hosts/index.ts";
import { whyNot } from "../loading.ts";

/** Whether part of the sheet is still in the workbook; by name, since the class comes from whichever host is in use. */
export const isLeft = (error: unknown): boolean => error instanceof Error && error.name === "SheetLeft";

/** "The sheet was not built", what of it is left in the workbook, what is kept, and why. */
export function notBuilt(what: string, kept: string, error: unknown): string {
  if (isLeft(error))
    return `${what} was not built, and part of it is still in the workbook; ${kept}. What to do: ${whyNot(error)}`;
  if (error instanceof Error && error.name === "AbortError")
    return `Building was cancelled. No sheet was left in the workbook; ${kept}.`;
  return `${what} was not built and nothing was left in the workbook; ${kept}. ${whyNot(error)}`;
}

/** The workbook's sheets after one was built; where they can't be listed, those known and the new one: it was built all the same. */
export async function namesWith(
  host: Pick<Host, "sheetNames">,
  known: readonly string[],
  built: string,
): Promise<readonly string[]> {
  try {
    return await host.sheetNames();
  } catch {
    return [...known, built];
  }
}
