import { withPrefix, type Address, type Area } from "../../cells/index.ts";
import { worksheetFunctions } from "../../../functions/index.ts";
import { logoOfPlaced, type Logo, type Plan } from "../../sheet/index.ts";
import {
  CellsNotEmpty,
  type ApplyOptions,
  type CellContent,
  type CellValue,
  type Host,
  type InsertedCell,
  type Looks,
  type Place,
  type Selection,
  type SheetName,
  type SheetRules,
} from "../host/host.ts";
import { checkSheetName } from "../host/sheetName.ts";
import { sourceNameFollows } from "./sourceNameFollows.ts";
import { checkSource, sourceSheets } from "../host/source.ts";
import { unreadable } from "../host/unreadable.ts";
import { allowedSheetNames } from "./allowedSheetNames.ts";
import { build } from "./build.ts";
import { calculated, recalculated, watchComputing } from "./calculated.ts";
import { onChanged } from "./changes.ts";
import { CellErrors, cellKey } from "./cellErrors.ts";
import { errorContent, isErrorCode, plainText, readCells } from "./cells.ts";
import { besideFollows, besideOf } from "./beside.ts";
import { contentsOf } from "./contents.ts";
import { place as placeBook } from "./place.ts";
import type { BookProperties, Workbook } from "../workbook/workbook.ts";
import { limitChoiceLists } from "./choiceLists.ts";
import { Dependants } from "./dependants.ts";
import { enterCells } from "./enter.ts";
import { limitEntries } from "./entryLimits.ts";
import { hostFunctions } from "./hostFunction.ts";
import { firstColumnFor } from "./inView.ts";
import { workbookId, type GridRuntime, type GridSheet, type GridWorkbook } from "./runtime.ts";
import { looksOf } from "./looks.ts";
import { readEveryNumeral } from "./numerals.ts";
import { readSignedNames } from "./signedNames.ts";
import { compareCells } from "./comparisons.ts";
import { completeCopies } from "./copiedSheets.ts";
import { guardReturning } from "./guarded.ts";
import { keepMoreParsed } from "./parsedFormulas.ts";
import { ReadAhead } from "./readAhead.ts";
import { rulesOf } from "./readRules.ts";
import { cellData } from "./sheetData.ts";
import { OwnResults } from "./ownResults.ts";
import { Passes } from "./passes.ts";
import { SelfContained } from "./selfContained.ts";
import { SheetNames } from "./sheetNames.ts";
import { Turns } from "../host/turns.ts";
import { usedArea } from "./usedArea.ts";
import { whyLocked } from "./whyLocked.ts";

/** What may stand in a cell by hand; a text that begins with `=` is a formula. */
export type Entry = string | number | boolean | null;

/** A cell without a formula: an expression evaluated as if it stood there mixes its messages with no other's. */
function withoutFormula(sheet: GridSheet): number {
  const worksheet = sheet.getSheet();
  let row = 0;
  while (worksheet.getCellRaw(row, 0)?.f) row++;
  return row;
}

/** The embedded grid as a host, on a screen or in Node. */
export class GridHost implements Host {
  readonly name = "embedded grid";
  readonly undoesInsertion = true;
  readonly showsLogos = false;
  readonly #grid: GridRuntime;
  readonly #workbook: GridWorkbook;
  readonly #errors = new CellErrors();
  readonly #names: SheetNames;
  readonly #selfContained: SelfContained;
  readonly #ownResults: OwnResults;
  readonly #readAhead: ReadAhead;
  /** The grid keeps a selection only on a screen; without one it is kept here. */
  #chosen: Selection | undefined;
  readonly #listeners = new Set<(selection: Selection) => void>();
  readonly #editListeners = new Set<() => void>();
  readonly #troubleListeners = new Set<(text: string) => void>();
  readonly #turns = new Turns();
  readonly #dependants: Dependants;
  #edits = 0;
  /** What the opened file says of itself. */
  #properties: BookProperties = { creator: "Kernbook" };

  constructor(grid: GridRuntime, workbook: GridWorkbook) {
    this.#grid = grid;
    this.#workbook = workbook;
    watchComputing(grid);
    grid.univer
      .__getInjector()
      .get(grid.formula.IFunctionService)
      .registerExecutors(...hostFunctions(grid, worksheetFunctions, this.#errors));
    keepMoreParsed(grid);
    readEveryNumeral(grid);
    compareCells(grid);
    this.#names = new SheetNames(grid);
    readSignedNames(grid);
    const passes = new Passes(grid);
    const selfContained = (this.#selfContained = new SelfContained(grid, workbook, passes));
    const ownResults = (this.#ownResults = new OwnResults({
      grid,
      workbook,
      passes,
      selfContained,
      errors: this.#errors,
    }));
    this.#readAhead = new ReadAhead({ grid, workbook, selfContained, ownResults });
    besideFollows(grid);
    const trouble = (text: string): void => this.tell(text);
    limitEntries(grid, workbook, trouble);
    limitChoiceLists(grid, workbook, trouble);
    completeCopies({ grid, workbook, selfContained, ownResults, trouble });
    allowedSheetNames(grid, workbook, trouble);
    guardReturning(grid, workbook, trouble);
    sourceNameFollows(grid, workbook, this.#names);
    this.#dependants = new Dependants(workbook, (name, sheetId) => this.#names.resolve(name, sheetId));
    grid.api.addEvent(grid.api.Event.SheetDeleted, ({ sheetId }) => {
      this.#names.remove(sheetId);
      this.#errors.forgetSheet(sheetId);
    });
    grid.api.getFormula().calculationStart(() => this.#errors.nextPass());
    onChanged(grid, () => this.#edited());
  }

  /** How often the workbook was changed so far: by entries, by taking them back, by sheets built. */
  get edits(): number {
    return this.#edits;
  }

  apply(plan: Plan, options: ApplyOptions): Promise<{ readonly sheet: string }> {
    return this.#turns.take(async () => {
      const name = options.sheetName;
      checkSheetName(name, await this.sheetNames());
      await checkSource(plan, this);
      // What is typed meanwhile is not meant for the new sheet, which the grid shows as soon as it begins.
      const release = this.#grid.hold?.();
      this.#readAhead.end();
      try {
        this.#ownResults.listen();
        // What was typed a moment ago is computed before the source is read.
        if (plan.source) await calculated(this.#grid);
        const others = await sourceSheets(plan, this);
        await build(this.#grid, this.#workbook, this.#names, this.#selfContained, plan, options, others);
      } finally {
        release?.();
        this.#readAhead.begin();
      }
      this.#edited();
      return { sheet: name };
    });
  }

  /** The whole workbook, as a file can keep it. */
  contents(): Promise<Workbook> {
    return this.#turns.take(async () => {
      // What was typed a moment ago is saved with what follows from it.
      await calculated(this.#grid);
      return { ...(await this.#contents()), properties: this.#properties };
    });
  }

  /**
   * Opens a workbook in place of the one that is open, which stays when that fails. `safe` is given what stands there
   * when the turn has come (a sheet may have been built meanwhile) and keeps it, or throws.
   */
  open(book: Workbook, safe: (before: Workbook) => Promise<void> = () => Promise.resolve()): Promise<void> {
    return this.#turns.take(async () => {
      const release = this.#grid.hold?.();
      this.#readAhead.end();
      try {
        this.#ownResults.listen();
        // What the grid has still to compute from before would go through the new sheets as well.
        await calculated(this.#grid);
        const before = await this.#contents();
        await safe({ ...before, properties: this.#properties });
        const ledgers = { names: this.#names, selfContained: this.#selfContained };
        await placeBook(this.#grid, this.#workbook, ledgers, book, before);
      } finally {
        release?.();
        this.#readAhead.begin();
      }
      this.#properties = book.properties;
    });
  }

  sheetNames(): Promise<readonly string[]> {
    return Promise.resolve(this.#workbook.getSheets().map((sheet) => sheet.getSheetName()));
  }

  async read(sheet: string, area: Area): Promise<readonly (readonly CellContent[])[]> {
    await Promise.resolve();
    return readCells(this.#grid, this.#workbook, this.#sheet(sheet), area, this.#errors);
  }

  async used(sheet: string): Promise<Area> {
    await Promise.resolve();
    return usedArea(this.#sheet(sheet));
  }

  async namesOn(sheet: string): Promise<readonly SheetName[]> {
    await Promise.resolve();
    return this.#names.on(this.#sheet(sheet).getSheetId());
  }

  async looks(sheet: string, area: Area): Promise<Looks> {
    await Promise.resolve();
    return looksOf(this.#workbook, this.#sheet(sheet), area);
  }

  async rules(sheet: string, area: Area, places: readonly Address[]): Promise<SheetRules> {
    return rulesOf(this.#grid, this.#sheet(sheet), area, places);
  }

  recalculate(): Promise<void> {
    return this.#turns.take(() => recalculated(this.#grid, this.#workbook));
  }

  async dependants(place: Place): Promise<readonly Place[]> {
    await Promise.resolve();
    return this.#dependants.of(place);
  }

  enterAll(sheet: string, cells: readonly Pick<InsertedCell, "row" | "column" | "value" | "formula">[]): Promise<void> {
    return this.#turns.take(() => enterCells(this.#grid, this.#sheet(sheet), cells));
  }

  /** Writes one cell as if typed, and waits for what follows from it. */
  enter(place: Place, entry: Entry): Promise<void> {
    return this.#turns.take(async () => {
      const sheet = this.#sheet(place.sheet);
      if (!sheet.getWorksheetPermission().canEditCell(place.row, place.column))
        throw new Error(
          `the cell at row ${place.row + 1}, column ${place.column + 1} of “${place.sheet}” is protected`,
        );
      const range = sheet.getRange(place.row, place.column, 1, 1);
      if (entry === null) range.clearContent();
      else range.setValue(entry);
      await calculated(this.#grid);
    });
  }

  insert(name: string, cells: readonly InsertedCell[]): Promise<void> {
    return this.#turns.take(async () => {
      const sheet = this.#sheet(name);
      if (cells.length === 0) return;
      const rows = Math.max(...cells.map(({ row }) => row)) + 1;
      const columns = Math.max(...cells.map(({ column }) => column)) + 1;
      const top = Math.min(...cells.map(({ row }) => row));
      const left = Math.min(...cells.map(({ column }) => column));
      if (rows > sheet.getMaxRows() || columns > sheet.getMaxColumns())
        throw new Error(
          `“${name}” ends at row ${sheet.getMaxRows()}, column ${sheet.getMaxColumns()}: there is no room for ` +
            "these cells; nothing was written",
        );
      const standing = readCells(
        this.#grid,
        this.#workbook,
        sheet,
        { row: top, column: left, rows: rows - top, columns: columns - left },
        this.#errors,
      );
      const filled = cells.filter(({ row, column }) => {
        const cell = standing[row - top]![column - left]!;
        return cell.formula !== undefined || cell.value !== null || cell.error !== undefined;
      });
      if (filled.length > 0) throw new CellsNotEmpty(name, filled);
      const locked = cells.find(({ row, column }) => !sheet.getWorksheetPermission().canEditCell(row, column));
      if (locked)
        throw new Error(
          `the cell at row ${locked.row + 1}, column ${locked.column + 1} of “${name}” is protected; nothing was written`,
        );
      // One command, so one step to undo.
      sheet.getRange(top, left, rows - top, columns - left).setValues(cellData(this.#grid.core, cells));
      await calculated(this.#grid);
    });
  }

  unprotect(sheet: string): Promise<void> {
    return this.#turns.take(async () => {
      for (const rule of await this.#sheet(sheet).getWorksheetPermission().listRangeProtectionRules())
        await rule.remove();
    });
  }

  async logo(sheet: string): Promise<Logo | undefined> {
    await Promise.resolve();
    const { logo } = besideOf(this.#sheet(sheet));
    return logo && logoOfPlaced(logo);
  }

  selection(): Promise<Selection | undefined> {
    return Promise.resolve(this.#selected());
  }

  async select({ sheet: name, row, column }: Place): Promise<void> {
    await Promise.resolve();
    const sheet = this.#workbook.setActiveSheet(this.#sheet(name));
    sheet.setActiveRange(sheet.getRange(row, column, 1, 1));
    if (this.#grid.onScreen) sheet.scrollToCell(Math.max(0, row - 3), firstColumnFor(sheet, column));
    // The grid tells of clicks and keys, not of a selection made by a program.
    this.#chosen = { sheet: name, row, column, rows: 1, columns: 1 };
    for (const listener of this.#listeners) listener(this.#chosen);
  }

  /** Takes the selection down or up by as many rows as are in view. */
  async page(down: boolean): Promise<void> {
    const at = this.#selected();
    if (!at) return;
    const sheet = this.#sheet(at.sheet);
    const seen = sheet.getVisibleRange();
    const step = Math.max(1, (seen ? seen.endRow - seen.startRow : 20) - 1);
    const row = Math.min(sheet.getMaxRows() - 1, Math.max(0, at.row + (down ? step : -step)));
    await this.select({ sheet: at.sheet, row, column: at.column });
  }

  /** Why the selected cell cannot be typed in, and where to type; undefined where it can. */
  whyLocked(): string | undefined {
    const at = this.#selected();
    if (!at) return undefined;
    const sheet = this.#sheet(at.sheet);
    const may = sheet.getWorksheetPermission();
    const open = ({ row, column }: Address): boolean => may.canEditCell(row, column);
    if (open(at)) return undefined;
    const worksheet = sheet.getSheet();
    return whyLocked(
      {
        formula: ({ row, column }) => sheet.getRange(row, column, 1, 1).getFormula(),
        text: ({ row, column }) => String(worksheet.getCellRaw(row, column)?.v ?? ""),
        open,
        columns: sheet.getMaxColumns(),
      },
      at,
    );
  }

  resolveName(name: string, sheet: string): Promise<string | undefined> {
    return Promise.resolve(this.#names.resolve(name, this.#sheet(sheet).getSheetId()));
  }

  evaluate(formula: string, sheet: string): Promise<readonly (readonly CellContent[])[]> {
    return this.#turns.take(async () => {
      const target = this.#sheet(sheet);
      const sheetId = target.getSheetId();
      const row = withoutFormula(target);
      const text = withPrefix(formula);
      this.#errors.nextPass();
      const results = await this.#grid.api
        .getFormula()
        .executeFormulas({ [workbookId]: { [sheetId]: { [row]: { 0: [text] } } } });
      const value = results[workbookId]?.[sheetId]?.[row]?.[0]?.[0]?.value as
        CellValue | readonly (readonly CellValue[])[] | undefined;
      // A formula the grid cannot parse has no value at all.
      if (value === undefined || value === null)
        return [[{ value: null, formula: text, text: unreadable.code, error: unreadable }]];
      const rows = Array.isArray(value) ? (value as readonly (readonly CellValue[])[]) : [[value as CellValue]];
      const key = cellKey(sheetId, row, 0);
      const contents = rows.map((cells) => cells.map((cell) => this.#evaluated(key, text, cell)));
      this.#errors.computed(key);
      return contents;
    });
  }

  /** Where a cell of the shown sheet, such as `D12`, stands on the grid's canvas, in CSS pixels. Only on a screen. */
  cellBox(address: string): DOMRect {
    const sheet = this.#workbook.getActiveSheet();
    const range = sheet.getRange(address);
    const { x, y, width, height } = range.getCellRect();
    const rows = sheet.getFrozenRows();
    const columns = sheet.getFrozenColumns();
    // The grid's own rectangle takes no account of scrolling; frozen cells do not scroll.
    const { sheetViewStartRow, sheetViewStartColumn, offsetX, offsetY } = sheet.getScrollState();
    const corner = sheet.getRange(0, 0, 1, 1).getCellRect();
    const start = sheet.getRange(sheetViewStartRow, sheetViewStartColumn, 1, 1).getCellRect();
    return new DOMRect(
      range.getColumn() < columns ? x : x - (start.x - corner.x) - offsetX,
      range.getRow() < rows ? y : y - (start.y - corner.y) - offsetY,
      width,
      height,
    );
  }

  onSelection(listener: (selection: Selection) => void): () => void {
    const tell = (): void => {
      if (!this.#grid.onScreen) return;
      const place = this.#selected();
      if (place) listener(place);
    };
    const { api } = this.#grid;
    const moved = this.#workbook.onSelectionChange(tell);
    const turned = api.addEvent(api.Event.ActiveSheetChanged, tell);
    this.#listeners.add(listener);
    return () => {
      this.#listeners.delete(listener);
      moved.dispose();
      turned.dispose();
    };
  }

  /** Told after each change of the workbook: entries, taking them back, sheets built. Returns a function that ends the subscription. */
  onEdited(listener: () => void): () => void {
    this.#editListeners.add(listener);
    return () => this.#editListeners.delete(listener);
  }

  /** Says to those who listen for it what went wrong where nobody waits for it. */
  tell(text: string): void {
    this.#troubleListeners.forEach((listener) => listener(text));
  }

  /** Calls the listener with what went wrong where nobody waits for it: a copied sheet that could not be protected. */
  onTrouble(listener: (text: string) => void): () => void {
    this.#troubleListeners.add(listener);
    return () => this.#troubleListeners.delete(listener);
  }

  #edited(): void {
    this.#edits++;
    for (const listener of [...this.#editListeners]) listener();
  }

  onCalculated(listener: () => void): () => void {
    const subscription = this.#grid.api.getFormula().calculationResultApplied(() => listener());
    const end = this.#ownResults.onApplied(listener);
    return () => {
      subscription.dispose();
      end();
    };
  }

  /** Ends the grid; nothing works afterwards. */
  dispose(): void {
    this.#readAhead.end();
    this.#grid.univer.dispose();
  }

  #evaluated(key: string, formula: string, value: CellValue): CellContent {
    if (!isErrorCode(value)) return { value, formula, text: plainText(value) };
    return {
      value: null,
      formula,
      text: value,
      error: errorContent(value, this.#errors.messageFor(key, value, formula)),
    };
  }

  #contents(): Promise<Workbook> {
    return contentsOf(this.#grid, this.#workbook, this.#names, this.#errors);
  }

  #sheet(name: string): GridSheet {
    const sheet = this.#workbook.getSheetByName(name);
    if (!sheet) throw new Error(`The workbook has no sheet named “${name}”.`);
    return sheet;
  }

  #selected(): Selection | undefined {
    if (!this.#grid.onScreen) return this.#chosen;
    const sheet = this.#workbook.getActiveSheet();
    const range = sheet.getActiveRange();
    return range
      ? {
          sheet: sheet.getSheetName(),
          row: range.getRow(),
          column: range.getColumn(),
          rows: range.getHeight(),
          columns: range.getWidth(),
        }
      : undefined;
  }
}
