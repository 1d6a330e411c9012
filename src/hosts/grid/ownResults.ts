import type { ICellData, ICommandInfo, IExecutionOptions, Nullable } from "@univerjs/core";
import { ourFunctions } from "../../../functions/index.ts";
import { Book, Calculation, type CellContent, type CellValue, type Place, type Snapshot } from "../../cells/index.ts";
import type { CellErrors } from "./cellErrors.ts";
import { readCells } from "./cells.ts";
import { workbookId, type GridRuntime, type GridSheet, type GridWorkbook } from "./runtime.ts";
import type { SelfContained } from "./selfContained.ts";
import { computedCell } from "./sheetData.ts";

interface Entered {
  readonly subUnitId?: string;
  readonly cellValue?: Readonly<Record<string, Readonly<Record<string, Nullable<ICellData>>> | null>>;
}

const entering = "sheet.mutation.set-range-values";
const moving = /^sheet\.mutation\.(insert|remove|move|reorder)/;
/** Sheets whose formulas are kept ready to be computed. */
const room = 4;

/**
 * What follows from an entry on a sheet that reads only itself, by our own calculation: the grid takes seconds for it.
 * The grid is told what has changed, so that other sheets follow, and is handed none of that sheet's formulas. Where a
 * formula gives an error, or cannot be computed here, the grid computes the sheet as it computes any other.
 */
export class OwnResults {
  readonly #grid: GridRuntime;
  readonly #workbook: GridWorkbook;
  readonly #selfContained: SelfContained;
  readonly #errors: CellErrors;
  readonly #books = new Map<string, Book>();
  /** Sheets whose rows or columns were moved: what they hold is no longer known cell by cell. */
  readonly #moved = new Set<string>();
  /** Sheets that the grid computes, until its results are there. */
  readonly #gridComputes = new Set<string>();
  readonly #listeners = new Set<() => void>();
  #applying = false;
  #listening = false;

  constructor(grid: GridRuntime, workbook: GridWorkbook, selfContained: SelfContained, errors: CellErrors) {
    this.#grid = grid;
    this.#workbook = workbook;
    this.#selfContained = selfContained;
    this.#errors = errors;
    grid.univer
      .__getInjector()
      .get(grid.core.ICommandService)
      .onCommandExecuted((command, options) => this.#heard(command, options));
    grid.api.getFormula().calculationResultApplied(() => this.#gridComputes.clear());
  }

  /** Calls a listener whenever what follows from an entry stands on its sheet, until the function given is called. */
  onApplied(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Hears of entries from now on: the grid has to be ready for it. */
  listen(): void {
    if (this.#listening) return;
    this.#listening = true;
    const { formula, univer } = this.#grid;
    const dirty = univer.__getInjector().get(formula.IActiveDirtyManagerService);
    const registered = dirty.get(entering);
    if (!registered) throw new Error(`the grid does not compute after “${entering}”`);
    dirty.register(entering, {
      ...registered,
      getDirtyData: (command) => {
        const told = registered.getDirtyData(command);
        const params = (command.params ?? {}) as Entered;
        const sheet = this.#followed(params);
        if (!sheet) return told;
        const range = {
          startRow: 0,
          startColumn: 0,
          endRow: sheet.getMaxRows() - 1,
          endColumn: sheet.getMaxColumns() - 1,
        };
        const changed = { unitId: workbookId, sheetId: sheet.getSheetId(), range };
        return { ...told, dirtyRanges: [...(told.dirtyRanges ?? []), changed] };
      },
    });
  }

  #heard({ id, params }: Readonly<ICommandInfo>, options?: IExecutionOptions): void {
    const { subUnitId }: Entered = params ?? {};
    if (subUnitId === undefined || this.#applying) return;
    if (moving.test(id)) {
      this.#moved.add(subUnitId);
      this.#books.delete(subUnitId);
    }
    // What comes by another way than an entry is read from the sheet when it is needed.
    if (id === entering && options?.onlyLocal) this.#books.delete(subUnitId);
  }

  /** The sheet entered on, where all that follows is on it now; undefined where the grid has to compute it. */
  #followed({ subUnitId, cellValue = {} }: Entered): GridSheet | undefined {
    if (subUnitId === undefined || !this.#selfContained.has(subUnitId) || this.#moved.has(subUnitId)) return undefined;
    const sheet = this.#workbook.getSheetBySheetId(subUnitId);
    if (!sheet) return undefined;
    const places = Object.entries(cellValue).flatMap(([row, cells]) =>
      Object.keys(cells ?? {}).map((column) => ({
        sheet: sheet.getSheetName(),
        row: Number(row),
        column: Number(column),
      })),
    );
    const followed = !this.#gridComputes.has(subUnitId) && this.#apply(sheet, places);
    if (followed) {
      this.#selfContained.computed(subUnitId);
      queueMicrotask(() => this.#listeners.forEach((listener) => listener()));
      return sheet;
    }
    this.#gridComputes.add(subUnitId);
    this.#selfContained.toBeComputed(subUnitId);
    this.#books.delete(subUnitId);
    return undefined;
  }

  /** Computes what follows from cells that have new values and puts it on the sheet; false where it cannot. */
  #apply(sheet: GridSheet, places: readonly Place[]): boolean {
    const id = sheet.getSheetId();
    const book = this.#bookWith(sheet, places);
    if (!book) return false;
    const calculation = new Calculation(book, [], { anew: places });
    const results: (Place & { readonly value: CellValue })[] = [];
    for (const place of calculation.concerned) {
      const { value, error, cannot } = calculation.valueAt(place);
      if (error !== undefined || cannot !== undefined) return false;
      const before = book.content(0, place.row, place.column);
      if (before.error !== undefined || before.value !== value) results.push({ ...place, value });
    }
    if (results.length > 0) this.#put(id, results);
    this.#books.delete(id);
    this.#books.set(id, book.withValues([withValues(book.sheets[0]!, results)]));
    for (const [oldest] of this.#books) if (this.#books.size > room) this.#books.delete(oldest);
    return true;
  }

  #put(subUnitId: string, results: readonly (Place & { readonly value: CellValue })[]): void {
    const { core, univer } = this.#grid;
    const cellValue: Record<number, Record<number, ICellData>> = {};
    for (const { row, column, value } of results) (cellValue[row] ??= {})[column] = computedCell(core, value);
    this.#applying = true;
    try {
      univer
        .__getInjector()
        .get(core.ICommandService)
        .syncExecuteCommand(
          entering,
          { unitId: workbookId, subUnitId, cellValue },
          { onlyLocal: true, fromFormula: true },
        );
    } finally {
      this.#applying = false;
    }
  }

  /** The sheet with the values that stand in these cells now; undefined where one of them holds or held a formula. */
  #bookWith(sheet: GridSheet, places: readonly Place[]): Book | undefined {
    const known = this.#books.get(sheet.getSheetId());
    const entered = places.map((place) => ({ ...place, ...this.#contentOf(sheet, place) }));
    if (entered.some(({ formula }) => formula !== undefined)) return undefined;
    if (!known) return new Book([this.#snapshot(sheet)], ourFunctions);
    if (places.some(({ row, column }) => known.content(0, row, column).formula !== undefined)) return undefined;
    return known.withValues([withValues(known.sheets[0]!, entered)]);
  }

  #contentOf(sheet: GridSheet, { row, column }: Place): CellContent {
    return this.#read(sheet, row, column, 1, 1)[0]![0]!;
  }

  #snapshot(sheet: GridSheet): Snapshot {
    const [rows, columns] = [sheet.getMaxRows(), sheet.getMaxColumns()];
    return {
      sheet: sheet.getSheetName(),
      rows,
      columns,
      cells: this.#read(sheet, 0, 0, rows, columns),
      names: new Map(),
    };
  }

  #read(sheet: GridSheet, row: number, column: number, rows: number, columns: number) {
    return readCells(this.#grid, this.#workbook, sheet, { row, column, rows, columns }, this.#errors);
  }
}

/** A sheet with other values in some cells. */
function withValues(
  sheet: Snapshot,
  changes: readonly (Omit<Place, "sheet"> & { readonly value: CellValue })[],
): Snapshot {
  const cells = [...sheet.cells];
  const copied = new Set<number>();
  for (const { row, column, value } of changes) {
    if (!copied.has(row)) {
      copied.add(row);
      cells[row] = [...(cells[row] ?? [])];
    }
    const { formula } = cells[row]![column] ?? {};
    (cells[row] as CellContent[])[column] = { value, text: "", ...(formula !== undefined && { formula }) };
  }
  return { ...sheet, cells };
}
