import type { ICellData, IColumnData, IRowData, IWorksheetData } from "@univerjs/core";
import { holds, placeOf, type Area } from "../../cells/index.ts";
import type { BookCell, BookSheet, Workbook } from "../workbook/workbook.ts";
import { defaultColumnWidth } from "../look/measures.ts";
import { beside, rowOfPoints } from "./beside.ts";
import { gridStyleOf } from "./bookLook.ts";
import { gridColourRule, gridEntryRule } from "./bookRules.ts";
import { protectAreas, readFormulas, withoutCalculation } from "./build.ts";
import { recalculated } from "./calculated.ts";
import { lockedAreas } from "./lockedAreas.ts";
import { workbookId, type GridRuntime, type GridSheet, type GridWorkbook } from "./runtime.ts";
import { pixelsPerCharacter, rangeOf, valueContent } from "./sheetData.ts";
import { withSubscripts } from "./subscripts.ts";
import type { SelfContained } from "./selfContained.ts";
import type { SheetNames } from "./sheetNames.ts";

/** Room to write on below and beside what a sheet holds. */
const room = { rows: 200, columns: 20, more: 50 } as const;

function sizeOf({ rows, columns, protected: guarded }: BookSheet): {
  readonly rowCount: number;
  readonly columnCount: number;
} {
  if (guarded) return { rowCount: Math.max(1, rows), columnCount: Math.max(1, columns) };
  return { rowCount: Math.max(room.rows, rows + room.more), columnCount: Math.max(room.columns, columns + 5) };
}

/** Cells that a formula beside them fills: they follow from it. */
function filledAreas(cells: readonly BookCell[]): readonly Area[] {
  return cells.flatMap(({ row, column, fills }) =>
    fills && fills.rows * fills.columns > 1 ? [{ row, column, ...fills }] : [],
  );
}

/** The areas that have a part in a row, by row, as far as the sheet goes. */
function byRow(areas: readonly Area[], end: number): ReadonlyMap<number, readonly Area[]> {
  const rows = new Map<number, Area[]>();
  for (const area of areas)
    for (let row = area.row; row < Math.min(area.row + area.rows, end); row++) {
      const there = rows.get(row);
      if (there) there.push(area);
      else rows.set(row, [area]);
    }
  return rows;
}

function dataOf(
  { core }: GridRuntime,
  sheet: BookSheet,
  styleId: (look: BookCell["look"]) => string,
): Partial<IWorksheetData> {
  const areas = byRow(filledAreas(sheet.cells), sheet.rows);
  const widthOf = (column: number): number => sheet.widths.get(column)?.width ?? defaultColumnWidth;
  const cellData: Record<number, Record<number, ICellData>> = {};
  for (const cell of sheet.cells) {
    const { row, column, value, formula, error, look, lowered } = cell;
    const follows = formula === undefined && (areas.get(row)?.some((area) => holds(area, cell)) ?? false);
    const content: ICellData = follows
      ? {}
      : {
          ...(formula !== undefined && { f: formula }),
          ...(value !== null && valueContent(core, value)),
          ...(lowered && typeof value === "string" && withSubscripts(core, value, lowered, look, widthOf(column))),
          ...(error !== undefined && { v: error, t: core.CellValueType.STRING }),
        };
    (cellData[row] ??= {})[column] = { ...content, ...(Object.keys(look).length > 0 && { s: styleId(look) }) };
  }
  const rowData: Record<number, Partial<IRowData>> = {};
  for (const [row, points] of sheet.heights) rowData[row] = rowOfPoints(points);
  for (const row of sheet.hiddenRows) rowData[row] = { ...rowData[row], hd: core.BooleanNumber.TRUE };
  const columnData: Record<number, IColumnData> = {};
  for (const [column, { width, hidden }] of sheet.widths)
    columnData[column] = { w: Math.round(width * pixelsPerCharacter), ...(hidden && { hd: core.BooleanNumber.TRUE }) };
  const { rows, columns } = sheet.freeze;
  return {
    ...sizeOf(sheet),
    cellData,
    rowData,
    columnData,
    defaultRowHeight: 20,
    mergeData: sheet.spans.map(rangeOf),
    freeze:
      rows + columns > 0
        ? { xSplit: columns, ySplit: rows, startRow: rows, startColumn: columns }
        : { xSplit: 0, ySplit: 0, startRow: -1, startColumn: -1 },
    showGridlines: sheet.gridlines ? core.BooleanNumber.TRUE : core.BooleanNumber.FALSE,
    ...(sheet.hidden && { hidden: core.BooleanNumber.TRUE }),
    custom: beside({
      ...(sheet.print && { print: sheet.print }),
      groups: sheet.groups,
      charts: sheet.charts,
      ...(sheet.logo && { logo: sheet.logo }),
    }),
  };
}

/** Whether the grid has to compute: a formula has no value yet, fills several cells, or calls a function that was missing. */
function needsComputing({ sheets }: Workbook): boolean {
  return sheets.some(({ cells }) =>
    cells.some(
      ({ formula, value, error, fills }) =>
        formula !== undefined && (fills !== undefined || error === "#NAME?" || (value === null && error === undefined)),
    ),
  );
}

/** Names of the sheet that stand for cells of its own go with it, others as people give them. */
function addNames(names: SheetNames, sheet: GridSheet, { name: own, names: all }: BookSheet): void {
  const id = sheet.getSheetId();
  const cells = all.flatMap(({ name, reference, hidden }) => {
    const area = hidden ? undefined : placeOf(reference);
    return area && area.sheet.toLowerCase() === own.toLowerCase()
      ? [{ name, row: area.row, column: area.column, rows: area.rows, columns: area.columns }]
      : [];
  });
  names.add(id, own, cells);
  const placed = new Set(cells.map(({ name }) => name));
  for (const { name, reference, hidden } of all) if (!placed.has(name) && !hidden) names.give(name, reference, id);
}

async function placeSheet(
  grid: GridRuntime,
  workbook: GridWorkbook,
  names: SheetNames,
  sheet: BookSheet,
): Promise<GridSheet> {
  const { core, univer } = grid;
  const commands = univer.__getInjector().get(core.ICommandService);
  const styles = workbook.getWorkbook().getStyles();
  const ids = new Map<string, string>();
  const styleId = (look: BookCell["look"]): string => {
    const key = JSON.stringify(look);
    const id = ids.get(key) ?? styles.setValue(gridStyleOf(core, look))!;
    ids.set(key, id);
    return id;
  };
  const data = dataOf(grid, sheet, styleId);
  const made = withoutCalculation(grid, () =>
    workbook.create(sheet.name, data.rowCount!, data.columnCount!, { sheet: data }),
  );
  const id = made.getSheetId();
  const mutate = (mutation: string, params: object): void => {
    if (!commands.syncExecuteCommand(mutation, { unitId: workbookId, subUnitId: id, ...params }))
      throw new Error(`the grid refused “${mutation}” while “${sheet.name}” was opened`);
  };
  addNames(names, made, sheet);
  if (sheet.entries.length > 0)
    mutate("data-validation.mutation.addRule", {
      rule: sheet.entries.map((entry, i) => gridEntryRule(core, entry, `${id}-v${i}`)),
      source: "command",
    });
  // The grid puts the latest rule first.
  [...sheet.colours]
    .reverse()
    .forEach((rule, i) =>
      mutate("sheet.mutation.add-conditional-rule", { rule: gridColourRule(core, rule, `${id}-h${i}`) }),
    );
  if (sheet.protected) {
    const open = sheet.cells
      .filter(({ unlocked }) => unlocked)
      .map(({ row, column }) => ({ row, column, rows: 1, columns: 1 }));
    await protectAreas(grid, made, lockedAreas(data.rowCount!, data.columnCount!, open), sheet.name);
  }
  return made;
}

const waiting = "opening …";

function clear(grid: GridRuntime, workbook: GridWorkbook, names: SheetNames, stays: GridSheet): void {
  for (const sheet of workbook.getSheets()) {
    const id = sheet.getSheetId();
    if (id === stays.getSheetId()) continue;
    names.remove(id);
    if (!withoutCalculation(grid, () => workbook.deleteSheet(id)))
      throw new Error(`the sheet “${sheet.getSheetName()}” could not be closed`);
  }
  names.dropGiven();
}

/** What is known of the sheets beside the grid itself. */
export interface Ledgers {
  readonly names: SheetNames;
  readonly selfContained: SelfContained;
}

async function fill(
  grid: GridRuntime,
  workbook: GridWorkbook,
  { names, selfContained }: Ledgers,
  book: Workbook,
): Promise<void> {
  const made: GridSheet[] = [];
  for (const sheet of book.sheets) {
    const one = await placeSheet(grid, workbook, names, sheet);
    selfContained.add(one.getSheetId(), sheet);
    made.push(one);
  }
  for (const { name, reference, hidden } of book.names) if (!hidden) names.give(name, reference);
  const visible = book.sheets.findIndex(({ hidden }) => !hidden);
  const shown = book.sheets[book.shown ?? 0]?.hidden ? visible : (book.shown ?? 0);
  workbook.setActiveSheet(made[Math.max(0, shown)]!);
}

/** The formulas of all sheets, read while people look at them and not at their first entry. */
function readAll(grid: GridRuntime, workbook: GridWorkbook, { selfContained }: Ledgers): void {
  const ids = workbook.getSheets().map((sheet) => sheet.getSheetId());
  ids.forEach((id, i) => selfContained.reading(id, () => (i === ids.length - 1 ? readFormulas(grid) : undefined)));
}

/**
 * Puts a workbook in place of the one that is open: all or nothing. `before` is what was open, which comes back when anything fails.
 */
export async function place(
  grid: GridRuntime,
  workbook: GridWorkbook,
  ledgers: Ledgers,
  book: Workbook,
  before: Workbook,
): Promise<void> {
  const empty = withoutCalculation(grid, () => workbook.create(waiting, 1, 1));
  try {
    clear(grid, workbook, ledgers.names, empty);
    await fill(grid, workbook, ledgers, book);
  } catch (error) {
    clear(grid, workbook, ledgers.names, empty);
    await fill(grid, workbook, ledgers, before);
    throw error;
  } finally {
    withoutCalculation(grid, () => workbook.deleteSheet(empty.getSheetId()));
    // Closing and opening are no edits of the user's.
    grid.univer.__getInjector().get(grid.core.IUndoRedoService).clearUndoRedo(workbookId);
  }
  if (needsComputing(book)) await recalculated(grid, workbook);
  else readAll(grid, workbook, ledgers);
}
