import { agreesWithHost, type CellContent } from "../../cells/index.ts";
import { mayBeLost, type LostCell } from "../host/lostFunctions.ts";
import { calculationLimit, isUnfinished } from "./probe.ts";
import { contentProperties, contentsOf, rowSteps } from "./read.ts";
import { rangeOf } from "./areas.ts";
import type { ExcelDependencies } from "./runs.ts";
import { usedArea } from "./usedArea.ts";

/** What entering formulas anew came to. */
export interface Repaired {
  /** How many cells show a value again, or still the one that was stored. */
  readonly cells: number;
  /** Cells that show something else than what was stored. */
  readonly differ: readonly { readonly cell: LostCell; readonly now: CellContent }[];
  /** Cells that still give #NAME?. */
  readonly still: readonly LostCell[];
  /** Sheets left alone, since the program did not take their protection away, with its reason. */
  readonly locked: readonly { readonly sheet: string; readonly why: string }[];
}

/** Every cell of the workbook whose formula has lost our functions. */
export async function lostCells(context: Excel.RequestContext): Promise<readonly LostCell[]> {
  const { worksheets } = context.workbook;
  worksheets.load("items/name");
  await context.sync();
  const found: LostCell[] = [];
  for (const sheet of worksheets.items) {
    const used = await usedArea(sheet);
    if (used.rows === 0) continue;
    for (const part of rowSteps(used)) {
      const range = rangeOf(sheet, part);
      range.load(contentProperties);
      await context.sync();
      const doubtful = contentsOf(range).flatMap((line, r) =>
        line.flatMap((content, c) =>
          mayBeLost(content) ? [{ at: { row: part.row + r, column: part.column + c }, content }] : [],
        ),
      );
      if (doubtful.length === 0) continue;
      // Reads formulas, for which most workbooks give no cause.
      const { lostCell } = await import("../host/lostCell.ts");
      found.push(...doubtful.flatMap(({ at, content }) => lostCell(sheet.name, at, content) ?? []));
    }
  }
  return found;
}

type Options = Excel.Interfaces.WorksheetProtectionData["options"];

/** Takes the protection of a sheet away as long as the work takes; gives the reason where the program refuses that. */
async function unprotected(sheet: Excel.Worksheet, work: () => Promise<void>): Promise<string | undefined> {
  const { protection } = sheet;
  protection.load("protected,options");
  await sheet.context.sync();
  if (!protection.protected) {
    await work();
    return undefined;
  }
  const options: Options = protection.options;
  try {
    protection.unprotect();
    await sheet.context.sync();
  } catch (error) {
    // A password that nobody gave, or whatever else: the program says it.
    return (error as Error).message;
  }
  try {
    await work();
    return undefined;
  } finally {
    protection.protect(options);
    await sheet.context.sync();
  }
}

/** Cells in one request: each is an object of its own. */
const together = 500;
const betweenLooks = 250;

/** What cells show, once none is still being computed. */
async function shown(
  ranges: readonly Excel.Range[],
  { pause }: Pick<ExcelDependencies, "pause">,
): Promise<readonly CellContent[]> {
  for (let waited = 0; ; waited += betweenLooks) {
    for (const range of ranges) range.load(contentProperties);
    await ranges[0]!.context.sync();
    const contents = ranges.map((range) => contentsOf(range)[0]![0]!);
    if (!contents.some(({ error }) => isUnfinished(error?.code)) || waited >= calculationLimit) return contents;
    await pause(betweenLooks);
  }
}

/** Enters the formulas anew and compares what they give with what was stored. Nothing else is touched. */
export async function repairCells(
  context: Excel.RequestContext,
  cells: readonly LostCell[],
  dependencies: Pick<ExcelDependencies, "pause">,
): Promise<Repaired> {
  const differ: { cell: LostCell; now: CellContent }[] = [];
  const still: LostCell[] = [];
  const locked: { sheet: string; why: string }[] = [];
  let repaired = 0;
  const judge = (cell: LostCell, now: CellContent): void => {
    const same = !now.error && (cell.stored === undefined || agreesWithHost(now.value, cell.stored));
    if (now.error?.code === "#NAME?") still.push(cell);
    else if (same || (now.error && cell.stored === undefined)) repaired++;
    else differ.push({ cell, now });
  };
  for (const name of new Set(cells.map(({ sheet }) => sheet))) {
    const own = cells.filter(({ sheet }) => sheet === name);
    const sheet = context.workbook.worksheets.getItem(name);
    const ranges = own.map(({ row, column }) => sheet.getRangeByIndexes(row, column, 1, 1));
    const why = await unprotected(sheet, async () => {
      for (let from = 0; from < own.length; from += together) {
        own.slice(from, from + together).forEach(({ typed }, i) => (ranges[from + i]!.formulas = [[typed]]));
        await context.sync();
      }
    });
    if (why !== undefined) {
      locked.push({ sheet: name, why });
      continue;
    }
    for (let from = 0; from < own.length; from += together) {
      const now = await shown(ranges.slice(from, from + together), dependencies);
      now.forEach((content, i) => judge(own[from + i]!, content));
    }
  }
  return { cells: repaired, differ, still, locked };
}
