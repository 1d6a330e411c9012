import type { Plan } from "../../sheet/index.ts";

/** Lengths of the file, in points unless said otherwise. */
const pointsPerLine = 13;
const aroundLines = 3;
export const defaultRowHeight = pointsPerLine + aroundLines;
const tallRows: Readonly<Record<string, number>> = { title: 24, block: 19 };

/** In characters: of columns the plan says nothing about, those under the charts. */
export const defaultColumnWidth = 12;
/** The file counts the cell's inner margin into a column's width. */
export const columnMargin = 91 / 128;
/** A digit of the sheet's font takes 6 pixels of 1/96 inch, the margins of a column 5. */
const columnPoints = (characters: number): number => (characters * 6 + 5) * 0.75;

/** A4 lying, in inches as the file has them. */
export const margins = { left: 0.5, right: 0.5, top: 0.5, bottom: 0.7, header: 0.3, footer: 0.3 } as const;
const paper = { width: 842, height: 595 } as const;

/** Heights of the rows that are not of the default height. */
export function rowHeights(plan: Plan): ReadonlyMap<number, number> {
  const heights = new Map(Object.entries(plan.lines).map(([row, lines]) => [Number(row), lines * pointsPerLine + aroundLines]));
  for (const { row, role } of plan.cells) {
    const tall = tallRows[role];
    if (tall !== undefined && tall > (heights.get(row) ?? 0)) heights.set(row, tall);
  }
  return heights;
}

/** How much of the sheet's height one printed page takes, when the plan's columns fill its width and the title rows repeat. */
export function pageHeight(plan: Plan, heights: ReadonlyMap<number, number>): number {
  const width = plan.widths.reduce((sum, characters) => sum + columnPoints(characters), 0);
  const scale = Math.min(1, (paper.width - 72 * (margins.left + margins.right)) / width);
  const [first, last] = plan.print.titleRows;
  let titles = 0;
  for (let row = first; row <= last; row++) titles += heights.get(row) ?? defaultRowHeight;
  return (paper.height - 72 * (margins.top + margins.bottom)) / scale - titles;
}
