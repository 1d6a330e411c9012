import type { Snapshot } from "./snapshot.ts";
import type { OwnFunctions } from "../functions/index.ts";
import { compile, type Compiled } from "./compile.ts";
import type { CellArea, Whereabouts } from "../values/frame.ts";
import { patternOf } from "./pattern.ts";

const columnsPerRow = 2 ** 14;
const cellsPerSheet = 2 ** 34;

/**
 * Nearly all cells stand on one of the first sheets within so many rows and columns. Their numbers fit into 31 bits:
 * maps and sets find such numbers several times as fast as larger ones, which are objects to the machine.
 */
const [rowBits, columnBits, sheetBits] = [16, 9, 6] as const;
const beyond = 2 ** (rowBits + columnBits + sheetBits);

/** One number a cell of a book. */
export function keyOf(sheet: number, row: number, column: number): number {
  if (row >>> rowBits === 0 && column >>> columnBits === 0 && sheet >>> sheetBits === 0)
    return (sheet << (rowBits + columnBits)) | (row << columnBits) | column;
  // Sheets that no book holds may have the number −1.
  return beyond + (sheet + 1) * cellsPerSheet + row * columnsPerRow + column;
}

/** The cell of a number that `keyOf` gave. */
export function placeOfKey(key: number): { readonly sheet: number; readonly row: number; readonly column: number } {
  if (key < beyond)
    return {
      sheet: key >>> (rowBits + columnBits),
      row: (key >>> columnBits) & (2 ** rowBits - 1),
      column: key & (2 ** columnBits - 1),
    };
  const far = key - beyond;
  const within = far % cellsPerSheet;
  return {
    sheet: Math.floor(far / cellsPerSheet) - 1,
    row: Math.floor(within / columnsPerRow),
    column: within % columnsPerRow,
  };
}

/** A cell with a formula, and the cells and ranges it can read. */
export interface FormulaCell {
  readonly key: number;
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly formula: string;
  readonly compiled: Compiled;
  readonly reads: readonly number[];
  /** Numbers of ranges. */
  readonly ranges: readonly number[];
  /** Why it may read more than that. */
  readonly unfollowable?: string;
}

/** What was asked for last, in two generations: once the younger is full the older one goes. */
class Recent<T> {
  #young = new Map<string, T>();
  #old = new Map<string, T>();

  constructor(private readonly most: number) {}

  get(key: string): T | undefined {
    const young = this.#young.get(key);
    if (young !== undefined) return young;
    const old = this.#old.get(key);
    return old === undefined ? undefined : this.keep(key, old);
  }

  keep(key: string, value: T): T {
    if (this.#young.size >= this.most) {
      this.#old = this.#young;
      this.#young = new Map();
    }
    this.#young.set(key, value);
    return value;
  }
}

/** Of one formula in so many cells beside its first. */
const mostCells = 10_000;

/** What a formula came to in the cells it stands in; nearly always that is one. */
interface InCells {
  readonly cell: number;
  readonly compiled: Compiled;
  others?: Map<number, Compiled>;
}

interface Known {
  readonly byPattern: Recent<Compiled>;
  /** By formula and cell: the same sheet is read again after each edit, and finding a formula's pattern takes most of that. */
  readonly byFormula: Recent<InCells>;
}
const known = new WeakMap<OwnFunctions, Known>();

/** A formula ready to be evaluated in its cell; read once for all cells filled down from one another. */
export function compiledFor(formula: string, row: number, column: number, functions: OwnFunctions): Compiled {
  const all: Known = known.get(functions) ?? {
    byPattern: new Recent<Compiled>(10_000),
    byFormula: new Recent<InCells>(150_000),
  };
  known.set(functions, all);
  const { byPattern, byFormula } = all;
  const cell = keyOf(0, row, column);
  const inCells = byFormula.get(formula);
  const before = inCells?.cell === cell ? inCells.compiled : inCells?.others?.get(cell);
  if (before) return before;
  const pattern = patternOf(formula, row, column);
  const compiled = byPattern.get(pattern) ?? byPattern.keep(pattern, compile(formula, row, column, functions));
  if (inCells) {
    const others = (inCells.others ??= new Map<number, Compiled>());
    if (others.size >= mostCells) others.clear();
    others.set(cell, compiled);
  } else byFormula.keep(formula, { cell, compiled });
  return compiled;
}

/** Who reads what, turned round from what each formula reads. */
interface Readers {
  readonly ofCell: ReadonlyMap<number, readonly number[]>;
  readonly ofRange: readonly (readonly number[])[];
  /** Numbers of the ranges that lie over a column. */
  readonly overColumn: ReadonlyMap<number, readonly number[]>;
}

function push<K>(map: Map<K, number[]>, key: K, value: number): void {
  const before = map.get(key);
  if (before) before.push(value);
  else map.set(key, [value]);
}

/** The formulas of some sheets: which cells each reads, and which formulas read a cell. */
export class Formulas {
  readonly cells = new Map<number, FormulaCell>();
  readonly ranges: CellArea[] = [];
  /** Formulas whose reading cannot be told, so that any change may concern them. */
  readonly unfollowable: FormulaCell[] = [];
  readonly #rangeNumbers = new Map<string, number>();
  /** Made when it is first asked for: a sheet that is computed whole never asks. */
  #readers: Readers | undefined;

  /** `of`: how many of the sheets are read; of those after them only the values are wanted. */
  constructor(
    private readonly where: Whereabouts,
    sheets: readonly Snapshot[],
    private readonly functions: OwnFunctions,
    of = sheets.length,
  ) {
    sheets.slice(0, of).forEach(({ cells }, sheet) =>
      cells.forEach((row, r) =>
        row.forEach(({ formula }, c) => {
          if (formula !== undefined) this.#add(sheet, r, c, formula);
        }),
      ),
    );
  }

  #keys: ReadonlySet<number> | undefined;

  /** The numbers of all cells with a formula: one set for all calculations on them. */
  get keys(): ReadonlySet<number> {
    return (this.#keys ??= new Set(this.cells.keys()));
  }

  /** The cells and ranges a formula can read where it stands. */
  reading(
    compiled: Compiled,
    sheet: number,
    row: number,
    column: number,
  ): Pick<FormulaCell, "reads" | "ranges" | "unfollowable"> {
    const reads: number[] = [];
    const ranges: number[] = [];
    let { unfollowable } = compiled;
    for (const reference of compiled.references) {
      const area = reference(this.where, sheet, row, column);
      if (typeof area === "string") unfollowable ??= area;
      else if (area.rows === 1 && area.columns === 1) reads.push(keyOf(area.sheet, area.row, area.column));
      else ranges.push(this.#rangeNumber(area));
    }
    return { reads, ranges, ...(unfollowable !== undefined && { unfollowable }) };
  }

  /** The formulas that read a cell; ranges already followed are left out and noted. */
  readersOf(key: number, followed: Set<number>): readonly number[] {
    const { ofCell, ofRange, overColumn } = (this.#readers ??= this.#turnedRound());
    const out = [...(ofCell.get(key) ?? [])];
    const { sheet, row, column } = placeOfKey(key);
    for (const number of overColumn.get(sheet * columnsPerRow + column) ?? []) {
      const range = this.ranges[number]!;
      if (row < range.row || row >= range.row + range.rows || followed.has(number)) continue;
      followed.add(number);
      out.push(...ofRange[number]!);
    }
    return out;
  }

  #add(sheet: number, row: number, column: number, formula: string): void {
    const compiled = compiledFor(formula, row, column, this.functions);
    const key = keyOf(sheet, row, column);
    const cell: FormulaCell = {
      key,
      sheet,
      row,
      column,
      formula,
      compiled,
      ...this.reading(compiled, sheet, row, column),
    };
    this.cells.set(key, cell);
    if (cell.unfollowable !== undefined) this.unfollowable.push(cell);
  }

  #turnedRound(): Readers {
    const ofCell = new Map<number, number[]>();
    const ofRange: number[][] = this.ranges.map(() => []);
    const overColumn = new Map<number, number[]>();
    for (const { key, reads, ranges } of this.cells.values()) {
      for (const read of reads) push(ofCell, read, key);
      for (const range of ranges) ofRange[range]!.push(key);
    }
    this.ranges.forEach(({ sheet, column, columns }, number) => {
      for (let c = column; c < column + columns; c++) push(overColumn, sheet * columnsPerRow + c, number);
    });
    return { ofCell, ofRange, overColumn };
  }

  #rangeNumber(area: CellArea): number {
    const text = `${area.sheet},${area.row},${area.column},${area.rows},${area.columns}`;
    const before = this.#rangeNumbers.get(text);
    if (before !== undefined) return before;
    const number = this.ranges.length;
    this.ranges.push(area);
    this.#rangeNumbers.set(text, number);
    return number;
  }
}
