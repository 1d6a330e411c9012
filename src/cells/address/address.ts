/** A cell of a sheet; rows and columns count from 0. */
export interface Address {
  readonly row: number;
  readonly column: number;
}

/** A block of cells, `rows` by `columns`, from its upper left cell. */
export interface Area extends Address {
  readonly rows: number;
  readonly columns: number;
}

const lettersKept: string[] = [];

/** "D" for column 3. */
export function columnLetters(column: number): string {
  return (lettersKept[column] ??= lettersOf(column));
}

function lettersOf(column: number): string {
  let letters = "";
  for (let c = column + 1; c > 0; c = Math.floor((c - 1) / 26))
    letters = String.fromCharCode(65 + ((c - 1) % 26)) + letters;
  return letters;
}

/** 3 for "D" or "d". */
export function columnOfLetters(letters: string): number {
  let count = 0;
  for (let i = 0; i < letters.length; i++) count = count * 26 + (letters.charCodeAt(i) & 31);
  return count - 1;
}

/** "D12" for row 11, column 3. */
export function a1({ row, column }: Address, absolute = false): string {
  const letters = columnLetters(column);
  return absolute ? `$${letters}$${row + 1}` : `${letters}${row + 1}`;
}

/** "$D$12:$F$14", or "$D$12" for a single cell. */
export function areaA1(area: Area, absolute = true): string {
  const first = a1(area, absolute);
  if (area.rows === 1 && area.columns === 1) return first;
  return `${first}:${a1({ row: area.row + area.rows - 1, column: area.column + area.columns - 1 }, absolute)}`;
}

/** The cells of an area, row by row. */
export function cellsOf({ row, column, rows, columns }: Area): readonly Address[] {
  return Array.from({ length: rows * columns }, (_, i) => ({
    row: row + Math.floor(i / columns),
    column: column + (i % columns),
  }));
}

/** Whether a cell lies in an area. */
export function holds(area: Area, { row, column }: Address): boolean {
  return row >= area.row && row < area.row + area.rows && column >= area.column && column < area.column + area.columns;
}
