import type { BookSheet } from "./workbook.ts";

/** A sheet on which there is nothing yet. */
export const emptySheet: Omit<BookSheet, "name"> = {
  rows: 0,
  columns: 0,
  cells: [],
  spans: [],
  widths: new Map(),
  heights: new Map(),
  hiddenRows: [],
  groups: [],
  freeze: { rows: 0, columns: 0 },
  gridlines: true,
  names: [],
  entries: [],
  colours: [],
  protected: false,
  charts: [],
};
