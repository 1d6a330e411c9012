/** The columns of every check sheet, in order; `tableVerdict` is the one that tables leave free for verdicts and statuses. */
export const columns = { item: 0, description: 1, symbol: 2, value: 3, unit: 4, equation: 5, source: 6, verdict: 7, mark: 8, from: 9, to: 10, tableVerdict: 11 } as const;

export const headings: readonly string[] = ["no.", "description", "symbol", "value", "unit", "equation as read", "source", "verdict", "checked", "allowed from", "allowed to", "verdict in table"];

/** In characters; columns of wide tables beyond the headings take `furtherWidth`. */
export const widths: readonly number[] = [8, 36, 12, 14, 9, 36, 24, 14, 11, 11, 11, 14];
export const furtherWidth = 12;

/** Where title and column headings stand. */
export const titleRow = 0;
export const headingsRow = 1;
export const firstRow = 2;
