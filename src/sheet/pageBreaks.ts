import { bandRow } from "./columns.ts";
import type { Layout } from "./layout.ts";

/** All columns fit A4 standing at this scale in every program tried; letters of 10 points print at 8. */
export const printScale = 80;

/** Heights in points, as the hosts make them: of a line and of what is around the lines of a row. */
const [lineHeight, around] = [12, 0.25];
/** Of a page below the rows at its head. */
export const pageHeight = 890;
const headRows = bandRow + 1;
/** From this part of a page on the first page stands by itself. */
const longFirstPage = 0.6;

/** Rows that begin a page: where a run of rows that belong together would be cut, and after a first page of some length. */
export function pageBreaks({ together, body, printed }: Layout, lines: ReadonlyMap<number, number>): readonly number[] {
  const heightOf = (row: number): number => (lines.get(row) ?? 1) * lineHeight + around;
  const heights = (from: number, to: number): number => {
    let sum = 0;
    for (let row = from; row < to; row++) sum += heightOf(row);
    return sum;
  };
  const out: number[] = [];
  let start = headRows;
  const begin = (row: number): void => {
    if (row > start && row < printed) {
      out.push(row);
      start = row;
    }
  };
  // A short first page leaves room for what follows.
  if (heights(headRows, body) > pageHeight * longFirstPage) begin(body);
  const runs = together.filter(({ row }) => row < printed);
  runs.forEach((run, i) => {
    if (run.row < start) return;
    // What is longer than a page, or free to be cut, breaks by itself where its page is full.
    while (heights(start, run.row) >= pageHeight) start = fullAt(start, heightOf);
    let end = run.row + run.rows;
    for (let k = i; runs[k]?.withNext && runs[k + 1]; k++) end = runs[k + 1]!.row + runs[k + 1]!.rows;
    const needed = Math.min(heights(run.row, end), pageHeight);
    if (heights(start, run.row) + needed > pageHeight) begin(run.row);
  });
  return out;
}

/** The first row that no longer fits the page that begins with a row. */
function fullAt(first: number, heightOf: (row: number) => number): number {
  let row = first;
  for (let used = 0; used + heightOf(row) <= pageHeight; row++) used += heightOf(row);
  return Math.max(row, first + 1);
}
