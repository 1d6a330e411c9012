import type { Area } from "../../../src/cells/index.ts";

/** The workbook of the fake as plain data, so that what was before and what is after compare as data. */
export interface Line {
  style: string;
  weight: string;
  color: string;
}
export type Edge = "EdgeTop" | "EdgeRight" | "EdgeBottom" | "EdgeLeft";

export interface FakeCell {
  /** Number, text or boolean as it stands; `""` for an empty cell. */
  value: number | string | boolean;
  /** Told apart from a value: a text may begin with `=` too. */
  formula: string | undefined;
  numberFormat: string;
  locked: boolean;
  size: number;
  color: string;
  bold: boolean;
  italic: boolean;
  fill: string | undefined;
  horizontalAlignment: string;
  verticalAlignment: string;
  indentLevel: number;
  wrapText: boolean;
  shrinkToFit: boolean;
  borders: Partial<Record<Edge, Line>>;
}

export interface FakeChart {
  type: string;
  name: string;
  title: string;
  axes: { category: string; value: string };
  /** Of the axis along x, as the program has it before anything is said. */
  scale: { scaleType: string; logBase: number; position: string };
  /** The axis along y grows downward. */
  reversed: boolean;
  position: string;
  series: FakeSeries[];
}
export interface FakeSeries {
  name: string;
  x: string;
  y: string;
  look: Record<string, unknown>;
}
export interface FakeValidation {
  area: Area;
  ignoreBlanks: boolean;
  rule?: Record<string, unknown>;
  prompt?: Record<string, unknown>;
  errorAlert?: Record<string, unknown>;
}
export interface FakeHighlight {
  area: Area;
  type: string;
  color?: string;
  fill?: string;
  rule?: { formula1: string; operator: string };
  textRule?: { text: string; operator: string };
  numberFormat?: string;
}

/** A name of a sheet; `lost` where its cells were deleted. */
export interface FakeName {
  name: string;
  area: Area;
  lost?: true;
}

/** A picture; lengths in points. */
export interface FakeShape {
  image: string;
  name: string;
  altTextDescription: string;
  left: number;
  top: number;
  width: number;
  height: number;
  lockAspectRatio: boolean;
}

export interface FakeSheet {
  id: string;
  name: string;
  visibility: string;
  /** Every sheet keeps its own selection. */
  selected: Area[];
  cells: Map<string, FakeCell>;
  names: Map<string, FakeName>;
  merged: Area[];
  validations: FakeValidation[];
  highlights: FakeHighlight[];
  charts: FakeChart[];
  shapes: FakeShape[];
  widths: Map<number, number>;
  heights: Map<number, number>;
  /** Rows that fold away. */
  groups: { row: number; rows: number }[];
  hiddenRows: Set<number>;
  hiddenColumns: Set<number>;
  freeze: { rows: number; columns: number };
  showGridlines: boolean;
  protection: Record<string, unknown> | undefined;
  /** The protection has a password. */
  password?: true;
  page: Record<string, unknown>;
}

export interface FakeWorkbook {
  sheets: FakeSheet[];
  /** Names of the whole workbook: text of the reference by name in small letters. */
  names: Map<string, string>;
  activeId: string;
  /** Is a drawing selected instead of cells? */
  drawingSelected: boolean;
  structureProtected: boolean;
  nextId: number;
}

export function emptyCell(): FakeCell {
  return {
    value: "",
    formula: undefined,
    numberFormat: "General",
    locked: true,
    size: 11,
    color: "#000000",
    bold: false,
    italic: false,
    fill: undefined,
    horizontalAlignment: "General",
    verticalAlignment: "Bottom",
    indentLevel: 0,
    wrapText: false,
    shrinkToFit: false,
    borders: {},
  };
}

export const keyOf = (row: number, column: number): string => `${row} ${column}`;
export const placeOf = (key: string): [number, number] => key.split(" ").map(Number) as [number, number];

export function cellAt(sheet: FakeSheet, row: number, column: number): FakeCell {
  return sheet.cells.get(keyOf(row, column)) ?? emptyCell();
}

const untouched = JSON.stringify(emptyCell());

/** Changes a cell; one that is again as an untouched cell is forgotten. */
export function changeCell(sheet: FakeSheet, row: number, column: number, change: (cell: FakeCell) => void): void {
  const cell = cellAt(sheet, row, column);
  change(cell);
  const bare = cell.value === "" && cell.formula === undefined && cell.numberFormat === "General";
  if (bare && JSON.stringify(cell) === untouched) sheet.cells.delete(keyOf(row, column));
  else sheet.cells.set(keyOf(row, column), cell);
}

export function newSheet(id: string, name: string): FakeSheet {
  return {
    id,
    name,
    visibility: "Visible",
    selected: [{ row: 0, column: 0, rows: 1, columns: 1 }],
    cells: new Map(),
    names: new Map(),
    merged: [],
    validations: [],
    highlights: [],
    charts: [],
    shapes: [],
    widths: new Map(),
    heights: new Map(),
    groups: [],
    hiddenRows: new Set(),
    hiddenColumns: new Set(),
    freeze: { rows: 0, columns: 0 },
    showGridlines: true,
    protection: undefined,
    page: {},
  };
}

export function newWorkbook(): FakeWorkbook {
  return {
    sheets: [newSheet("{1}", "Sheet1")],
    names: new Map(),
    activeId: "{1}",
    drawingSelected: false,
    structureProtected: false,
    nextId: 2,
  };
}

/** All that a user would find again: everything but the counter of ids. */
export function snapshot(workbook: FakeWorkbook): Omit<FakeWorkbook, "nextId"> {
  const { nextId: _nextId, ...rest } = structuredClone(workbook);
  return rest;
}

export function* cellsOf({ row, column, rows, columns }: Area): Generator<[number, number]> {
  for (let r = row; r < row + rows; r++) for (let c = column; c < column + columns; c++) yield [r, c];
}
