import { fits } from "./textWidth.ts";

/**
 * One fine grid for rows and tables, as wide as a page of A4 standing. A text starts in its column and runs on over the
 * empty cells to its right. Tables count their rows in the first column and leave the last two to verdicts and marks.
 */
export const columns = {
  item: 0,
  description: 1,
  symbol: 6,
  value: 7,
  unit: 8,
  /** Formula of a computed row; allowed words of an input. */
  equation: 9,
  /** Allowed from and to of an input. */
  from: 9,
  to: 10,
  words: 11,
  source: 12,
  verdict: 14,
  mark: 15,
} as const;
export const columnCount = 16;

/** In characters. */
export const widths: readonly number[] = [5.4, 6.4, 6.4, 6.4, 6.4, 6.4, 7.4, 9, 6.4, 6.4, 6.4, 6.4, 6.4, 6.4, 9.2, 8];

/** The columns tables have for what they list. */
export const tableColumns = { first: columns.description, last: columns.verdict - 1 } as const;

export const headings: readonly string[] = Array.from(
  { length: columnCount },
  (_, column) =>
    ({
      [columns.item]: "no.",
      [columns.description]: "description",
      [columns.symbol]: "symbol",
      [columns.value]: "value",
      [columns.unit]: "unit",
      [columns.equation]: "formula; allowed",
      [columns.source]: "source",
      [columns.verdict]: "verdict",
      [columns.mark]: "checked",
    })[column] ?? "",
);

/** What stands in the column of marks beside an input that nobody has confirmed; initials in its place confirm it. */
export const assumedWord = "assumed";
/** The same for what the program chose itself: tendons that it found. */
export const proposedWord = "proposed";
/** What nobody has confirmed yet. */
export const unconfirmedWords: readonly string[] = [assumedWord, proposedWord];

/** "62 assumptions not confirmed", beside a verdict; empty where there are none. */
export function unconfirmedText(count: number): string {
  if (count === 0) return "";
  return count === 1 ? "1 assumption not confirmed" : `${count} assumptions not confirmed`;
}

/** What stands there beside values that came from a stressing record; initials in its place sign them off. */
export const measuredWord = "measured";

/** Stand before what a sheet says of its template, which is read by them where that template is not loaded. */
export const templateLabel = "template and version";
export const officeLabel = "office of the template";

/** The same beside values that came from the defaults of the office; initials in its place sign them off. */
export const officeWord = "office";

/** The column headings that are words, by column. */
export const plannedHeadings: readonly { readonly column: number; readonly text: string }[] = headings.flatMap(
  (text, column) => (text === "" ? [] : [{ column, text }]),
);

/** The title and the verdict: in view on screen, and at the head of every printed page. */
export const titleRow = 0;
export const bandRow = 1;
export const firstRow = 2;

/** How wide some neighbouring columns are together, in characters. */
export function widthOver(from: number, to: number): number {
  return widths.slice(from, to + 1).reduce((sum, width) => sum + width, to - from);
}

/** Whether a text fits in one line over some columns. */
export function fitsOver(text: string, from: number, to: number): boolean {
  return fits(text, widthOver(from, to));
}
