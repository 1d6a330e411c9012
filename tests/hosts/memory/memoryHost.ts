import { a1, areaA1, type Address, type Area, type CellContent, type Place } from "../../../src/cells/index.ts";
import { holds, parseFormula, quotedSheet, withPrefix } from "../../../src/cells/index.ts";
import { checkSheetName } from "../../../src/hosts/host/sheetName.ts";
import { printed } from "../../../src/hosts/host/planValues.ts";
import { checkSource } from "../../../src/hosts/host/source.ts";
import { unreadable } from "../../../src/hosts/host/unreadable.ts";
import {
  CellsNotEmpty,
  defaultStyle,
  likeColours,
  unseen,
  type ApplyOptions,
  type Entry,
  type Host,
  type InsertedCell,
  type Looks,
  type Selection,
  type SheetName,
  type SheetRules,
} from "../../../src/hosts/index.ts";
import { logoOfPlaced, type Logo, type Plan } from "../../../src/sheet/index.ts";
import {
  cellOf,
  contentOf,
  isFilled,
  isLocked,
  lockedIn,
  plannedCell,
  plannedSheet,
  usedOf,
  type MemorySheet,
} from "./sheet.ts";
import { MemoryWorkbook } from "./workbook.ts";

const paper = "#FFFFFF";

/** A workbook in memory as a host: no grid, computed by our own calculation. The grid is held to the same in conformance.test.ts. */
export class MemoryHost implements Host {
  readonly name = "sheets in memory";
  readonly undoesInsertion = false;
  readonly showsLogos = true;
  readonly #selecting = new Set<(selection: Selection) => void>();
  #selected: Selection | undefined;

  constructor(readonly workbook = new MemoryWorkbook()) {}

  async apply(plan: Plan, { sheetName, progress, signal }: ApplyOptions): Promise<{ readonly sheet: string }> {
    await checkSource(plan, this);
    return this.#turn(() => {
      const { sheets } = this.workbook;
      checkSheetName(
        sheetName,
        sheets.map(({ name }) => name),
      );
      const step = (done: number, what: string): void => {
        signal?.throwIfAborted();
        progress(done, plan.cells.length, what);
        signal?.throwIfAborted();
      };
      step(0, "cells");
      sheets.push(plannedSheet(plan, sheetName));
      try {
        this.workbook.added(sheetName, plan);
        step(plan.cells.length, "computed");
      } catch (error) {
        sheets.pop();
        this.workbook.rebuilt();
        throw error;
      }
      return { sheet: sheetName };
    });
  }

  sheetNames(): Promise<readonly string[]> {
    return this.#turn(() => this.workbook.sheets.map(({ name }) => name));
  }

  used(sheet: string): Promise<Area> {
    return this.#turn(() => usedOf(this.workbook.sheet(sheet)));
  }

  namesOn(sheet: string): Promise<readonly SheetName[]> {
    return this.#turn(() => [...this.workbook.sheet(sheet).names]);
  }

  logo(name: string): Promise<Logo | undefined> {
    return this.#turn(() => {
      const { logo } = this.workbook.sheet(name);
      return logo && logoOfPlaced(logo);
    });
  }

  read(name: string, area: Area): Promise<readonly (readonly CellContent[])[]> {
    return this.#turn(() => {
      const sheet = this.workbook.sheet(name);
      return rowsOf(area, (row, column) => contentOf(sheet, row, column));
    });
  }

  looks(name: string, area: Area): Promise<Looks> {
    return this.#turn(() => {
      const sheet = this.workbook.sheet(name);
      const sameColour: Address[] = [];
      const tooSmall: Address[] = [];
      const formats = rowsOf(area, (row, column) => {
        const { content, style, format } = cellOf(sheet, row, column) ?? {};
        if (content && isFilled(content)) {
          const { color = defaultStyle.color!, background = paper, size = defaultStyle.size! } = style ?? {};
          if (likeColours(color, background)) sameColour.push({ row, column });
          if (size <= unseen) tooSmall.push({ row, column });
        }
        return format ?? "General";
      });
      const within = (from: number, count: number, hidden: ReadonlySet<number>, sizes: ReadonlyMap<number, number>) =>
        Array.from({ length: count }, (_, i) => from + i).filter(
          (n) => hidden.has(n) || (sizes.get(n) ?? Infinity) <= unseen,
        );
      return {
        formats,
        hiddenRows: within(area.row, area.rows, sheet.hiddenRows, sheet.heights),
        hiddenColumns: within(area.column, area.columns, sheet.hiddenColumns, sheet.widths),
        sameColour,
        tooSmall,
      };
    });
  }

  rules(name: string, area: Area, places: readonly Address[]): Promise<SheetRules> {
    return this.#turn(() => {
      const sheet = this.workbook.sheet(name);
      return {
        locked: lockedIn(sheet, area),
        entries: places.map((place) => sheet.entries.find((one) => holds(one, place))?.entry),
        colours: [...sheet.colours],
      };
    });
  }

  recalculate(): Promise<void> {
    return this.#turn(() => this.workbook.recalculate());
  }

  dependants({ sheet, row, column }: Place): Promise<readonly Place[]> {
    return this.#turn(() => this.workbook.book.readersOf({ sheet, row, column }));
  }

  enterAll(name: string, cells: readonly Pick<InsertedCell, "row" | "column" | "value" | "formula">[]): Promise<void> {
    return this.#turn(() => {
      const sheet = this.workbook.sheet(name);
      const locked = cells.find((at) => isLocked(sheet, at));
      if (locked) throw new Error(`the cell ${a1(locked)} of “${name}” is protected; nothing was written`);
      if (cells.length > 0) this.#write(sheet, cells);
    });
  }

  /** Writes one cell as if typed: a text that begins with `=` is a formula. */
  enter({ sheet: name, row, column }: Place, entry: Entry): Promise<void> {
    return this.#turn(() => {
      const sheet = this.workbook.sheet(name);
      if (isLocked(sheet, { row, column }))
        throw new Error(`the cell at row ${row + 1}, column ${column + 1} of “${name}” is protected`);
      const formula = typeof entry === "string" && entry.startsWith("=") ? entry : undefined;
      this.#write(sheet, [
        { row, column, ...(formula !== undefined ? { formula } : entry !== null && { value: entry }) },
      ]);
    });
  }

  insert(name: string, cells: readonly InsertedCell[]): Promise<void> {
    return this.#turn(() => {
      const sheet = this.workbook.sheet(name);
      const filled = cells.filter(({ row, column }) => isFilled(contentOf(sheet, row, column)));
      if (filled.length > 0) throw new CellsNotEmpty(name, filled);
      const locked = cells.find((at) => isLocked(sheet, at));
      if (locked)
        throw new Error(
          `the cell at row ${locked.row + 1}, column ${locked.column + 1} of “${name}” is protected; nothing was written`,
        );
      if (cells.length > 0) this.#write(sheet, cells);
    });
  }

  selection(): Promise<Selection | undefined> {
    return Promise.resolve(this.#selected);
  }

  select({ sheet, row, column }: Place): Promise<void> {
    return this.#turn(() => {
      this.#selected = { sheet: this.workbook.sheet(sheet).name, row, column, rows: 1, columns: 1 };
      for (const listener of this.#selecting) listener(this.#selected);
    });
  }

  resolveName(name: string, sheet: string): Promise<string | undefined> {
    return this.#turn(() => {
      const found = this.workbook.sheet(sheet).names.find((one) => one.name.toLowerCase() === name.toLowerCase());
      return found?.area && `${quotedSheet(found.area.sheet)}!${areaA1(found.area)}`;
    });
  }

  evaluate(formula: string, sheet: string): Promise<readonly (readonly CellContent[])[]> {
    return this.#turn(() => {
      const text = withPrefix(formula);
      if (!readable(text)) return [[{ value: null, formula: text, text: unreadable.code, error: unreadable }]];
      return this.workbook.evaluate(text, this.workbook.sheet(sheet).name).map((row) =>
        row.map(({ value, error, cannot }): CellContent => {
          if (cannot !== undefined) throw new Error(`${text}: ${cannot}. It needs the grid.`);
          return { value, formula: text, text: error ? error.code : printed(value), ...(error && { error }) };
        }),
      );
    });
  }

  onSelection(listener: (selection: Selection) => void): () => void {
    this.#selecting.add(listener);
    return () => this.#selecting.delete(listener);
  }

  onCalculated(listener: () => void): () => void {
    return this.workbook.onCalculated(listener);
  }

  /** Nothing is held outside memory. */
  dispose(): void {
    this.workbook.sheets.length = 0;
  }

  #write(sheet: MemorySheet, cells: readonly InsertedCell[]): void {
    this.workbook.put(
      sheet,
      cells.map((cell) => ({
        sheet: sheet.name,
        row: cell.row,
        column: cell.column,
        cell: plannedCell(cell, cellOf(sheet, cell.row, cell.column)),
      })),
    );
  }

  /** As every host answers: later, and by rejecting. */
  async #turn<T>(work: () => T): Promise<T> {
    await Promise.resolve();
    return work();
  }
}

function rowsOf<T>({ row, column, rows, columns }: Area, of: (row: number, column: number) => T): T[][] {
  return Array.from({ length: rows }, (_r, r) => Array.from({ length: columns }, (_c, c) => of(row + r, column + c)));
}

function readable(formula: string): boolean {
  try {
    parseFormula(formula);
    return true;
  } catch {
    return false;
  }
}
