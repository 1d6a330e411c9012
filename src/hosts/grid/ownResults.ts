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
type Entered = ReadonlyMap<string, readonly Cell[]>;
type Result = Cell & { readonly value: CellValue };

const entering = "sheet.mutation.set-range-values";
/** Cells come to stand elsewhere. */
const moving = /^sheet\.mutation\.(insert|remove|delete|move|reorder)-(row|rows|col|cols|columns|range)$/;
/** So many sheets are kept ready to be computed, and always those entered on last. */
const room = 12;

/** Sheets that read only one another as they are now, ready to be computed. */
interface Known {
  /** Their ids, in the order of the book's sheets. */
  readonly ids: readonly string[];
  readonly book: Book;
}

/**
 * What follows from entries on sheets that read only one another, by our own calculation: the grid takes seconds for it.
 * The grid is told what has changed, so that other sheets follow, and is handed none of those sheets' formulas. Where a
 * formula gives an error, or cannot be computed here, the grid computes the sheets as it computes any other.
 */
export class OwnResults {
  readonly #around: Around;
  /** Those used last stand last; sheets changed in another way than by an entry are read again. */
  #known: readonly Known[] = [];
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

  /** Whether all that follows from entries stands on a sheet: neither is it to be computed here, nor by the grid. */
  isSettled(sheetId: string): boolean {
    return this.#around.selfContained
      .family(sheetId)
      .every((id) => !this.#entered.has(id) && !this.#gridComputes.has(id));
  }

  /** Reads a sheet, with those that it reads or that read it, and takes their formulas apart before anything is entered there. */
  prepare(sheetId: string): void {
    const { workbook, selfContained } = this.#around;
    if (!selfContained.has(sheetId) || !this.isSettled(sheetId)) return;
    const ids = selfContained.family(sheetId);
    const sheets = ids.map((id) => workbook.getSheetBySheetId(id)).filter((sheet) => sheet !== null);
    if (sheets.length < ids.length || this.#knownOf(ids)) return;
    this.#keep({ ids, book: this.#read(sheets) });
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
        const sheets = subUnitId === undefined ? [] : this.#followed(subUnitId);
        const whole = sheets.map((sheet) => ({
          unitId: workbookId,
          sheetId: sheet.getSheetId(),
          range: {
            startRow: 0,
            startColumn: 0,
            endRow: sheet.getMaxRows() - 1,
            endColumn: sheet.getMaxColumns() - 1,
          },
        }));
        return { ...told, dirtyRanges: [...(told.dirtyRanges ?? []), ...whole] };
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
    this.#forget(sheets);
    if (moving.test(id)) for (const sheet of sheets) this.#leave(sheet);
  }

  #forget(sheets: readonly string[]): void {
    this.#known = this.#known.filter(({ ids }) => !ids.some((id) => sheets.includes(id)));
  }

  /** Leaves a sheet, with all that read it, to the grid until its next calculation is finished. */
  #leave(sheetId: string): void {
    const { selfContained } = this.#around;
    const family = selfContained.family(sheetId);
    for (const id of family) {
      this.#gridComputes.add(id);
      selfContained.toBeComputed(id);
    }
    this.#forget(family);
  }

  /** The sheets on which something has changed, where all that follows is on them now; none where the grid has to compute. */
  #followed(sheetId: string): readonly GridSheet[] {
    const { workbook, selfContained } = this.#around;
    const family = selfContained.has(sheetId) ? selfContained.family(sheetId) : [];
    const entered = new Map(family.flatMap((id) => [[id, this.#entered.get(id) ?? []] as const]));
    for (const id of [sheetId, ...family]) this.#entered.delete(id);
    const sheets = family.map((id) => workbook.getSheetBySheetId(id)).filter((sheet) => sheet !== null);
    const here = sheets.filter((sheet) => sheet.getSheetId() === sheetId);
    if (here.length === 0 || sheets.length < family.length) return [];
    const left = family.some((id) => this.#gridComputes.has(id));
    // Several entries in a row are followed with the first of them.
    if ([...entered.values()].every((cells) => cells.length === 0)) return left ? [] : here;
    const changed = left ? undefined : this.#applied(sheets, entered);
    if (!changed) {
      this.#leave(sheetId);
      return [];
    }
    for (const id of family) selfContained.computed(id);
    queueMicrotask(() => this.#listeners.forEach((listener) => listener()));
    return sheets.filter((sheet) => sheet === here[0] || changed.has(sheet.getSheetId()));
  }

  /** Whatever fails here, the grid goes on computing; the failure is not kept from whoever looks for it. */
  #applied(sheets: readonly GridSheet[], entered: Entered): ReadonlySet<string> | undefined {
    try {
      return this.#apply(sheets, entered);
    } catch (error) {
      queueMicrotask(() => {
        throw error;
      });
      return undefined;
    }
  }

  /** Puts on the sheets what follows from cells that have new values; gives those changed, undefined where it cannot. */
  #apply(sheets: readonly GridSheet[], entered: Entered): ReadonlySet<string> | undefined {
    const ids = sheets.map((sheet) => sheet.getSheetId());
    const book = this.#bookWith(sheets, ids, entered);
    if (!book) return undefined;
    const anew = ids.flatMap((id, i) => entered.get(id)!.map((cell) => ({ ...cell, sheet: book.sheets[i]!.sheet })));
    const calculation = new Calculation(book, [], { anew });
    const results: Result[][] = ids.map(() => []);
    for (const place of calculation.concerned) {
      const { value, error, cannot } = calculation.valueAt(place);
      const number = book.sheetNumber(place.sheet)!;
      const before = book.content(number, place.row, place.column);
      // What fills several cells is left to the grid, too.
      if (error !== undefined || cannot !== undefined || before.formula === undefined) return undefined;
      if (before.error !== undefined || before.value !== value)
        results[number]!.push({ row: place.row, column: place.column, value });
    }
    for (const [i, id] of ids.entries()) {
      if (results[i]!.length > 0 && !this.#put(id, results[i]!)) return undefined;
      for (const { row, column } of results[i]!) this.#around.errors.forget(cellKey(id, row, column));
    }
    this.#keep({ ids, book: book.withValues(book.sheets.map((sheet, i) => withValues(sheet, results[i]!))) });
    return new Set(ids.filter((_id, i) => results[i]!.length > 0));
  }

  #keep(known: Known): void {
    this.#forget(known.ids);
    this.#known = [...this.#known, known];
    const sheets = (): number => this.#known.reduce((sum, { ids }) => sum + ids.length, 0);
    while (this.#known.length > 1 && sheets() > room) this.#known = this.#known.slice(1);
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

  /** The sheets with the values that stand in these cells now; undefined where one of them holds or held a formula. */
  #bookWith(sheets: readonly GridSheet[], ids: readonly string[], entered: Entered): Book | undefined {
    const known = this.#knownOf(ids);
    const book = known?.book ?? this.#read(sheets);
    const now: Snapshot[] = [];
    for (const [i, sheet] of sheets.entries()) {
      const cells = entered.get(ids[i]!)!;
      if (cells.some(({ row, column }) => book.content(i, row, column).formula !== undefined)) return undefined;
      if (!known) continue;
      const read = cells.map((cell) => ({ ...cell, ...this.#cells(sheet, cell.row, cell.column, 1, 1)[0]![0]! }));
      if (read.some(({ formula }) => formula !== undefined)) return undefined;
      now.push(withValues(book.sheets[i]!, read));
    }
    return known ? book.withValues(now) : book;
  }

  #knownOf(ids: readonly string[]): Known | undefined {
    return this.#known.find((one) => one.ids.length === ids.length && one.ids.every((id, i) => id === ids[i]));
  }

  #read(sheets: readonly GridSheet[]): Book {
    return new Book(
      sheets.map((sheet) => this.#snapshot(sheet)),
      ourFunctions,
    );
  }

  #snapshot(sheet: GridSheet): Snapshot {
    const [rows, columns] = [sheet.getMaxRows(), sheet.getMaxColumns()];
    const cells = this.#cells(sheet, 0, 0, rows, columns);
    return { sheet: sheet.getSheetName(), rows, columns, cells, names: new Map() };
  }

  #cells(sheet: GridSheet, row: number, column: number, rows: number, columns: number) {
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
