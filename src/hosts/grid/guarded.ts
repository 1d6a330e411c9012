import type { Area } from "../../cells/index.ts";
import { forbidEntries, protectAreas } from "./build.ts";
import type { GridRuntime, GridSheet, GridWorkbook } from "./runtime.ts";

interface Params {
  readonly subUnitId?: string;
  readonly sheet?: { readonly id?: string };
}

/** What is said of a sheet whose cells anyone can now type over. */
export function unguarded(workbook: GridWorkbook, sheetId: string, error: unknown): string {
  const name = workbook.getSheetBySheetId(sheetId)?.getSheetName() ?? "";
  return `“${name}” could not be protected (${(error as Error).message}): its formulas can be typed over. Delete the sheet.`;
}

/**
 * A deleted sheet that comes back by undo, and a copy that comes back by redo, is guarded again: the grid brings the
 * rules back without what they forbid, or not at all.
 */
export function guardReturning(grid: GridRuntime, workbook: GridWorkbook, trouble: (text: string) => void): void {
  const { core, univer } = grid;
  const commands = univer.__getInjector().get(core.ICommandService);
  /** The guarded cells of sheets that are gone. */
  const gone = new Map<string, Promise<readonly Guarded[]>>();
  const returned = new Set<string>();
  commands.beforeCommandExecuted(({ id, params }) => {
    const { subUnitId }: Params = params ?? {};
    const sheet = subUnitId === undefined ? undefined : workbook.getSheetBySheetId(subUnitId);
    if (id === "sheet.mutation.remove-sheet" && sheet) gone.set(subUnitId!, guardedOn(sheet));
  });
  commands.onCommandExecuted(({ id, params }) => {
    const { sheet }: Params = params ?? {};
    if (id === "sheet.mutation.insert-sheet" && sheet?.id !== undefined && gone.has(sheet.id)) returned.add(sheet.id);
    if (id !== core.UndoCommand.id && id !== core.RedoCommand.id) return;
    for (const back of returned) {
      guardAgain(grid, workbook.getSheetBySheetId(back), gone.get(back)!).catch((error: unknown) =>
        trouble(unguarded(workbook, back, error)),
      );
      gone.delete(back);
    }
    returned.clear();
  });
}

async function guardAgain(
  grid: GridRuntime,
  sheet: GridSheet | null,
  before: Promise<readonly Guarded[]>,
): Promise<void> {
  if (!sheet) return;
  const rules = await sheet.getWorksheetPermission().listRangeProtectionRules();
  for (const rule of rules) await forbidEntries(grid, rule);
  if (rules.length > 0) return;
  for (const { areas, name } of await before) await protectAreas(grid, sheet, areas, name);
}

/** Cells that one rule guards, and the sheet's name. */
interface Guarded {
  readonly name: string;
  readonly areas: readonly Area[];
}

export async function guardedOn(sheet: GridSheet): Promise<readonly Guarded[]> {
  const name = sheet.getSheetName();
  const rules = await sheet.getWorksheetPermission().listRangeProtectionRules();
  return rules.map(({ ranges }) => ({
    name,
    areas: ranges.map((range) => ({
      row: range.getRow(),
      column: range.getColumn(),
      rows: range.getHeight(),
      columns: range.getWidth(),
    })),
  }));
}
