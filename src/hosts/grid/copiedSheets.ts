import { mentions, protectAreas } from "./build.ts";
import { guardedOn, unguarded } from "./guarded.ts";
import type { OwnResults } from "./ownResults.ts";
import type { GridRuntime, GridWorkbook } from "./runtime.ts";
import type { SelfContained } from "./selfContained.ts";

interface Params {
  readonly subUnitId?: string;
  readonly sheet?: { readonly id?: string };
}

const coming = "sheet.mutation.insert-sheet";

interface Around {
  readonly grid: GridRuntime;
  readonly workbook: GridWorkbook;
  readonly selfContained: SelfContained;
  readonly ownResults: OwnResults;
  readonly trouble: (text: string) => void;
}

/**
 * Makes a copied sheet what the first one is. Left to itself the grid brings the cells of a large sheet bit by bit,
 * computes those that are there, so that others find nothing, and leaves the copy unprotected. The copy of a sheet that
 * reads only such sheets comes with its values and is one, too: for the grid to compute it would take many seconds.
 */
export function completeCopies({ grid, workbook, selfContained, ownResults, trouble }: Around): void {
  const { core, formula, univer } = grid;
  const injector = univer.__getInjector();
  injector
    .get(core.IConfigService)
    .setConfig("sheets.config", { largeSheetOperation: { largeSheetCellCountThreshold: Infinity } }, { merge: true });
  /** Copies that need no calculation by the grid. */
  const complete = new Set<string>();
  const dirty = injector.get(formula.IActiveDirtyManagerService);
  const skipComplete = (): void => {
    const registered = dirty.get(coming);
    if (!registered) throw new Error(`the grid does not compute after “${coming}”`);
    dirty.register(coming, {
      ...registered,
      getDirtyData: (command) => {
        const id = (command.params as Params | undefined)?.sheet?.id;
        return id !== undefined && complete.delete(id) ? {} : registered.getDirtyData(command);
      },
    });
  };
  let skipping = false;
  let inserted: string | undefined;
  injector.get(core.ICommandService).onCommandExecuted(({ id, params }) => {
    const { subUnitId, sheet }: Params = params ?? {};
    if (id === coming) inserted = sheet?.id;
    if (id !== "sheet.command.copy-sheet" || inserted === undefined) return;
    const copy = inserted;
    inserted = undefined;
    const first = subUnitId ?? workbook.getActiveSheet().getSheetId();
    if (selfContained.has(first) && ownResults.isSettled(first) && !isAwaited(workbook, selfContained, copy)) {
      if (!skipping) skipComplete();
      skipping = true;
      complete.add(copy);
      // Its formulas are read by the grid only should it once have to compute them.
      selfContained.addCopy(copy, first);
    }
    protectLike(grid, workbook, first, copy).catch((error: unknown) => trouble(unguarded(workbook, copy, error)));
  });
}

/** Whether formulas of other sheets wait for a sheet of the copy's name. */
function isAwaited(workbook: GridWorkbook, selfContained: SelfContained, copy: string): boolean {
  const name = workbook.getSheetBySheetId(copy)?.getSheetName();
  if (name === undefined) return true;
  return workbook.getSheets().some((sheet) => {
    const id = sheet.getSheetId();
    return id !== copy && !selfContained.has(id) && mentions(sheet, name);
  });
}

/** The cells that are guarded on one sheet are guarded on the other. */
async function protectLike(grid: GridRuntime, workbook: GridWorkbook, first: string, second: string): Promise<void> {
  const [source, copy] = [workbook.getSheetBySheetId(first), workbook.getSheetBySheetId(second)];
  if (!source || !copy) return;
  for (const { areas, name } of await guardedOn(source)) await protectAreas(grid, copy, areas, name);
}
