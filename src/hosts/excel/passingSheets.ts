import type { ExcelDependencies } from "./runs.ts";

const pattern = /^kb-([0-9a-z]{8,9})-[0-9a-f]{8}$/;

/**
 * No work takes as long: a sheet this old, in milliseconds, was left by one that broke off. A younger one may be
 * somebody else's, who works in the same workbook.
 */
const longest = 3_600_000;

/** A name nobody else gives a sheet: what bears it is ours to remove. It says when the sheet was made. */
export function passingName(now = Date.now()): string {
  return `kb-${now.toString(36)}-${crypto.randomUUID().slice(0, 8)}`;
}

/** Is this the name of a sheet that a build or an evaluation left behind when it broke off? */
export function isLeftOver(name: string, now = Date.now()): boolean {
  const made = pattern.exec(name)?.[1];
  return made !== undefined && now - parseInt(made, 36) > longest;
}

/** Removes what builds and evaluations left behind when the program or the add-in broke off, and gives the names of those sheets. */
export function sweepLeftOvers({ run }: Pick<ExcelDependencies, "run">): Promise<readonly string[]> {
  return run(async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load("items/name");
    await context.sync();
    const left = worksheets.items.filter(({ name }) => isLeftOver(name));
    // A workbook keeps at least one sheet.
    const gone = left.length < worksheets.items.length ? left : [];
    for (const sheet of gone) {
      // A sheet hidden for good cannot be deleted.
      sheet.visibility = "Hidden";
      sheet.delete();
    }
    if (gone.length > 0) await context.sync();
    return gone.map(({ name }) => name);
  });
}
