import type { CellContent } from "../values/content.ts";
import type { Place, PlacedArea } from "../address/place.ts";
import { cellAt, type Snapshot } from "./snapshot.ts";
import type { OwnFunctions } from "../functions/index.ts";
import type { CellArea, Whereabouts } from "../values/frame.ts";
import { Formulas, keyOf, placeOfKey } from "./formulas.ts";
import { Fault, type Scalar } from "../values/values.ts";
import { blocksOf, type FilledBlocks } from "./filledBlocks.ts";

/** Names by sheet and name in small letters, with the cells they stand for; undefined where they stand for none. */
export type BookNames = ReadonlyMap<string, PlacedArea | undefined>;

/** The key of a name as a sheet sees it, whatever the case of either. */
export function nameKey(sheet: string, name: string): string {
  return `${sheet.toLowerCase()}\n${name.toLowerCase()}`;
}

const sameArea = (a: PlacedArea | undefined, b: PlacedArea | undefined): boolean =>
  a === b ||
  (a?.sheet === b?.sheet &&
    a?.row === b?.row &&
    a?.column === b?.column &&
    a?.rows === b?.rows &&
    a?.columns === b?.columns);

function sameNames(before: BookNames, now: BookNames): boolean {
  if (before === now) return true;
  if (before.size !== now.size) return false;
  for (const [name, area] of now) if (!before.has(name) || !sameArea(before.get(name), area)) return false;
  return true;
}

/** Formulas of both say the same in the same places, and refer to the same cells. */
function readAlike(before: readonly Snapshot[], now: readonly Snapshot[]): boolean {
  return (
    before.length === now.length &&
    now.every(({ sheet, rows, columns, names, cells }, i) => {
      const other = before[i]!;
      return (
        sheet === other.sheet &&
        rows === other.rows &&
        columns === other.columns &&
        cells.length === other.cells.length &&
        sameNames(other.names, names) &&
        cells.every((row, r) => {
          const otherRow = other.cells[r]!;
          return row.length === otherRow.length && row.every(({ formula }, c) => formula === otherRow[c]?.formula);
        })
      );
    })
  );
}

/** What a host's cell holds, as a value of formulas. */
function scalarOf({ value, error }: CellContent): Scalar {
  return error ? new Fault(error.code, error.message) : value;
}

/**
 * Sheets as they stand, with every formula read and what depends on what. It never changes; what other inputs would
 * give is a Calculation on it.
 * References to sheets it does not hold cannot be computed.
 */
export class Book implements Whereabouts {
  readonly formulas: Formulas;
  readonly blocks: FilledBlocks;
  readonly #numbers: ReadonlyMap<string, number>;

  /**
   * `names`: the names of the workbook as each sheet sees them, beside the sheets' own. `read`: its formulas,
   * where they are known; else those of the first `readSheets` are read, of all where nothing is said.
   */
  constructor(
    readonly sheets: readonly Snapshot[],
    readonly functions: OwnFunctions,
    readonly names: BookNames = new Map(),
    read?: Formulas,
    readSheets?: number,
  ) {
    this.#numbers = new Map(sheets.map(({ sheet }, i) => [sheet.toLowerCase(), i]));
    this.formulas = read ?? new Formulas(this, sheets, functions, readSheets);
    this.blocks = blocksOf(this);
  }

  /**
   * Sheets as a book, with what a book like it has read before: where size, names and formulas are the same, only the
   * values of the cells are others.
   */
  static like(
    before: Book | undefined,
    sheets: readonly Snapshot[],
    functions: OwnFunctions,
    names: BookNames = new Map(),
  ): Book {
    const alike = before?.functions === functions && sameNames(before.names, names) && readAlike(before.sheets, sheets);
    return new Book(sheets, functions, names, alike ? before.formulas : undefined);
  }

  /** A sheet as a book, beside others of which only the values are read. */
  static beside(own: Snapshot, others: readonly Snapshot[], functions: OwnFunctions, read?: Formulas): Book {
    return new Book([own, ...others], functions, undefined, read, 1);
  }

  /** The same formulas in the same places, with other values in the cells. */
  withValues(sheets: readonly Snapshot[]): Book {
    return new Book(sheets, this.functions, this.names, this.formulas);
  }

  /** The cells whose formulas can read a cell directly, in the order of sheets and cells. */
  readersOf(place: Place): readonly Place[] {
    return [...new Set(this.formulas.readersOf(this.keyOf(place), new Set()))]
      .map(placeOfKey)
      .sort((a, b) => a.sheet - b.sheet || a.row - b.row || a.column - b.column)
      .map(({ sheet, row, column }) => ({ sheet: this.sheets[sheet]!.sheet, row, column }));
  }

  sheetNumber(name: string): number | undefined {
    return this.#numbers.get(name.toLowerCase());
  }

  nameArea(name: string, sheet: number): CellArea | undefined {
    const snapshot = this.sheets[sheet]!;
    const area = snapshot.names.get(name.toLowerCase()) ?? this.names.get(nameKey(snapshot.sheet, name));
    const number = area && this.sheetNumber(area.sheet);
    return area && number !== undefined
      ? { sheet: number, row: area.row, column: area.column, rows: area.rows, columns: area.columns }
      : undefined;
  }

  used(sheet: number): { readonly rows: number; readonly columns: number } {
    return this.sheets[sheet]!;
  }

  content(sheet: number, row: number, column: number): CellContent {
    return cellAt(this.sheets[sheet]!, row, column);
  }

  /** The host's own value of a cell. */
  hostValue(sheet: number, row: number, column: number): Scalar {
    return scalarOf(this.content(sheet, row, column));
  }

  /** The number of a cell of a sheet by name; throws where the book does not hold the sheet. */
  keyOf(place: { readonly sheet: string; readonly row: number; readonly column: number }): number {
    const sheet = this.sheetNumber(place.sheet);
    if (sheet === undefined) throw new Error(`The sheet “${place.sheet}” was not read.`);
    return keyOf(sheet, place.row, place.column);
  }
}
