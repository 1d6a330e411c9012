import type { ICellData, Nullable } from "@univerjs/core";
import {
  areaA1,
  cut,
  parseFormula,
  quotedSheet,
  UnreadableFormula,
  withoutUnkept,
  type Area,
} from "../../cells/index.ts";
import type { CellContent, CellValue } from "../host/host.ts";
import { limits } from "../xlsx/refusal.ts";
import type { BookCell, BookName, BookSheet, Width, Workbook } from "../workbook/workbook.ts";
import { besideOf, pointsOf } from "./beside.ts";
import { lookOfGrid } from "./bookLook.ts";
import { colourOfGrid, entryOfGrid } from "./bookRules.ts";
import type { CellErrors } from "./cellErrors.ts";
import { readCells } from "./cells.ts";
import { workbookId, type GridRuntime, type GridSheet, type GridWorkbook } from "./runtime.ts";
import { areaOf, pixelsPerCharacter } from "./sheetData.ts";
import { subscriptsOf } from "./subscripts.ts";
import type { SheetNames } from "./sheetNames.ts";

/** Errors that files cannot keep as such; the formula gives its own again once it is computed. */
const keptErrors = /^#(NULL!|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|N\/A)$/;
const substitute = "#VALUE!";

function isReadable(formula: string): boolean {
  try {
    parseFormula(formula);
    return true;
  } catch (error) {
    if (!(error instanceof UnreadableFormula)) throw error;
    return false;
  }
}

/** A text with looks of its own within it stands apart from the cell's value. */
function richText(cell: Nullable<ICellData>): string | undefined {
  const text = cell?.p?.body?.dataStream;
  return text === undefined ? undefined : text.replace(/\r\n$/, "").replaceAll("\r", "\n");
}

/** A value without what no cell of a file holds: a formula's text may be of any length. */
const kept = (value: CellValue): CellValue =>
  typeof value === "string" ? cut(withoutUnkept(value), limits.text) : value;

/** What a cell holds, as far as a file can keep it. A formula that cannot be read becomes a text: no program opens a file with one. */
function holding(content: CellContent, cell: Nullable<ICellData>): Pick<BookCell, "value" | "formula" | "error"> {
  const { value, formula, error } = content;
  if (formula === undefined) {
    return { value: kept(value ?? richText(cell) ?? null) };
  }
  if (!isReadable(formula)) return { value: kept(formula) };
  if (error) return { value: null, formula, error: keptErrors.test(error.code) ? error.code : substitute };
  if (typeof value === "number" && !Number.isFinite(value)) return { value: null, formula, error: "#NUM!" };
  return { value: kept(value), formula };
}

/** The grid's own letters. */
const gridLetters = { font: "Arial", size: 11, color: "#000000" } as const;

interface Spilled {
  readonly ranges: Readonly<Record<number, Nullable<Record<number, Nullable<Parameters<typeof areaOf>[0]>>>>>;
  readonly cells: Readonly<Record<number, Nullable<Record<number, Nullable<ICellData>>>>>;
}

/** How far formulas that fill several cells reach, and what stands in those cells. */
function spilledOn({ formula, univer }: GridRuntime, sheetId: string): Spilled {
  const model = univer.__getInjector().get(formula.FormulaDataModel);
  return {
    ranges: model.getArrayFormulaRange()[workbookId]?.[sheetId] ?? {},
    cells: model.getArrayFormulaCellData()[workbookId]?.[sheetId] ?? {},
  };
}

/** From the first cell to the last of which the sheet knows anything. */
function knownArea(sheet: GridSheet, { cells }: Spilled): Area {
  let rows = 0;
  let columns = 0;
  const reach = (row: number, column: number): void => {
    rows = Math.max(rows, row + 1);
    columns = Math.max(columns, column + 1);
  };
  sheet
    .getSheet()
    .getCellMatrix()
    .forValue((row, column, cell) => {
      if (cell) reach(row, column);
    });
  for (const [row, line] of Object.entries(cells))
    for (const column of Object.keys(line ?? {})) reach(Number(row), Number(column));
  return { row: 0, column: 0, rows, columns };
}

function cellsOf(
  grid: GridRuntime,
  workbook: GridWorkbook,
  sheet: GridSheet,
  errors: CellErrors,
  guarded: boolean,
): readonly BookCell[] {
  const spilled = spilledOn(grid, sheet.getSheetId());
  const area = knownArea(sheet, spilled);
  const contents = area.rows > 0 ? readCells(grid, workbook, sheet, area, errors) : [];
  const worksheet = sheet.getSheet();
  const styles = workbook.getWorkbook().getStyles();
  const permission = sheet.getWorksheetPermission();
  const looks = new Map<unknown, BookCell["look"]>();
  const lookOf = (cell: Nullable<ICellData>): BookCell["look"] => {
    const style = cell && styles.getStyleByCell(cell);
    if (!style) return {};
    // What the style leaves to the grid is said, since files have other letters where nothing is.
    const known = looks.get(style) ?? { ...gridLetters, ...lookOfGrid(grid.core, style) };
    looks.set(style, known);
    return known;
  };
  return contents.flatMap((line, row) =>
    line.flatMap((content, column): readonly BookCell[] => {
      const cell = worksheet.getCellRaw(row, column);
      const child = spilled.cells[row]?.[column];
      if (!cell && !child) return [];
      const held = holding(content, cell);
      const look = lookOf(cell);
      const lowered = held.formula === undefined ? subscriptsOf(grid.core, cell) : [];
      const range = held.formula === undefined ? undefined : spilled.ranges[row]?.[column];
      const fills = range ? areaOf(range) : undefined;
      const unlocked = guarded && permission.canEditCell(row, column);
      if (held.value === null && held.formula === undefined && Object.keys(look).length === 0 && !unlocked) return [];
      return [
        {
          row,
          column,
          ...held,
          ...(lowered.length > 0 && { lowered }),
          ...(fills && fills.rows * fills.columns > 1 && { fills: { rows: fills.rows, columns: fills.columns } }),
          look,
          ...(unlocked && { unlocked: true as const }),
        },
      ];
    }),
  );
}

/** Of a column that nobody made wider or narrower, in pixels. */
const usualWidth = 88;
/** As the grid marks hidden rows and columns. */
const hidden: number = 1;

function widthsOf(sheet: GridSheet): ReadonlyMap<number, Width> {
  const { columnData } = sheet.getSheet().getConfig();
  return new Map(
    Object.keys(columnData)
      .map(Number)
      .flatMap((column) => {
        const { w, hd } = columnData[column] ?? {};
        if (w === undefined && Number(hd) !== hidden) return [];
        const width = (w ?? usualWidth) / pixelsPerCharacter;
        return [[column, { width, ...(Number(hd) === hidden && { hidden: true as const }) }] as const];
      }),
  );
}

/** Whether any cell of the sheet refuses what is typed. */
async function isGuarded(sheet: GridSheet): Promise<boolean> {
  const permission = sheet.getWorksheetPermission();
  return permission.isProtected() || (await permission.listRangeProtectionRules()).length > 0;
}

function namesOn(names: SheetNames, sheet: GridSheet): readonly BookName[] {
  const id = sheet.getSheetId();
  return [
    ...names.on(id).map(({ name, area }) => ({
      name,
      reference: area ? `${quotedSheet(area.sheet)}!${areaA1(area)}` : "#REF!",
    })),
    ...names.given().flatMap(({ name, reference, sheetId }) => (sheetId === id ? [{ name, reference }] : [])),
  ];
}

async function sheetOf(
  grid: GridRuntime,
  workbook: GridWorkbook,
  names: SheetNames,
  sheet: GridSheet,
  errors: CellErrors,
): Promise<BookSheet> {
  const worksheet = sheet.getSheet();
  const guarded = await isGuarded(sheet);
  const cells = cellsOf(grid, workbook, sheet, errors, guarded);
  const { rowData, showGridlines } = worksheet.getConfig();
  const rows = Object.keys(rowData).map((row) => [Number(row), rowData[Number(row)] ?? {}] as const);
  const { xSplit, ySplit } = worksheet.getFreeze();
  return {
    name: sheet.getSheetName(),
    ...(sheet.isSheetHidden() && { hidden: true as const }),
    rows: sheet.getMaxRows(),
    columns: sheet.getMaxColumns(),
    cells,
    spans: worksheet.getMergeData().map(areaOf),
    widths: widthsOf(sheet),
    heights: new Map(
      rows.flatMap(([row, data]) => {
        const points = pointsOf(data);
        return points === undefined ? [] : [[row, points] as const];
      }),
    ),
    hiddenRows: rows.flatMap(([row, { hd }]) => (Number(hd) === hidden ? [row] : [])),
    freeze: { rows: Math.max(0, ySplit), columns: Math.max(0, xSplit) },
    gridlines: Number(showGridlines) !== 0,
    names: namesOn(names, sheet),
    entries: sheet.getDataValidations().flatMap(({ rule }) => entryOfGrid(grid, rule) ?? []),
    colours: sheet.getConditionalFormattingRules().flatMap((rule) => colourOfGrid(grid, rule) ?? []),
    protected: guarded,
    ...besideOf(sheet),
  };
}

/** Everything that the grid holds, as a file can keep it. */
export async function contentsOf(
  grid: GridRuntime,
  workbook: GridWorkbook,
  names: SheetNames,
  errors: CellErrors,
): Promise<Workbook> {
  const sheets = workbook.getSheets();
  const shown = workbook.getActiveSheet().getSheetId();
  const read: BookSheet[] = [];
  for (const sheet of sheets) read.push(await sheetOf(grid, workbook, names, sheet, errors));
  return {
    sheets: read,
    names: names
      .given()
      .flatMap(({ name, reference, sheetId }) => (sheetId === undefined ? [{ name, reference }] : [])),
    properties: { creator: "Kernbook" },
    shown: Math.max(
      0,
      sheets.findIndex((sheet) => sheet.getSheetId() === shown),
    ),
  };
}
