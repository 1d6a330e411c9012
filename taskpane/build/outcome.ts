import type { Host } from "../../src/hosts/index.ts";

/** Whether part of the sheet is still in the workbook; by name, since the class comes from whichever host is in use. */
export const isLeft = (error: unknown): boolean => error instanceof Error && error.name === "SheetLeft";

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
