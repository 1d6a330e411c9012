import type { Area } from "../../cells/index.ts";
import type { ICellData, Nullable } from "@univerjs/core";
import type { CellContent, CellValue } from "../host/host.ts";
import { cellKey, type CellErrors } from "./cellErrors.ts";
import { workbookId, type GridRuntime, type GridSheet, type GridWorkbook } from "./runtime.ts";

const errorCodes =
  /^#(NULL!|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|N\/A|SPILL!|CALC!|CYCLE!|ERROR!|CONNECT!|BLOCKED!|GETTING_DATA)$/;

export function isErrorCode(value: CellValue): value is string {
  return typeof value === "string" && errorCodes.test(value);
}

export function errorContent(code: string, message: string | undefined): NonNullable<CellContent["error"]> {
  return { code, ...(message !== undefined && { message }) };
}

/** A value as it is printed where no number format says otherwise. */
export function plainText(value: CellValue): string {
  return value === null ? "" : typeof value === "boolean" ? String(value).toUpperCase() : String(value);
}

/** The plain text of a cell in which letters differ or lines break. */
function richText({ p }: ICellData): string | null {
  return p?.body?.dataStream.replace(/\r\n$/, "").replace(/\r/g, "\n") ?? null;
}

/** Reads cells with the full precision of what was computed: the grid's own reading rounds. */
export function readCells(
  { core, formula, univer }: GridRuntime,
  workbook: GridWorkbook,
  sheet: GridSheet,
  area: Area,
  errors: CellErrors,
): readonly (readonly CellContent[])[] {
  const sheetId = sheet.getSheetId();
  const worksheet = sheet.getSheet();
  const spilled = univer.__getInjector().get(formula.FormulaDataModel).getArrayFormulaCellData()[workbookId]?.[sheetId];
  // What lies beyond the sheet's edge is blank, as in the spreadsheet program.
  const rows = Math.min(area.rows, sheet.getMaxRows() - area.row);
  const columns = Math.min(area.columns, sheet.getMaxColumns() - area.column);
  const formulas = rows > 0 && columns > 0 ? sheet.getRange(area.row, area.column, rows, columns).getFormulas() : [];
  const styleTable = workbook.getWorkbook().getStyles();
  const textOf = (cell: Nullable<ICellData>, value: CellValue): string => {
    const pattern = (cell && styleTable.getStyleByCell(cell))?.n?.pattern;
    return typeof value === "number" && pattern ? core.numfmt.format(pattern, value) : plainText(value);
  };
  const valueOf = (cell: Nullable<ICellData>): CellValue => {
    const value = cell ? (cell.v ?? richText(cell)) : null;
    return cell && cell.t === core.CellValueType.BOOLEAN && typeof value === "number" ? value === 1 : value;
  };
  const read = (r: number, c: number): CellContent => {
    const row = area.row + r;
    const column = area.column + c;
    const own = worksheet.getCellRaw(row, column);
    const child = spilled?.[row]?.[column];
    const cellFormula = formulas[r]?.[c];
    const filled = own && ((own.v !== undefined && own.v !== null && own.v !== "") || own.p);
    const value = valueOf(filled ? own : (child ?? own));
    const base = { ...(cellFormula && { formula: cellFormula }), text: textOf(own, value) };
    if ((cellFormula || child) && isErrorCode(value)) {
      return {
        value: null,
        ...base,
        error: errorContent(value, errors.messageFor(cellKey(sheetId, row, column), value, cellFormula ?? "")),
      };
    }
    return { value: value === "" && !cellFormula ? null : value, ...base };
  };
  return Array.from({ length: area.rows }, (_r, r) => Array.from({ length: area.columns }, (_c, c) => read(r, c)));
}
