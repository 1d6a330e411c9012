/**
 * The columns of every check sheet, in order. Equation and source run over several narrow columns, so that tables, which use every column, stay even.
 * Tables leave the verdict column free for verdicts and statuses.
 */
export const columns = {
  item: 0,
  description: 1,
  symbol: 2,
  value: 3,
  unit: 4,
  equation: 5,
  source: 8,
  verdict: 10,
  mark: 11,
  from: 12,
  to: 13,
} as const;

export const headings: readonly string[] = [
  "no.",
  "description",
  "symbol",
  "value",
  "unit",
  "equation as read",
  "",
  "",
  "source",
  "",
  "verdict",
  "checked",
  "allowed from",
  "allowed to",
];

/** In characters; columns of wide tables beyond the headings take `furtherWidth`. */
export const widths: readonly number[] = [8, 38, 13, 14, 14, 13, 13, 13, 13, 13, 14, 12, 12, 12];
export const furtherWidth = 12;

/** Where title and column headings stand. */
export const titleRow = 0;
export const headingsRow = 1;
export const firstRow = 2;

/** The column headings that are words, by column. */
export const plannedHeadings: readonly { readonly column: number; readonly text: string }[] = headings.flatMap(
  (text, column) => (text === "" ? [] : [{ column, text }]),
);
