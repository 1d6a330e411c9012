import type { ICellData, ICommandInfo, IExecutionOptions, Nullable } from "@univerjs/core";
import { ourFunctions } from "../../../functions/index.ts";
import { Book, Calculation, type CellContent, type CellValue, type Place, type Snapshot } from "../../cells/index.ts";
import { cellKey, type CellErrors } from "./cellErrors.ts";
import { readCells } from "./cells.ts";
import { UntilFinished, type Passes } from "./passes.ts";
import { workbookId, type GridRuntime, type GridSheet, type GridWorkbook } from "./runtime.ts";
import type { SelfContained } from "./selfContained.ts";
import { computedCell } from "./sheetData.ts";

interface OnSheet {
  readonly subUnitId?: string;
  readonly from?: { readonly subUnitId?: string };
  readonly to?: { readonly subUnitId?: string };
  readonly cellValue?: Readonly<Record<string, Readonly<Record<string, Nullable<ICellData>>> | null>>;
}

interface Around {
  readonly grid: GridRuntime;
  readonly workbook: GridWorkbook;
  readonly passes: Passes;
  readonly selfContained: SelfContained;
  readonly errors: CellErrors;
}

type Cell = Pick<Place, "row" | "column">;
type Result = Cell & { readonly value: CellValue };

const entering = "sheet.mutation.set-range-values";
/** Cells come to stand elsewhere. */
const moving = /^sheet\.mutation\.(insert|remove|delete|move|reorder)-(row|rows|col|cols|columns|range)$/;
/** Sheets whose formulas are kept ready to be computed. */
const room = 4;
/** A book holds one sheet, which may be renamed meanwhile. */
const only = "sheet";

/**
 * What follows from entries on a sheet that reads only itself, by our own calculation: the grid takes seconds for it.
 * The grid is told what has changed, so that other sheets follow, and is handed none of that sheet's formulas. Where a
 * formula gives an error, or cannot be computed here, the grid computes the sheet as it computes any other.
 */
export class OwnResults {
  readonly #around: Around;
  /** The sheets as they are now, by id; those changed in another way than by an entry are read again. */
  readonly #books = new Map<string, Book>();
  /** Cells entered and not yet followed, by sheet. */
  readonly #entered = new Map<string, Cell[]>();
  /** Sheets that the grid computes: their cells are not what they will be. */
  readonly #gridComputes: UntilFinished;
  readonly #listeners = new Set<() => void>();
  #applying = false;
  #listening = false;

  constructor(around: Around) {
    this.#around = around;
    this.#gridComputes = new UntilFinished(around.passes);
    const { core, univer } = around.grid;
    univer
      .__getInjector()
      .get(core.ICommandService)
      .onCommandExecuted((command, options) => this.#heard(command, options));
  }

  /** Calls a listener whenever what follows from an entry stands on its sheet, until the function given is called. */
  onApplied(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Whether all that follows from entries on a sheet stands there: neither is it to be computed here, nor by the grid. */
  isSettled(sheetId: string): boolean {
    return !this.#entered.has(sheetId) && !this.#gridComputes.has(sheetId);
  }

  /** Hears of entries from now on: the grid has to be ready for it. */
  listen(): void {
    if (this.#listening) return;
    this.#listening = true;
    const { formula, univer } = this.#around.grid;
    const dirty = univer.__getInjector().get(formula.IActiveDirtyManagerService);
    const registered = dirty.get(entering);
    if (!registered) throw new Error(`the grid does not compute after “${entering}”`);
    dirty.register(entering, {
      ...registered,
      getDirtyData: (command) => {
        const told = registered.getDirtyData(command);
        const { subUnitId }: OnSheet = command.params ?? {};
        const sheet = subUnitId === undefined ? undefined : this.#followed(subUnitId);
        if (!sheet) return told;
        const [endRow, endColumn] = [sheet.getMaxRows() - 1, sheet.getMaxColumns() - 1];
        const whole = {
          unitId: workbookId,
          sheetId: sheet.getSheetId(),
          range: { startRow: 0, startColumn: 0, endRow, endColumn },
        };
        return { ...told, dirtyRanges: [...(told.dirtyRanges ?? []), whole] };
      },
    });
  }

  #heard({ id, params }: Readonly<ICommandInfo>, options?: IExecutionOptions): void {
    if (this.#applying || !id.startsWith("sheet.mutation.")) return;
    const { subUnitId, from, to, cellValue = {} }: OnSheet = params ?? {};
    const sheets = [subUnitId, from?.subUnitId, to?.subUnitId].filter((sheet) => sheet !== undefined);
    if (id === entering && !options?.onlyLocal && subUnitId !== undefined) {
      const cells = Object.entries(cellValue).flatMap(([row, columns]) =>
        Object.keys(columns ?? {}).map((column) => ({ row: Number(row), column: Number(column) })),
      );
      this.#entered.set(subUnitId, [...(this.#entered.get(subUnitId) ?? []), ...cells]);
      return;
    }
    for (const sheet of sheets) this.#books.delete(sheet);
    if (moving.test(id)) for (const sheet of sheets) this.#leave(sheet);
  }

  /** Leaves a sheet to the grid until its next calculation is finished. */
  #leave(sheetId: string): void {
    this.#gridComputes.add(sheetId);
    this.#around.selfContained.toBeComputed(sheetId);
    this.#books.delete(sheetId);
  }

  /** The sheet entered on, where all that follows is on it now; undefined where the grid has to compute it. */
  #followed(sheetId: string): GridSheet | undefined {
    const { workbook, selfContained } = this.#around;
    const cells = this.#entered.get(sheetId);
    this.#entered.delete(sheetId);
    const sheet = workbook.getSheetBySheetId(sheetId);
    if (!sheet || !selfContained.has(sheetId)) return undefined;
    // Several entries in a row are followed with the first of them.
    if (!cells) return this.#gridComputes.has(sheetId) ? undefined : sheet;
    if (this.#gridComputes.has(sheetId) || !this.#applied(sheet, cells)) {
      this.#leave(sheetId);
      return undefined;
    }
    selfContained.computed(sheetId);
    queueMicrotask(() => this.#listeners.forEach((listener) => listener()));
    return sheet;
  }

  /** Whatever fails here, the grid goes on computing; the failure is not kept from whoever looks for it. */
  #applied(sheet: GridSheet, cells: readonly Cell[]): boolean {
    try {
      return this.#apply(sheet, cells);
    } catch (error) {
      queueMicrotask(() => {
        throw error;
      });
      return false;
    }
  }

  /** Computes what follows from cells that have new values and puts it on the sheet; false where it cannot. */
  #apply(sheet: GridSheet, cells: readonly Cell[]): boolean {
    const id = sheet.getSheetId();
    const book = this.#bookWith(sheet, cells);
    if (!book) return false;
    const calculation = new Calculation(book, [], { anew: cells.map((cell) => ({ ...cell, sheet: only })) });
    const results: Result[] = [];
    for (const place of calculation.concerned) {
      const { value, error, cannot } = calculation.valueAt(place);
      const before = book.content(0, place.row, place.column);
      // What fills several cells is left to the grid, too.
      if (error !== undefined || cannot !== undefined || before.formula === undefined) return false;
      if (before.error !== undefined || before.value !== value) results.push({ ...place, value });
    }
    if (results.length > 0 && !this.#put(id, results)) return false;
    for (const { row, column } of results) this.#around.errors.forget(cellKey(id, row, column));
    this.#books.delete(id);
    this.#books.set(id, book.withValues([withValues(book.sheets[0]!, results)]));
    for (const oldest of this.#books.keys()) if (this.#books.size > room) this.#books.delete(oldest);
    return true;
  }

  #put(subUnitId: string, results: readonly Result[]): boolean {
    const { core, univer } = this.#around.grid;
    const cellValue: Record<number, Record<number, ICellData>> = {};
    for (const { row, column, value } of results) (cellValue[row] ??= {})[column] = computedCell(core, value);
    const commands = univer.__getInjector().get(core.ICommandService);
    const params = { unitId: workbookId, subUnitId, cellValue };
    this.#applying = true;
    try {
      return commands.syncExecuteCommand(entering, params, { onlyLocal: true, fromFormula: true });
    } finally {
      this.#applying = false;
    }
  }

  /** The sheet with the values that stand in these cells now; undefined where one of them holds or held a formula. */
  #bookWith(sheet: GridSheet, cells: readonly Cell[]): Book | undefined {
    const known = this.#books.get(sheet.getSheetId());
    const book = known ?? new Book([this.#snapshot(sheet)], ourFunctions);
    if (cells.some(({ row, column }) => book.content(0, row, column).formula !== undefined)) return undefined;
    if (!known) return book;
    const entered = cells.map((cell) => ({ ...cell, ...this.#read(sheet, cell.row, cell.column, 1, 1)[0]![0]! }));
    if (entered.some(({ formula }) => formula !== undefined)) return undefined;
    return known.withValues([withValues(known.sheets[0]!, entered)]);
  }

  #snapshot(sheet: GridSheet): Snapshot {
    const [rows, columns] = [sheet.getMaxRows(), sheet.getMaxColumns()];
    return { sheet: only, rows, columns, cells: this.#read(sheet, 0, 0, rows, columns), names: new Map() };
  }

  #read(sheet: GridSheet, row: number, column: number, rows: number, columns: number) {
    const { grid, workbook, errors } = this.#around;
    return readCells(grid, workbook, sheet, { row, column, rows, columns }, errors);
  }
}

/** A sheet with other values in some cells. */
function withValues(sheet: Snapshot, changes: readonly Result[]): Snapshot {
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
