import {
  holds,
  type Address,
  type Area,
  type CellContent,
  type PlacedArea,
  type Snapshot,
} from "../../../src/cells/index.ts";
import { printed } from "../../../src/hosts/host/planValues.ts";
import type { ColourRule, EntryRule, InsertedCell } from "../../../src/hosts/index.ts";
import { styleOf, tones, type CellStyle } from "../../../src/hosts/index.ts";
import type { PlacedLogo, Plan, PlannedCell, Role, Validation } from "../../../src/sheet/index.ts";

/** A cell as it stands: what was typed, what it shows, and its look. */
export interface MemoryCell {
  readonly content: CellContent;
  readonly role?: Role;
  readonly style?: CellStyle;
  readonly format?: string;
}

/** What may be typed into cells, with what refuses everything else says. */
export interface Entries extends Area {
  readonly entry: EntryRule;
  readonly said?: Pick<Validation, "title" | "message" | "allowBlank">;
}

/** A name of the sheet alone; without cells once they are deleted. */
export interface OwnName {
  readonly name: string;
  readonly area?: Area & { readonly sheet: string };
}

/** A sheet as a workbook file keeps it. */
export interface MemorySheet {
  name: string;
  /** By row and column; absent where nothing was ever put. */
  cells: (MemoryCell | undefined)[][];
  names: OwnName[];
  entries: Entries[];
  colours: ColourRule[];
  /** Cells that may be typed in; undefined where the sheet is not protected. */
  unlocked: Area[] | undefined;
  spans: Area[];
  hiddenRows: Set<number>;
  hiddenColumns: Set<number>;
  /** In points and in characters, where they were set. */
  heights: Map<number, number>;
  widths: Map<number, number>;
  freeze: { readonly rows: number; readonly columns: number };
  logo?: PlacedLogo;
}

const empty: CellContent = { value: null, text: "" };

export function emptySheet(name: string): MemorySheet {
  return {
    name,
    cells: [],
    names: [],
    entries: [],
    colours: [],
    unlocked: undefined,
    spans: [],
    hiddenRows: new Set(),
    hiddenColumns: new Set(),
    heights: new Map(),
    widths: new Map(),
    freeze: { rows: 0, columns: 0 },
  };
}

/** What a plan puts into a cell, before anything is computed. A role brings a look; without one the cell keeps its own. */
export function plannedCell(
  { value, formula, role, format, runsOn }: Omit<InsertedCell, "row" | "column"> & Pick<PlannedCell, "runsOn">,
  before?: MemoryCell,
): MemoryCell {
  return {
    ...before,
    content:
      formula !== undefined
        ? { ...empty, formula }
        : { value: value ?? null, text: printed(value ?? null, format ?? before?.format) },
    ...(role && { role, style: styleOf({ role, ...(runsOn && { runsOn }) }) }),
    ...(format !== undefined && { format }),
  };
}

function colourRule({ text, begins, tone, ...area }: Plan["highlights"][number]): ColourRule {
  const { color, background } = tones[tone];
  return {
    areas: [area],
    text,
    ...(begins && { begins }),
    color: color.toUpperCase(),
    background: background.toUpperCase(),
  };
}

/** The sheet that a plan asks for, its formulas yet to be computed. */
export function plannedSheet(plan: Plan, name: string): MemorySheet {
  const cells = Array.from({ length: plan.rows }, () =>
    Array.from({ length: plan.columns }, (): MemoryCell | undefined => undefined),
  );
  for (const cell of plan.cells) cells[cell.row]![cell.column] = plannedCell(cell);
  return {
    ...emptySheet(name),
    cells,
    names: plan.names.map(({ name: own, ...area }) => ({ name: own, area: { sheet: name, ...area } })),
    entries: plan.validations.map(({ rule, title, message, allowBlank, ...area }) => ({
      ...area,
      entry: { rule, refuses: true },
      said: { title, message, ...(allowBlank && { allowBlank }) },
    })),
    colours: plan.highlights.map(colourRule),
    unlocked: [...plan.unlocked],
    spans: [...plan.spans],
    widths: new Map(plan.widths.map((width, column) => [column, width])),
    freeze: plan.freeze,
    ...(plan.logo && { logo: plan.logo }),
  };
}

/** The same sheet, of which one may be edited and the other stays. */
export function copyOf(sheet: MemorySheet): MemorySheet {
  return {
    ...sheet,
    cells: sheet.cells.map((line) => [...line]),
    names: [...sheet.names],
    entries: [...sheet.entries],
    colours: [...sheet.colours],
    unlocked: sheet.unlocked && [...sheet.unlocked],
    spans: [...sheet.spans],
    hiddenRows: new Set(sheet.hiddenRows),
    hiddenColumns: new Set(sheet.hiddenColumns),
    heights: new Map(sheet.heights),
    widths: new Map(sheet.widths),
  };
}

export function cellOf(sheet: MemorySheet, row: number, column: number): MemoryCell | undefined {
  return sheet.cells[row]?.[column];
}

export function contentOf(sheet: MemorySheet, row: number, column: number): CellContent {
  return cellOf(sheet, row, column)?.content ?? empty;
}

export function putCell(sheet: MemorySheet, row: number, column: number, cell: MemoryCell): void {
  while (sheet.cells.length <= row) sheet.cells.push([]);
  sheet.cells[row]![column] = cell;
}

/** Holds something: a formula that shows nothing does. */
export const isFilled = ({ value, formula, error }: CellContent): boolean =>
  formula !== undefined || error !== undefined || (value !== null && value !== "");

/** From the first cell to the last that holds something. */
export function usedOf({ cells }: MemorySheet): Area {
  let rows = 0;
  let columns = 0;
  cells.forEach((line, row) =>
    line.forEach((cell, column) => {
      if (!cell || !isFilled(cell.content)) return;
      rows = row + 1;
      columns = Math.max(columns, column + 1);
    }),
  );
  return { row: 0, column: 0, rows, columns };
}

export function isLocked({ unlocked }: MemorySheet, at: Address): boolean {
  return unlocked !== undefined && !unlocked.some((area) => holds(area, at));
}

/** Which cells of an area nobody can type into, by row and column. */
export function lockedIn({ unlocked }: MemorySheet, area: Area): boolean[][] {
  const locked = Array.from({ length: area.rows }, () => new Array<boolean>(area.columns).fill(unlocked !== undefined));
  for (const { row, column, rows, columns } of unlocked ?? []) {
    const right = Math.min(column + columns, area.column + area.columns);
    for (let r = Math.max(row, area.row); r < Math.min(row + rows, area.row + area.rows); r++)
      for (let c = Math.max(column, area.column); c < right; c++) locked[r - area.row]![c - area.column] = false;
  }
  return locked;
}

const placed = (names: readonly OwnName[]): Map<string, PlacedArea | undefined> =>
  new Map(names.map(({ name, area }) => [name.toLowerCase(), area]));

/** The sheet for calculation. */
export function snapshotOf(sheet: MemorySheet): Snapshot {
  const { rows, columns } = usedOf(sheet);
  return {
    sheet: sheet.name,
    rows,
    columns,
    cells: sheet.cells.slice(0, rows).map((line) => Array.from(line, (cell) => cell?.content ?? empty)),
    names: placed(sheet.names),
  };
}
