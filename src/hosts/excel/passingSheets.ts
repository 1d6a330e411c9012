import type { ExcelDependencies } from "./runs.ts";

const pattern = /^kb-([0-9a-z]{8,9})-[0-9a-f]{8}$/;

/**
 * No work takes as long: a sheet this old, in milliseconds, was left by one that broke off. A younger one may be a
 * co-author's, whose build goes on elsewhere. Nothing in the sheet tells: what he writes arrives here late or in one
 * piece, and to remove a sheet that he is building is worse than to show half of one for an hour.
 */
const longest = 3_600_000;

/** A name nobody else gives a sheet: what bears it is ours to remove. It says when the sheet was made. */
export function passingName(now = Date.now()): string {
  return `kb-${now.toString(36)}-${crypto.randomUUID().slice(0, 8)}`;
}

/** When nobody can be at work any more on a sheet of this name; undefined where it is no passing sheet's. */
function endOf(name: string): number | undefined {
  const made = pattern.exec(name)?.[1];
  return made === undefined ? undefined : parseInt(made, 36) + longest;
}

/** Is this the name of a sheet that a build or an evaluation left behind when it broke off? */
export function isLeftOver(name: string, now = Date.now()): boolean {
  const end = endOf(name);
  return end !== undefined && now > end;
}

/** What a sweep found. */
export interface Swept {
  /** Sheets removed, left by work that broke off. */
  readonly gone: readonly string[];
  /** Visible sheets of work that may still go on. */
  readonly unfinished: readonly string[];
  /** Milliseconds until another sweep is worth while; undefined where nothing young was found. */
  readonly again?: number;
}

/** Removes what builds and evaluations left behind when the program or the add-in broke off. */
export function sweepLeftOvers({ run }: Pick<ExcelDependencies, "run">, now: () => number = Date.now): Promise<Swept> {
  return run(async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load("items/name,items/visibility");
    await context.sync();
    const at = now();
    const left = worksheets.items.filter(({ name }) => isLeftOver(name, at));
    const young = worksheets.items.filter(
      ({ name }) => endOf(name) !== undefined && !left.some((l) => l.name === name),
    );
    // A workbook keeps at least one sheet.
    const gone = left.length < worksheets.items.length ? left : [];
    for (const sheet of gone) {
      // A sheet hidden for good cannot be deleted.
      sheet.visibility = "Hidden";
      sheet.delete();
    }
    if (gone.length > 0) await context.sync();
    return {
      gone: gone.map(({ name }) => name),
      unfinished: young.filter(({ visibility }) => visibility === "Visible").map(({ name }) => name),
      ...(young.length > 0 && { again: Math.max(...young.map(({ name }) => endOf(name)!)) - at + 1000 }),
    };
  });
}
