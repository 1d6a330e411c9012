import { bandRow } from "./columns.ts";
import type { Layout, Together } from "./layout.ts";

/** How many lines of text fit a printed page below the rows at its head. */
const pageLines = 66;
const headRows = bandRow + 1;

/** Rows that begin a page: where a run of rows that belong together would be cut, and after the first page. */
export function pageBreaks({ together, body, rows }: Layout, lines: ReadonlyMap<number, number>): readonly number[] {
  const linesOf = ({ row, rows: count }: Together): number =>
    Array.from({ length: count }, (_, i) => lines.get(row + i) ?? 1).reduce((sum, one) => sum + one, 0);
  const out: number[] = [];
  let start = headRows;
  const used = (row: number): number => linesOf({ row: start, rows: row - start });
  const begin = (row: number): void => {
    if (row > start && row < rows) {
      out.push(row);
      start = row;
    }
  };
  begin(body);
  for (const run of together) {
    if (run.row < start) continue;
    // A run longer than a page breaks by itself, where its page is full.
    while (used(run.row) >= pageLines) start = fullAt(start, lines);
    const needed = Math.min(linesOf(run), pageLines);
    if (used(run.row) + needed > pageLines) begin(run.row);
  }
  return out;
}

/** The first row that no longer fits the page that begins with a row. */
function fullAt(first: number, lines: ReadonlyMap<number, number>): number {
  let row = first;
  for (let used = 0; used + (lines.get(row) ?? 1) <= pageLines; row++) used += lines.get(row) ?? 1;
  return Math.max(row, first + 1);
}
