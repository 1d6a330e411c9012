export type CellValue = number | string | boolean | null;

/** What stands in a cell: its value at full precision, its formula (with `=`) if it has one, an error with its message. */
export interface CellContent {
  readonly value: CellValue;
  readonly formula?: string;
  /** As printed, with the cell's number format. */
  readonly text: string;
  readonly error?: { readonly code: string; readonly message?: string };
}
