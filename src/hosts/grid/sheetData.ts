import type { Area, CellValue, Computed } from "../../cells/index.ts";
import type { ICellData, IRange, IRowData, IStyleData, IWorksheetData } from "@univerjs/core";
import { linesOfLow, type Plan, type PlannedCell } from "../../sheet/index.ts";
import type { CellContent, InsertedCell } from "../host/host.ts";
import type { PlanResults } from "../host/planValues.ts";
import type { Values } from "../look/values.ts";
import { computedLines, isLowRow, rowHeights } from "../look/measures.ts";
import { styleInRow, styles, type CellStyle } from "../look/styles.ts";
import { chartsOf, lookOf, printOf } from "../workbook/fromPlan.ts";
import { gridStyleOf } from "./bookLook.ts";
import { beside, keptHeight } from "./beside.ts";
import type { GridRuntime } from "./runtime.ts";
import { withSubscripts } from "./subscripts.ts";

type Core = GridRuntime["core"];

export const pixelsPerCharacter = 7.8;
const pixelsPerLine = 17;
const pixelsPerRow = 20;

export function rangeOf({ row, column, rows, columns }: Area): IRange {
  return { startRow: row, startColumn: column, endRow: row + rows - 1, endColumn: column + columns - 1 };
}

export function areaOf({ startRow, startColumn, endRow, endColumn }: IRange): Area {
  return { row: startRow, column: startColumn, rows: endRow - startRow + 1, columns: endColumn - startColumn + 1 };
}

const gridStyle = (core: Core, style: CellStyle, format?: string): IStyleData =>
  gridStyleOf(core, lookOf(style, format));

function content(
  core: Core,
  { value, formula }: Pick<PlannedCell, "value" | "formula">,
  computed?: Computed,
): ICellData {
  if (formula !== undefined) return { f: formula, ...(computed && computedContent(core, computed)) };
  return value === undefined ? {} : valueContent(core, value);
}

function computedContent(core: Core, { value }: Computed): ICellData {
  return value === null ? {} : valueContent(core, value);
}

/** What a formula gives, in place of what its cell holds. */
export function computedCell(core: Core, value: CellValue): ICellData {
  return value === null ? { v: null } : valueContent(core, value);
}

export function valueContent(core: Core, value: string | number | boolean): ICellData {
  // The type is said, so that text stays text whatever it looks like.
  if (typeof value === "string") return { v: value, t: core.CellValueType.STRING };
  if (typeof value === "boolean") return { v: value ? 1 : 0, t: core.CellValueType.BOOLEAN };
  return { v: value, t: core.CellValueType.NUMBER };
}

/** Cells for a range whose rows and columns are numbered as on the sheet. */
export function cellData(core: Core, cells: readonly InsertedCell[]): Record<number, Record<number, ICellData>> {
  const out: Record<number, Record<number, ICellData>> = {};
  for (const cell of cells) {
    const style = cell.role
      ? gridStyle(core, styles[cell.role], cell.format)
      : cell.format === undefined
        ? undefined
        : { n: { pattern: cell.format } };
    (out[cell.row] ??= {})[cell.column] = { ...content(core, cell), ...(style && { s: style }) };
  }
  return out;
}

/** The plan as the grid's own sheet: put in place in one step, since each edit of a living sheet costs a tenth of a second. */
export function sheetData(
  core: Core,
  plan: Plan,
  results: PlanResults | undefined,
  styleId: (style: IStyleData) => string,
): Partial<IWorksheetData> {
  const ids = new Map<string, string>();
  const heights = rowHeights(plan, textsOf(results));
  const isLow = isLowRow(heights);
  const idOf = (cell: PlannedCell): string => {
    const { key: ofRole, style } = styleInRow(cell, isLow);
    const key = `${ofRole} ${cell.format ?? ""}`;
    let id = ids.get(key);
    if (id === undefined) ids.set(key, (id = styleId(gridStyle(core, style, cell.format))));
    return id;
  };
  const cellData: Record<number, Record<number, ICellData>> = {};
  for (const cell of plan.cells)
    (cellData[cell.row] ??= {})[cell.column] = {
      ...content(core, cell, results?.get(cell)),
      ...subscripts(core, plan, cell),
      s: idOf(cell),
    };
  // A joined area draws the lines of all its cells.
  for (const { row, column, rows, columns } of plan.spans) {
    const s = cellData[row]?.[column]?.s;
    for (let r = row; s && r < row + rows; r++)
      for (let c = column; c < column + columns; c++) ((cellData[r] ??= {})[c] ??= {}).s = s;
  }
  const rowData: Record<number, IRowData> = {};
  const computed = computedLines(plan, (cell) => results?.get(cell)?.value);
  for (const [row, lines] of [...Object.entries(plan.lines), ...computed])
    if (lines < 1 || lines > linesOfLow)
      rowData[Number(row)] = {
        h: Math.max(Math.round(lines * pixelsPerLine) + 4, rowData[Number(row)]?.h ?? 0),
        ia: 0,
      };
  for (const { row, role } of plan.cells)
    if (role === "title" || role === "block") rowData[row] ??= { h: pixelsPerRow + 6, ia: 0 };
  for (const [row, points] of heights) rowData[row] = keptHeight(points, rowData[row]);
  const { rows, columns } = plan.freeze;
  return {
    cellData,
    rowData,
    columnData: Object.fromEntries(
      plan.widths.map((width, column) => [column, { w: Math.round(width * pixelsPerCharacter) }]),
    ),
    defaultRowHeight: pixelsPerRow,
    mergeData: plan.spans.map(rangeOf),
    freeze: { xSplit: columns, ySplit: rows, startRow: rows, startColumn: columns },
    showGridlines: core.BooleanNumber.FALSE,
    custom: beside({
      print: printOf(plan, heights),
      groups: plan.groups ?? [],
      charts: chartsOf(plan, heights),
      ...(plan.logo && { logo: plan.logo }),
    }),
  };
}

function subscripts(core: Core, { widths }: Plan, { role, column, value, lowered }: PlannedCell): ICellData {
  if (!lowered || typeof value !== "string") return {};
  return withSubscripts(core, value, lowered, lookOf(styles[role]), widths[column]!);
}

/** What formulas give, by row and column, as far as it is known: long texts need higher rows. */
function textsOf(results: PlanResults | undefined): Values {
  const rows: CellContent[][] = [];
  for (const [{ row, column }, { value }] of results ?? []) (rows[row] ??= [])[column] = { value, text: "" };
  return rows;
}
