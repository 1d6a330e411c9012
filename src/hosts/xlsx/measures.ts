import type { Area, Plan } from "../../sheet/index.ts";

/** Lengths of the file, in points unless said otherwise. */
const pointsPerLine = 13;
const aroundLines = 3;
export const defaultRowHeight = pointsPerLine + aroundLines;
const tallRows: Readonly<Record<string, number>> = { title: 24, block: 19 };
/** With the title rows above it such a chart fits a page of A4 lying, unscaled. */
const chartHeight = 20 * defaultRowHeight;

/** In characters: of columns the plan says nothing about, those under the charts. */
export const defaultColumnWidth = 12;
/** The file counts the cell's inner margin into a column's width. */
export const columnMargin = 91 / 128;

/** Of the printed page, in inches as the file has them. */
export const margins = { left: 0.5, right: 0.5, top: 0.5, bottom: 0.7, header: 0.3, footer: 0.3 } as const;

/** Heights of the rows that are not of the default height. */
export function rowHeights(plan: Plan): ReadonlyMap<number, number> {
  const heights = new Map(Object.entries(plan.lines).map(([row, lines]) => [Number(row), lines * pointsPerLine + aroundLines]));
  for (const { row, role } of plan.cells) {
    const tall = tallRows[role];
    if (tall !== undefined && tall > (heights.get(row) ?? 0)) heights.set(row, tall);
  }
  return heights;
}

/** The part of a chart's place it takes: beside tall rows fewer of them, so that charts are of one size and fit a printed page. */
export function chartArea(plan: Plan, at: Area): Area {
  const heights = rowHeights(plan);
  let rows = 0;
  for (let height = 0; rows < at.rows; rows++) {
    height += heights.get(at.row + rows) ?? defaultRowHeight;
    if (height > chartHeight && rows > 0) break;
  }
  return { ...at, rows };
}
