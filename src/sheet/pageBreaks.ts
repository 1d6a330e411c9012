import { bandRow } from "./columns.ts";

/** All columns fit A4 standing at this scale in every program tried; letters of 10 points print at 8. */
export const printScale = 80;

/** Heights in points, as the hosts make them: of a line, and by how much a row is lower than its lines, whose letters leave room. */
const [lineHeight, saved] = [12, 0.25];
/** Of a page below the rows at its head. */
export const pageHeight = 906;
const headRows = bandRow + 1;
/** From this part of a page on the first page stands by itself. */
const longFirstPage = 0.8;

/** A run of rows that is not to be cut by the end of a page. */
export interface Together {
  readonly row: number;
  readonly rows: number;
  /** Nor is it to be parted from the run that follows: of titles. */
  readonly withNext?: true;
}

/** What decides where pages begin, beside the heights of rows. */
export interface Pages {
  /** In the order of the sheet. */
  readonly together: readonly Together[];
  /** The first row below the first page. */
  readonly body: number;
  /** The rows that are printed. */
  readonly printed: number;
}

/** The height of a row of so many lines. */
export function heightOfLines(lines: number): number {
  return lines * lineHeight - saved;
}

/** Rows that begin a page: where a run of rows that belong together would be cut, and after a first page of some length. */
export function pageBreaks({ together, body, printed }: Pages, heightOf: (row: number) => number): readonly number[] {
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
  // A page is ended here even where it is just full: left to themselves, programs fit a row more or less.
  const endFull = (row: number): void => {
    while (heights(start, row) > pageHeight) begin(fullAt(start, heightOf));
  };
  const runs = together.filter(({ row }) => row < printed);
  runs.forEach((run, i) => {
    if (run.row < start) return;
    // A first page of some length stands by itself; what one too long leaves over has the next page with what follows.
    if (run.row >= body && start === headRows) {
      const front = heights(headRows, body);
      if (front > pageHeight * longFirstPage && front <= pageHeight)
        begin(heights(headRows, run.row) <= pageHeight ? run.row : body);
    }
    endFull(run.row);
    let end = run.row + run.rows;
    for (let k = i; runs[k]?.withNext && runs[k + 1]; k++) end = runs[k + 1]!.row + runs[k + 1]!.rows;
    const needed = Math.min(heights(run.row, end), pageHeight);
    if (heights(start, run.row) + needed > pageHeight) begin(run.row);
  });
  endFull(printed);
  return out;
}

/** The first row that no longer fits the page that begins with a row. */
function fullAt(first: number, heightOf: (row: number) => number): number {
  let row = first;
  for (let used = 0; used + heightOf(row) <= pageHeight; row++) used += heightOf(row);
  return Math.max(row, first + 1);
}
