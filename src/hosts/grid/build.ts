import { sheetsIn, type Area, type Snapshot } from "../../cells/index.ts";
import type { Plan } from "../../sheet/index.ts";
import { SheetDeleted, SheetLeft, type ApplyOptions } from "../host/host.ts";
import { planResults, type PlanResults } from "../host/planValues.ts";
import { calculated, nextResult } from "./calculated.ts";
import { lockedAreas } from "./lockedAreas.ts";
import { highlightRule, validationRule } from "./rules.ts";
import { workbookId, type GridRuntime, type GridSheet, type GridWorkbook } from "./runtime.ts";
import type { SelfContained } from "./selfContained.ts";
import { sheetData } from "./sheetData.ts";
import type { SheetNames } from "./sheetNames.ts";

/** Rejects when the signal says so, whatever the work is waiting for. */
async function unlessAborted<T>(work: Promise<T>, signal: AbortSignal | undefined): Promise<T> {
  if (!signal) return work;
  signal.throwIfAborted();
  let stop = (): void => undefined;
  const aborted = new Promise<never>((_resolve, reject) => {
    stop = () => reject(signal.reason as Error);
    signal.addEventListener("abort", stop, { once: true });
  });
  try {
    return await Promise.race([work, aborted]);
  } finally {
    signal.removeEventListener("abort", stop);
  }
}

/** Lets the page draw and hear a click on Cancel. */
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/**
 * What the plan's formulas give; undefined where the grid has to compute: formulas of other sheets wait for a sheet of
 * this name, or a formula gives an error, since the grid passes over some.
 */
function resultsAhead(
  workbook: GridWorkbook,
  selfContained: SelfContained,
  plan: Plan,
  sheetName: string,
  others: readonly Snapshot[],
): PlanResults | undefined {
  const mentioning = workbook.getSheets().filter((sheet) => !selfContained.has(sheet.getSheetId()));
  if (mentioning.some((sheet) => mentions(sheet, sheetName))) return undefined;
  const results = planResults(plan, sheetName, others);
  return results && [...results.values()].every(({ error }) => error === undefined) ? results : undefined;
}

/** Whether a formula of the sheet says that name of a sheet. */
export function mentions(sheet: GridSheet, name: string): boolean {
  const sought = name.toLowerCase();
  let found = false;
  sheet
    .getSheet()
    .getCellMatrix()
    .forValue((_row, _column, cell) => {
      found = sheetsIn(cell?.f ?? "").some((other) => other.toLowerCase() === sought);
      return !found;
    });
  return found;
}

/** What the grid computes after sheets come or go. */
const comingAndGoing = ["sheet.mutation.insert-sheet", "sheet.mutation.remove-sheet"];

/**
 * A new sheet sets the grid computing all of it; where its values are known that is half a minute of work for nothing.
 * One that goes has the grid look for its name under its old number, also where another of that name stands by then.
 */
export function withoutCalculation<T>({ formula, univer }: GridRuntime, act: () => T): T {
  const dirty = univer.__getInjector().get(formula.IActiveDirtyManagerService);
  const registered = comingAndGoing.map((id) => [id, dirty.get(id)] as const);
  for (const id of comingAndGoing) dirty.remove(id);
  try {
    return act();
  } finally {
    for (const [id, one] of registered) if (one) dirty.register(id, one);
  }
}

/**
 * The grid reads a sheet's formulas at its first calculation. Where the sheet came with its values, that is done while
 * people look at it, not at their first entry.
 */
export function readFormulas({ core, onScreen, univer }: GridRuntime): void {
  if (!onScreen) return;
  const commands = univer.__getInjector().get(core.ICommandService);
  const nothing = { dirtyRanges: [], dirtyNameMap: {}, dirtyDefinedNameMap: {}, dirtyUnitFeatureMap: {} };
  const id = "formula.mutation.set-trigger-formula-calculation-start";
  commands.syncExecuteCommand(
    id,
    { ...nothing, dirtyUnitOtherFormulaMap: {}, forceCalculation: false },
    { onlyLocal: true },
  );
}

/**
 * Puts the plan on a new sheet and waits until it is computed; `others` are the sheets that a linked one refers to.
 * All or nothing: when anything fails, the sheet and its names go and the sheet that was shown is shown again.
 */
export async function build(
  grid: GridRuntime,
  workbook: GridWorkbook,
  names: SheetNames,
  selfContained: SelfContained,
  plan: Plan,
  { sheetName, progress, signal }: ApplyOptions,
  others: readonly Snapshot[],
): Promise<GridSheet> {
  signal?.throwIfAborted();
  const { core, univer } = grid;
  const injector = univer.__getInjector();
  const commands = injector.get(core.ICommandService);
  const before = workbook.getActiveSheet();
  const total = plan.cells.length;
  const tell = async (done: number, what: string): Promise<void> => {
    progress(done, total, what);
    await unlessAborted(breathe(), signal);
  };
  const mutate = (id: string, params: object): void => {
    if (!commands.syncExecuteCommand(id, params))
      throw new Error(`the grid refused “${id}” while “${sheetName}” was built`);
  };

  await tell(0, "computing");
  const styleTable = workbook.getWorkbook().getStyles();
  // What the grid has still to compute from before would go through the new sheet as well.
  await unlessAborted(calculated(grid), signal);
  const ahead = resultsAhead(workbook, selfContained, plan, sheetName, others);
  await tell(Math.round(total / 4), "placing cells");
  const create = (): GridSheet =>
    workbook.create(sheetName, plan.rows, plan.columns, {
      sheet: sheetData(core, plan, ahead, (style) => styleTable.setValue(style)!),
    });
  const result = ahead || !plan.cells.some(({ formula }) => formula !== undefined) ? undefined : nextResult(grid);
  let sheet: GridSheet;
  try {
    sheet = ahead ? withoutCalculation(grid, create) : create();
  } catch (error) {
    result?.stop();
    throw error;
  }
  const sheetId = sheet.getSheetId();
  const stands = (): boolean => workbook.getSheetBySheetId(sheetId) !== null;
  // Nothing would come of waiting for a sheet that is gone.
  const gone = new AbortController();
  const deletions = grid.api.addEvent(grid.api.Event.SheetDeleted, ({ sheetId: id }) => {
    if (id === sheetId) gone.abort(new SheetDeleted(sheetName));
  });
  const ended = AbortSignal.any([gone.signal, ...(signal ? [signal] : [])]);
  const functions = plan.functions ?? [];
  const putBack = names.keeping(functions.map(({ name }) => name));
  try {
    for (const { name, formula } of functions) names.give(name, formula);
    const mentioned = names.add(sheetId, sheetName, plan.names);
    if (!ahead || mentioned) {
      await tell(Math.round(total / 2), "computing");
      await unlessAborted(calculated(grid), ended);
    }
    if (result) await unlessAborted(result.applied, ended);
    await tell(Math.round(total * 0.75), "setting what may be typed");
    if (plan.validations.length > 0)
      mutate("data-validation.mutation.addRule", {
        unitId: workbookId,
        subUnitId: sheetId,
        rule: plan.validations.map((v, i) => validationRule(core, v, `${sheetId}-v${i}`)),
        source: "command",
      });
    // The grid puts the latest rule first.
    [...plan.highlights].reverse().forEach((h, i) =>
      mutate("sheet.mutation.add-conditional-rule", {
        unitId: workbookId,
        subUnitId: sheetId,
        rule: highlightRule(h, `${sheetId}-h${i}`),
      }),
    );
    await tell(Math.round(total * 0.9), "protecting formulas");
    await unlessAborted(protect(grid, sheet, plan), ended);
    await tell(total, "done");
    ended.throwIfAborted();
    selfContained.add(sheetId, plan);
    if (ahead && !selfContained.has(sheetId)) selfContained.reading(sheetId, () => readFormulas(grid));
    return sheet;
  } catch (error) {
    names.remove(sheetId);
    if (functions.length > 0) putBack();
    // Whatever failed, it failed for that.
    if (!stands()) throw new SheetDeleted(sheetName);
    workbook.setActiveSheet(before);
    if (!workbook.deleteSheet(sheetId))
      throw new SheetLeft(
        [error],
        `“${sheetName}” could not be completed (${(error as Error).message}), nor could it be removed: delete it by hand.`,
        { cause: error },
      );
    throw error;
  } finally {
    deletions.dispose();
    result?.stop();
    // Steps of building are no edits of the user's: undoing them one by one would take the sheet apart.
    injector.get(core.IUndoRedoService).clearUndoRedo(workbookId);
  }
}

/** Last of all: the grid silently ignores what is written into protected cells. */
function protect(grid: GridRuntime, sheet: GridSheet, plan: Plan): Promise<void> {
  return protectAreas(grid, sheet, lockedAreas(plan.rows, plan.columns, plan.unlocked), plan.template.title);
}

export async function protectAreas(
  grid: GridRuntime,
  sheet: GridSheet,
  areas: readonly Area[],
  name: string,
): Promise<void> {
  if (areas.length === 0) return;
  const ranges = areas.map(({ row, column, rows, columns }) => sheet.getRange(row, column, rows, columns));
  const rules = await sheet.getWorksheetPermission().protectRanges([{ ranges, options: { name } }]);
  for (const rule of rules) await forbidEntries(grid, rule);
}

type ProtectionRule = Awaited<
  ReturnType<ReturnType<GridSheet["getWorksheetPermission"]>["listRangeProtectionRules"]>
>[number];

/** Lets a rule of the grid guard its cells. */
export async function forbidEntries({ api }: GridRuntime, rule: ProtectionRule): Promise<void> {
  const { Edit, View } = api.Enum.RangePermissionPoint;
  await rule.setPoint(Edit, false);
  // Forbidding to edit forbids to view, too: the grid then refuses formulas that read a locked cell.
  await rule.setPoint(View, true);
}
