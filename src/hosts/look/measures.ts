import type { Area } from "../../cells/index.ts";
import type { Values } from "./values.ts";
import {
  heightOfLines,
  linesIn,
  linesOfLowUnderRule,
  pageBreaks,
  pageHeight,
  type Plan,
  type PlannedCell,
} from "../../sheet/index.ts";
import { styles } from "./styles.ts";

/** Lengths of the file, in points unless said otherwise. */
export const defaultRowHeight = heightOfLines(1);
const tallRows: Readonly<Record<string, number>> = { title: 22, band: 18, block: 17 };
/** Of bold letters, in plain ones. */
const boldWidth = 1.08;
/** Of a step of indent, in characters. */
const indentWidth = 2;
/** With the title rows above it such a chart fits a page of A4 lying, unscaled. */
const chartHeight = 20 * defaultRowHeight;

/** In characters: of columns the plan says nothing about, those under the charts. */
export const defaultColumnWidth = 12;
/** The file counts the cell's inner margin into a column's width. */
export const columnMargin = 91 / 128;

/** Of the printed page, in inches as the file has them. */
export const margins = { left: 0.4, right: 0.4, top: 0.4, bottom: 0.5, header: 0.3, footer: 0.25 } as const;

export type Heights = ReadonlyMap<number, number>;

/**
 * How many lines the texts take that formulas give or people enter, where they wrap; what the plan writes itself it has
 * counted.
 */
export function computedLines(plan: Plan, valueOf: (cell: PlannedCell) => unknown): ReadonlyMap<number, number> {
  const spans = new Map(plan.spans.map((span) => [`${span.row} ${span.column}`, span]));
  const lines = new Map<number, number>();
  for (const cell of plan.cells) {
    const { row, column, role, formula, value, runsOn } = cell;
    if (formula === undefined && role !== "textInput") continue;
    const text = formula === undefined ? value : valueOf(cell);
    if (typeof text !== "string" || runsOn || !styles[role].wrap) continue;
    const columns = spans.get(`${row} ${column}`)?.columns ?? 1;
    const width = plan.widths.slice(column, column + columns).reduce((sum, one) => sum + one + columnMargin, 0);
    const { bold, indent = 0 } = styles[role];
    const room = (width - indent * indentWidth) / (bold ? boldWidth : 1);
    lines.set(row, Math.max(lines.get(row) ?? 1, linesIn(text, room)));
  }
  return lines;
}

/** Of a row beside charts that make room on a full first page. */
const lowestChartRow = 8;

/** Texts that turn out longer take more lines than were counted: the charts of the first page then make room for them. */
function fitFirstPage({ print, charts }: Plan, heights: Map<number, number>): void {
  const end = print.pages?.body ?? print.breaks?.[0];
  if (end === undefined) return;
  const rows = Array.from({ length: end }, (_, row) => row).slice(print.titleRows[1] + 1);
  const excess = rows.reduce((sum, row) => sum + (heights.get(row) ?? defaultRowHeight), 0) - pageHeight;
  const beside = rows.filter(
    (row) => !heights.has(row) && charts.some(({ at }) => row >= at.row && row < at.row + at.rows),
  );
  if (excess <= 0) return;
  const height = Math.floor((defaultRowHeight - excess / beside.length) * 4) / 4;
  if (height >= lowestChartRow) for (const row of beside) heights.set(row, height);
}

/** Heights of the rows that are not of the default height. */
export function rowHeights(plan: Plan, values: Values): Heights {
  const heights = new Map<number, number>();
  const shown = ({ row, column }: PlannedCell): unknown => values[row]?.[column]?.value;
  const raise = (row: number, height: number): void => {
    if (height > (heights.get(row) ?? defaultRowHeight)) heights.set(row, height);
  };
  for (const [row, lines] of Object.entries(plan.lines)) if (lines < 1) heights.set(Number(row), heightOfLines(lines));
  for (const [row, lines] of [...Object.entries(plan.lines), ...computedLines(plan, shown)])
    raise(Number(row), heightOfLines(lines));
  for (const { row, role } of plan.cells) raise(row, tallRows[role] ?? 0);
  fitFirstPage(plan, heights);
  return heights;
}

/** Rows that begin a page, now that it is known how high the rows are. */
export function breaksOf({ print }: Plan, heights: Heights): readonly number[] | undefined {
  return print.pages ? pageBreaks(print.pages, (row) => heights.get(row) ?? defaultRowHeight) : print.breaks;
}

/** Rows of one line. */
export const isLowRow =
  (heights: Heights) =>
  (row: number): boolean =>
    (heights.get(row) ?? defaultRowHeight) <= heightOfLines(linesOfLowUnderRule);

/** The part of a chart's place it takes: beside tall rows fewer of them, so that charts are of one size and fit a printed page. */
export function chartArea(at: Area, heights: Heights): Area {
  let rows = 0;
  for (let height = 0; rows < at.rows; rows++) {
    height += heights.get(at.row + rows) ?? defaultRowHeight;
    if (height > chartHeight && rows > 0) break;
  }
  return { ...at, rows };
}
