import { protectAreas } from "./build.ts";
import { guardedOn, unguarded } from "./guarded.ts";
import type { GridRuntime, GridWorkbook } from "./runtime.ts";

interface Params {
  readonly subUnitId?: string;
  readonly sheet?: { readonly id?: string };
}

/**
 * Makes a copied sheet what the first one is. Left to itself the grid brings the cells of a large sheet bit by bit,
 * computes those that are there, so that others find nothing, and leaves the copy unprotected.
 */
export function completeCopies(grid: GridRuntime, workbook: GridWorkbook, trouble: (text: string) => void): void {
  const { core, univer } = grid;
  const injector = univer.__getInjector();
  injector
    .get(core.IConfigService)
    .setConfig("sheets.config", { largeSheetOperation: { largeSheetCellCountThreshold: Infinity } }, { merge: true });
  let inserted: string | undefined;
  injector.get(core.ICommandService).onCommandExecuted(({ id, params }) => {
    const { subUnitId, sheet }: Params = params ?? {};
    if (id === "sheet.mutation.insert-sheet") inserted = sheet?.id;
    if (id !== "sheet.command.copy-sheet" || inserted === undefined) return;
    const copy = inserted;
    inserted = undefined;
    protectLike(grid, workbook, subUnitId ?? workbook.getActiveSheet().getSheetId(), copy).catch((error: unknown) =>
      trouble(unguarded(workbook, copy, error)),
    );
  });
}

/** The cells that are guarded on one sheet are guarded on the other. */
async function protectLike(grid: GridRuntime, workbook: GridWorkbook, first: string, second: string): Promise<void> {
  const [source, copy] = [workbook.getSheetBySheetId(first), workbook.getSheetBySheetId(second)];
  if (!source || !copy) return;
  for (const { areas, name } of await guardedOn(source)) await protectAreas(grid, copy, areas, name);
}
