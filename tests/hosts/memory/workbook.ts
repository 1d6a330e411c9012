import { ourFunctions } from "../../../functions/index.ts";
import {
  a1,
  Book,
  Calculation,
  type CellContent,
  type Computed,
  type Place,
  type Snapshot,
} from "../../../src/cells/index.ts";
import { printed } from "../../../src/hosts/host/planValues.ts";
import { basePlan, type Plan } from "../../../src/sheet/index.ts";
import {
  cellOf,
  contentOf,
  copyOf,
  emptySheet,
  putCell,
  snapshotOf,
  type MemoryCell,
  type MemorySheet,
} from "./sheet.ts";

const booksKept = new WeakMap<Plan, Book>();

/** Sheets, and the values of their formulas by our own calculation: after an edit of a cell only what depends on it. */
export class MemoryWorkbook {
  readonly sheets: MemorySheet[] = [emptySheet("Sheet1")];
  #book: Book | undefined;
  /** What was read last: sheets whose formulas did not change since are not read again. */
  #before: Book | undefined;
  /** Every formula gives its value: computing anew would change nothing. */
  #settled = false;
  readonly #listeners = new Set<() => void>();

  sheet(name: string): MemorySheet {
    const sheet = this.sheets.find((one) => one.name.toLowerCase() === name.toLowerCase());
    if (!sheet) throw new Error(`The workbook has no sheet named “${name}”.`);
    return sheet;
  }

  /** The sheets as they stand, ready to be computed with. */
  get book(): Book {
    return (this.#book ??= this.#before = Book.like(this.#before, this.sheets.map(snapshotOf), ourFunctions));
  }

  /** Puts cells in place and computes what follows from them. */
  put(sheet: MemorySheet, cells: readonly (Place & { readonly cell: MemoryCell })[]): void {
    const settled = this.#settled;
    this.#settled = false;
    const formulas = cells.some(
      ({ row, column, cell }) => (cell.content.formula ?? contentOf(sheet, row, column).formula) !== undefined,
    );
    for (const { row, column, cell } of cells)
      putCell(sheet, row, column, { ...cell, content: { ...cell.content, text: textOf(cell.content, cell.format) } });
    const before = this.#book;
    const snapshots = this.sheets.map(snapshotOf);
    this.#book = !formulas && before && sameSize(before.sheets, snapshots) ? before.withValues(snapshots) : undefined;
    this.#compute(new Calculation(this.book, [], { anew: cells }));
    this.#settled = settled;
  }

  /** Computes everything anew; what has not changed since has its values. */
  recalculate(): void {
    if (this.#settled) for (const listener of this.#listeners) listener();
    else this.#computeAll();
  }

  /** A cell's look was changed apart from the workbook: what it shows may have changed with it. */
  lookedOtherwise(): void {
    this.#settled = false;
  }

  #computeAll(): void {
    this.#compute(new Calculation(this.book, [], { everything: true }));
    this.#settled = true;
  }

  /** As if it stood on that sheet. */
  evaluate(formula: string, sheet: string): readonly (readonly Computed[])[] {
    return new Calculation(this.book).evaluate(formula, sheet);
  }

  /** After cells, sheets or names were moved: reads all formulas again and computes them. */
  rebuilt(): void {
    this.#book = undefined;
    this.#computeAll();
  }

  /** After a sheet was put behind the others: computes what is on it and what refers to it. */
  added(name: string, plan: Plan): void {
    this.#book = undefined;
    const alone = this.sheets.every(({ name: other, cells }) => other === name || cells.length === 0);
    if (alone) {
      this.#book = this.#bookOfPlan(plan);
      return this.#computeAll();
    }
    if (!this.#settled) return this.rebuilt();
    const { cells } = this.sheet(name);
    const anew = cells.flatMap((line, row) =>
      Array.from(line.keys(), (column) => ({ sheet: name, row, column })).filter(({ column }) => line[column]),
    );
    this.#settled = false;
    this.#compute(new Calculation(this.book, [], { anew }));
    this.#settled = true;
  }

  /** What plans of one configuration have in common is read once. */
  #bookOfPlan(plan: Plan): Book {
    const snapshots = this.sheets.map(snapshotOf);
    const base = basePlan(plan);
    const kept = booksKept.get(base);
    if (kept && sameSize(kept.sheets, snapshots)) return kept.withValues(snapshots);
    const book = Book.like(undefined, snapshots, ourFunctions);
    booksKept.set(base, book);
    return book;
  }

  /** Another workbook with the same sheets as they stand. */
  copy(): MemoryWorkbook {
    const other = new MemoryWorkbook();
    other.sheets.splice(0, other.sheets.length, ...this.sheets.map(copyOf));
    other.#book = this.#book;
    other.#before = this.#book ?? this.#before;
    other.#settled = this.#settled;
    return other;
  }

  onCalculated(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  #compute(calculation: Calculation): void {
    let changed = false;
    for (const { sheet: name, row, column } of calculation.concerned) {
      const sheet = this.sheet(name);
      const cell = cellOf(sheet, row, column);
      if (cell?.content.formula === undefined) continue;
      const content = computedContent(
        { sheet: name, row, column },
        cell,
        calculation.valueAt({ sheet: name, row, column }),
      );
      putCell(sheet, row, column, { ...cell, content });
      changed = true;
    }
    if (changed) this.#book = this.#book?.withValues(this.sheets.map(snapshotOf));
    for (const listener of this.#listeners) listener();
  }
}

const sameSize = (before: readonly Snapshot[], now: readonly Snapshot[]): boolean =>
  before.length === now.length &&
  before.every(
    ({ sheet, rows, columns }, i) => sheet === now[i]!.sheet && rows === now[i]!.rows && columns === now[i]!.columns,
  );

function textOf({ value, error }: Pick<CellContent, "value" | "error">, format: string | undefined): string {
  return error ? error.code : printed(value, format);
}

function computedContent(place: Place, { content: { formula }, format }: MemoryCell, computed: Computed): CellContent {
  const { value, error, cannot } = computed;
  if (cannot !== undefined)
    throw new Error(`${a1(place)} of “${place.sheet}”, ${formula}: ${cannot}. Such a sheet needs the grid.`);
  return {
    value,
    formula: formula!,
    text: textOf({ value, ...(error && { error }) }, format),
    ...(error && { error }),
  };
}
