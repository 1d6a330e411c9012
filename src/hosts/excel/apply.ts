import type { Plan } from "../../sheet/index.ts";
import { SheetDeleted, SheetLeft, type ApplyOptions } from "../host/host.ts";
import { checkSheetName } from "../host/sheetName.ts";
import { buildSheet } from "./build.ts";
import { putBackFunctions, type NameBefore } from "./functionNames.ts";
import { passingName } from "./passingSheets.ts";
import { codeOf, twice, type ExcelDependencies } from "./runs.ts";

/** What was there before, and what the new sheet is called while it is not yet known by its id. */
interface Begun {
  readonly activeId: string;
  readonly passingName: string;
  /** Functions of the workbook's own that were changed. */
  readonly functions: NameBefore[];
}

async function beforeBuilding(context: Excel.RequestContext, sheetName: string): Promise<Begun> {
  const { worksheets, protection } = context.workbook;
  worksheets.load("items/name");
  protection.load("protected");
  const active = worksheets.getActiveWorksheet();
  active.load("id");
  await context.sync();
  checkSheetName(
    sheetName,
    worksheets.items.map(({ name }) => name),
  );
  if (protection.protected)
    throw new Error(
      "The workbook's structure is protected, so that no sheet can be added. Remove the protection (Review, " +
        "Protect Workbook), then try again.",
    );
  return { activeId: active.id, passingName: passingName(), functions: [] };
}

/**
 * Removes the sheet, if it came to be. Where it is shown, the one that was shown before comes back; a user who has
 * turned to another stays there. A run of its own: the one that failed may no longer work.
 */
function undo(
  { run }: ExcelDependencies,
  { activeId, passingName, functions }: Begun,
  id: string | undefined,
): Promise<void> {
  return run(async (context) => {
    const { worksheets } = context.workbook;
    const begun = worksheets.getItemOrNullObject(id ?? passingName);
    const before = worksheets.getItemOrNullObject(activeId);
    const shown = worksheets.getActiveWorksheet();
    begun.load("id");
    before.load("id");
    shown.load("id");
    await context.sync();
    if (!begun.isNullObject && !before.isNullObject && shown.id === begun.id) before.activate();
    if (!begun.isNullObject) begun.delete();
    await context.sync();
    await putBackFunctions(context, functions);
  });
}

/** Builds the plan on a new sheet, all or nothing. */
export async function applyPlan(dependencies: ExcelDependencies, plan: Plan, options: ApplyOptions): Promise<void> {
  options.signal?.throwIfAborted();
  let begun: Begun | undefined;
  let id: string | undefined;
  try {
    await dependencies.run(async (context) => {
      begun = await beforeBuilding(context, options.sheetName);
      options.signal?.throwIfAborted();
      const sheet = context.workbook.worksheets.add(begun.passingName);
      sheet.load("id");
      await context.sync();
      id = sheet.id;
      await buildSheet(context.workbook.worksheets.getItem(id), plan, options, dependencies, begun.functions);
    });
  } catch (error) {
    if (begun) {
      try {
        const state = begun;
        await twice(() => undo(dependencies, state, id), dependencies.report);
      } catch (second) {
        throw new SheetLeft(
          [error, second],
          `“${options.sheetName}” could not be completed (${(error as Error).message}), nor could it be ` +
            `removed (${(second as Error).message}): delete the sheet “${options.sheetName}” or “${begun.passingName}” ` +
            "by hand.",
          { cause: error },
        );
      }
    }
    throw codeOf(error) === "ItemNotFound" ? new SheetDeleted(options.sheetName) : error;
  }
}
