import type { Plan } from "../../sheet/index.ts";
import type { ApplyOptions, CellContent, CellValue } from "../host/host.ts";
import { rowHeights } from "../look/measures.ts";
import { addressLists, rangeOf } from "./areas.ts";
import { addCharts } from "./charts.ts";
import { addLogo } from "./logo.ts";
import { chunks } from "./contents.ts";
import { addFunctions, type NameBefore } from "./functionNames.ts";
import { drawLook, lookSteps } from "./looks.ts";
import { freeze, setOutline, setPrint, setSizes } from "./page.ts";
import { checkFunctions, computedValues } from "./probe.ts";
import { optionalSets } from "./requirements.ts";
import { addHighlight, addValidation } from "./rules.ts";
import type { ExcelDependencies } from "./runs.ts";

/** So many of the program's objects a request: each costs it some work, and a request must not hold it up for seconds. */
const mostObjects = 150;

/** Of the whole work, what is done when the sheet is left to compute. */
const computing = 0.8;

/** As far as texts and their lines are concerned. */
function contentOf(value: unknown): CellContent {
  return { value: value as CellValue, text: String(value) };
}

/** Parts of a list that are done together. */
function* parts<T>(list: readonly T[]): Generator<readonly T[]> {
  for (let i = 0; i < list.length; i += mostObjects) yield list.slice(i, i + mostObjects);
}

/**
 * Puts the plan onto an empty new sheet, batch by batch, and waits until it is computed. Whoever calls it removes the
 * sheet when it fails, and puts back the functions in `before`.
 */
export async function buildSheet(
  sheet: Excel.Worksheet,
  plan: Plan,
  { sheetName, progress, signal }: ApplyOptions,
  dependencies: ExcelDependencies,
  before: NameBefore[],
): Promise<void> {
  const { context } = sheet;
  const { application } = context.workbook;
  const total = plan.cells.length;
  const send = async (): Promise<void> => {
    await context.sync();
    signal?.throwIfAborted();
  };
  const tell = async (share: number, what: string): Promise<void> => {
    await send();
    progress(Math.round(total * share), total, what);
    signal?.throwIfAborted();
    if (share >= computing) return;
    // Both last only until the next request.
    application.suspendScreenUpdatingUntilNextSync();
    application.suspendApiCalculationUntilNextSync();
  };

  await checkFunctions(sheet, dependencies, signal);
  sheet.showGridlines = false;

  // Names first: formulas may speak of them.
  await tell(0, "placing cells");
  for (const some of parts(plan.names)) {
    for (const name of some) sheet.names.add(name.name, rangeOf(sheet, name));
    await tell(0, "placing cells");
  }
  await addFunctions(sheet, plan, before);
  let placed = 0;
  for (const { row, cells, typed, formats } of chunks(plan.cells, plan.rows, plan.columns)) {
    const range = sheet.getRangeByIndexes(row, 0, typed.length, plan.columns);
    range.numberFormat = formats as string[][];
    range.formulas = typed as (string | number | boolean)[][];
    placed += cells;
    await tell(0.5 * (placed / total), "placing cells");
  }
  await tell(0.5, "drawing cells");
  for (const some of parts(lookSteps(plan))) {
    for (const { address, style } of some) drawLook(sheet.getRanges(address).format, style);
    await tell(0.55, "drawing cells");
  }
  for (const some of parts(plan.spans)) {
    for (const span of some) rangeOf(sheet, span).merge(false);
    await tell(0.6, "joining cells");
  }
  for (const some of parts(plan.validations)) {
    for (const validation of some) addValidation(sheet, validation);
    await tell(0.65, "setting what may be typed");
  }
  for (const some of parts(plan.highlights)) {
    for (const highlight of some) addHighlight(sheet, highlight);
    await tell(0.7, "colouring verdicts");
  }
  await tell(computing, "computing");
  // Where the user has set the workbook to compute by hand, the new sheet would stay without values.
  sheet.calculate(false);
  const values = await computedValues(
    rangeOf(sheet, { row: 0, column: 0, rows: plan.rows, columns: plan.columns }),
    dependencies,
    `“${sheetName}”`,
    signal,
  );

  const heights = rowHeights(
    plan,
    values.map((row) => row.map(contentOf)),
  );
  setSizes(sheet, plan, heights);
  await tell(0.85, "drawing charts");
  await addCharts(sheet, plan.charts, heights);
  addLogo(sheet, plan, heights);
  freeze(sheet, plan.freeze);
  if (dependencies.supports(optionalSets.outline.set, optionalSets.outline.version)) setOutline(sheet, plan);
  setPrint(sheet, plan, heights);
  await tell(0.95, "protecting formulas");
  for (const address of addressLists(plan.unlocked)) sheet.getRanges(address).format.protection.locked = false;
  sheet.protection.protect({ allowFormatColumns: true, allowFormatRows: true, selectionMode: "Normal" });
  // Last of all: a sheet that bears the name is whole and protected, whatever breaks off before.
  sheet.name = sheetName;
  sheet.activate();
  sheet.getRangeByIndexes(0, 0, 1, 1).select();
  await send();
  progress(total, total, "done");
  signal?.throwIfAborted();
}
