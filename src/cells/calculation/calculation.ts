import { withPrefix } from "../language/pieces.ts";
import { a1 } from "../address/address.ts";
import type { CellValue } from "../values/content.ts";
import type { Place } from "../address/place.ts";
import type { Book } from "./book.ts";
import { compiledFor, keyOf, placeOfKey, type FormulaCell } from "./formulas.ts";
import type { Compiled } from "./compile.ts";
import { allThatFollow, following } from "./following.ts";
import type { Frame, Reader } from "../values/frame.ts";
import { Block, cannot, CannotCompute, Fault, type Scalar, type Value } from "../values/values.ts";

/** Another value in a cell, whatever it holds now. */
export interface Change extends Place {
  readonly value: CellValue;
}

/** What a cell or an expression comes to. */
export interface Computed {
  readonly value: CellValue;
  readonly error?: { readonly code: string; readonly message?: string };
  /** Why there is no value: what cannot be computed here, in this cell or in one it depends on. */
  readonly cannot?: string;
}

/** A cell is read that has yet to be computed. */
class Pending {
  constructor(readonly key: number) {}
}

/**
 * The values of a book with some cells changed. Only what depends on a changed cell is computed; all else keeps the
 * host's value. Computed when asked for, each cell once.
 */
export class Calculation implements Reader {
  readonly #dirty: ReadonlySet<number>;
  readonly #results = new Map<number, Scalar | CannotCompute>();
  /** Ranges all of whose cells have been computed. */
  readonly #whole = new Set<number>();

  /**
   * `everything`: every formula is computed from its own, none keeps the host's value. `anew`: cells whose own
   * formulas are computed anew, or whose values are new to what follows from them.
   */
  constructor(
    readonly where: Book,
    changes: readonly Change[] = [],
    { everything = false, anew = [] }: { readonly everything?: boolean; readonly anew?: readonly Place[] } = {},
  ) {
    const changed = changes.map((change) => ({ key: where.keyOf(change), value: change.value }));
    const begun = anew.map((place) => where.keyOf(place));
    if (everything) this.#dirty = allThatFollow(where);
    else {
      const dirty = following(where, [...changed.map(({ key }) => key), ...begun]);
      for (const key of begun) if (where.formulas.cells.has(key)) dirty.add(key);
      this.#dirty = dirty;
    }
    for (const { key, value } of changed) this.#setResult(key, value);
  }

  #setResult(key: number, result: Scalar | CannotCompute): void {
    this.#results.set(key, result);
  }

  /** The cells with formulas that are computed rather than taken from the host. */
  get concerned(): readonly Place[] {
    return [...this.#dirty].map((key) => {
      const { sheet, row, column } = placeOfKey(key);
      return { sheet: this.where.sheets[sheet]!.sheet, row, column };
    });
  }

  valueAt(place: Place): Computed {
    return this.#told(() => this.#value(this.where.keyOf(place)));
  }

  /**
   * The value of an expression (with or without `=`) as if it stood on a sheet, in a cell where that matters; rows
   * where it fills several cells.
   */
  evaluate(
    expression: string,
    sheet: string,
    at: { readonly row: number; readonly column: number } = { row: 0, column: 0 },
  ): readonly (readonly Computed[])[] {
    const number = placeOfKey(this.where.keyOf({ sheet, row: 0, column: 0 })).sheet;
    const compiled = compiledFor(withPrefix(expression), at.row, at.column, this.where.functions);
    const { reads, ranges } = this.where.formulas.reading(compiled, number, at.row, at.column);
    let value: Value;
    try {
      this.#ahead(reads, ranges);
      value = this.#untilDone(() => this.#run(compiled, number, at.row, at.column));
      // What a range holds is read here, and may have to be computed first.
      if (value instanceof Block) value = this.#untilDone(() => kept(value as Block));
    } catch (error) {
      if (error instanceof CannotCompute) return [[{ value: null, cannot: error.message }]];
      throw error;
    }
    if (!(value instanceof Block)) return [[told(value ?? 0)]];
    const block = value;
    return Array.from({ length: block.rows }, (_r, r) =>
      Array.from({ length: block.columns }, (_c, c) => told(block.at(r, c) ?? 0)),
    );
  }

  read(sheet: number, row: number, column: number): Scalar {
    if (this.#dirty.size > 0 || this.#results.size > 0) {
      const key = keyOf(sheet, row, column);
      const result = this.#results.get(key);
      if (result !== undefined) {
        if (result instanceof CannotCompute) throw result;
        return result;
      }
      // Not an error of the formula: whoever computes it goes on once the cell is there.
      // eslint-disable-next-line @typescript-eslint/only-throw-error
      if (this.#dirty.has(key)) throw new Pending(key);
    }
    return this.where.hostValue(sheet, row, column);
  }

  #told(value: () => Scalar): Computed {
    try {
      return told(value());
    } catch (error) {
      if (error instanceof CannotCompute) return { value: null, cannot: error.message };
      throw error;
    }
  }

  #value(key: number): Scalar {
    const { sheet, row, column } = placeOfKey(key);
    this.#ahead([key], []);
    return this.#untilDone(() => this.read(sheet, row, column));
  }

  /** Goes on until nothing more is missing. */
  #untilDone<T>(attempt: () => T): T {
    for (;;) {
      try {
        return attempt();
      } catch (error) {
        if (!(error instanceof Pending)) throw error;
        this.#force(error.key);
      }
    }
  }

  /** The formula cell that gives a cell its value: itself, or the first of the block it lies in. */
  #giver(key: number): number {
    return this.where.blocks.first.get(key) ?? key;
  }

  /** Whether a cell has yet to be computed. */
  #waits(key: number): boolean {
    return this.#dirty.has(key) && !this.#results.has(key);
  }

  /** Computes cells after all that they can read, without depth: what reads itself is left to be computed when it is wanted. */
  #ahead(keys: readonly number[], ranges: readonly number[]): void {
    const { formulas } = this.where;
    const stack: {
      readonly cell: FormulaCell | undefined;
      readonly ranges: readonly number[];
      readonly wanted: number[];
    }[] = [];
    const opened = new Set<number>();
    const open = (cell: FormulaCell | undefined, reads: readonly number[], of: readonly number[]): void => {
      const wanted = reads.filter((key) => this.#waits(key));
      for (const number of of) if (!this.#whole.has(number)) this.#collect(number, wanted);
      stack.push({ cell, ranges: of, wanted });
    };
    open(undefined, keys, ranges);
    for (let top = stack.at(-1); top; top = stack.at(-1)) {
      const next = top.wanted.pop();
      if (next !== undefined) {
        const giver = this.#giver(next);
        const cell = formulas.cells.get(giver);
        if (!cell || opened.has(giver) || !this.#waits(giver)) continue;
        opened.add(giver);
        open(cell, cell.reads, cell.ranges);
        continue;
      }
      stack.pop();
      if (top.cell) {
        const missing = this.#compute(top.cell);
        if (missing !== undefined) continue;
      }
      for (const number of top.ranges) this.#whole.add(number);
    }
  }

  #collect(number: number, wanted: number[]): void {
    const { sheet, row, column, rows, columns } = this.where.formulas.ranges[number]!;
    for (let r = row; r < row + rows; r++) {
      for (let c = column; c < column + columns; c++) {
        const key = keyOf(sheet, r, c);
        if (this.#waits(key)) wanted.push(key);
      }
    }
  }

  /** Computes a cell with what it really reads; a circle is told of in every cell of it. */
  #force(key: number): void {
    const stack = [this.#giver(key)];
    for (let top = stack.at(-1); top !== undefined; top = stack.at(-1)) {
      const cell = this.where.formulas.cells.get(top);
      const missing = cell && this.#waits(top) ? this.#compute(cell) : undefined;
      if (missing === undefined) {
        stack.pop();
        continue;
      }
      const giver = this.#giver(missing);
      const from = stack.indexOf(giver);
      if (from < 0) {
        stack.push(giver);
        continue;
      }
      const circle = stack.splice(from);
      const names = circle
        .slice(0, 6)
        .map((k) => a1(placeOfKey(k)))
        .join(", ");
      const told = new CannotCompute(
        "cannot be computed here: " +
          `${
            circle.length === 1
              ? `${names} refers to itself`
              : `${names}${circle.length > 6 ? " and others" : ""} refer to one another in a circle`
          }`,
      );
      for (const k of circle) this.#keep(k, told);
    }
  }

  /** Computes one cell; gives the cell that has to be computed first, if there is one. */
  #compute(cell: FormulaCell): number | undefined {
    try {
      const value = this.#run(cell.compiled, cell.sheet, cell.row, cell.column);
      this.#store(cell, value);
      return undefined;
    } catch (error) {
      if (error instanceof Pending) return error.key;
      if (!(error instanceof CannotCompute)) throw error;
      this.#keep(cell.key, error);
      return undefined;
    }
  }

  #run(compiled: Compiled, sheet: number, row: number, column: number): Value {
    const frame: Frame = {
      reader: this,
      sheet,
      row,
      column,
      locals: compiled.locals > 0 ? new Array<Value>(compiled.locals).fill(null) : [],
    };
    return compiled.run(frame);
  }

  #store(cell: FormulaCell, value: Value): void {
    const size = this.where.blocks.sizes.get(cell.key);
    const [rows, columns] = value instanceof Block ? [value.rows, value.columns] : [1, 1];
    if (rows !== (size?.rows ?? 1) || columns !== (size?.columns ?? 1))
      cannot("a formula that fills another block of cells than it does now");
    if (!(value instanceof Block)) {
      this.#setResult(cell.key, value ?? 0);
      return;
    }
    const block = kept(value);
    for (let r = 0; r < rows; r++)
      for (let c = 0; c < columns; c++)
        this.#setResult(keyOf(cell.sheet, cell.row + r, cell.column + c), block.at(r, c) ?? 0);
  }

  /** The result of a cell, and of the block it fills. */
  #keep(key: number, result: CannotCompute): void {
    const { rows, columns } = this.where.blocks.sizes.get(key) ?? { rows: 1, columns: 1 };
    const { sheet, row, column } = placeOfKey(key);
    for (let r = 0; r < rows; r++)
      for (let c = 0; c < columns; c++) this.#setResult(keyOf(sheet, row + r, column + c), result);
  }
}

/** A value as a cell shows it. */
export function told(value: Scalar): Computed {
  return value instanceof Fault
    ? { value: null, error: { code: value.code, ...(value.message !== undefined && { message: value.message }) } }
    : { value };
}

/** A block with every cell read. */
function kept(block: Block): Block {
  for (let r = 0; r < block.rows; r++) for (let c = 0; c < block.columns; c++) block.at(r, c);
  return block;
}
