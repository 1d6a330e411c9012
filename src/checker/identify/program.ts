import {
  Block,
  CannotCompute,
  compileTree,
  keyOf,
  parseFormula,
  placeOfKey,
  partsOf,
  single,
  withNumbers,
  withPrefix,
  type Book,
  type CellArea,
  type Compiled,
  type FormulaCell,
  type FormulaNode,
  type Frame,
  type Reader,
  type Scalar,
  type Value,
  type Whereabouts,
} from "../../cells/index.ts";
import { Arithmetic } from "./arithmetic.ts";

/** A number typed inside a formula. */
export interface TypedNumber {
  /** The cell whose formula it is in. */
  readonly cell: number;
  readonly value: number;
  /** May it be an argument, or is it a power of ten, an exponent and the like? */
  readonly couldBeArgument: boolean;
}

/** No cell of the book lies on it: where typed numbers and parts of formulas stand that are tried with other values. */
const sheetOfNumbers = -1;
const nameOfNumbers = "typed numbers";
const rowOfPart = 999_999;

/** The key of a part of the formula that is an input as a whole. */
export const partKey = keyOf(sheetOfNumbers, rowOfPart, 0);

/** What stands in a formula in place of a part that is an input as a whole. */
const textOfPart = `'${nameOfNumbers}'!$A$${rowOfPart + 1}`;
export const partReference: FormulaNode = { type: "ReferenceIdentifier", kind: "range", value: textOfPart };

const isPlain = (value: number): boolean =>
  value === 0 || value === 2 || Math.abs(Math.log10(Math.abs(value)) - Math.round(Math.log10(Math.abs(value)))) < 1e-12;

/** The parts of a tree that are exponents, or turn degrees into radians. */
function setApart(tree: FormulaNode): ReadonlySet<FormulaNode> {
  const apart = new Set<FormulaNode>();
  const all = (node: FormulaNode | null | undefined): void => {
    if (node) for (const part of partsOf(node)) apart.add(part);
  };
  for (const part of partsOf(tree)) {
    if (part.type === "BinaryExpression" && part.operator === "^") all(part.arguments[1]);
    if (part.type === "CallExpression" && part.callee.name?.toUpperCase() === "POWER") all(part.arguments[1]);
    if (part.type === "Literal" && part.value === 180) apart.add(part);
  }
  return apart;
}

interface Opened {
  readonly compiled: Compiled;
  readonly numbers: readonly TypedNumber[];
}

/** Formulas read with their typed numbers open to be changed, each once. */
const opened = new WeakMap<Book, Map<number, Opened>>();

function openedFormula(book: Book, cell: FormulaCell): Opened {
  const known = opened.get(book) ?? new Map<number, Opened>();
  opened.set(book, known);
  const before = known.get(cell.key);
  if (before) return before;
  const made = openedTree(book, cell, parseFormula(withPrefix(cell.formula)));
  known.set(cell.key, made);
  return made;
}

function openedTree(book: Book, { key, row, column }: FormulaCell, tree: FormulaNode): Opened {
  const apart = setApart(tree);
  const numbers: TypedNumber[] = [];
  const changed = withNumbers(tree, (number) => {
    const value = number.value as number;
    numbers.push({ cell: key, value, couldBeArgument: !isPlain(value) && !apart.has(number) });
    // The place among the numbers of this formula; the program knows which formula is computed.
    return { type: "ReferenceIdentifier", kind: "range", value: `'${nameOfNumbers}'!$A$${numbers.length}` };
  });
  return { compiled: compileTree(changed, row, column, book.functions), numbers };
}

/** A formula with the formulas that feed it, as a function of some of the cells at their ends. */
export class Program implements Reader {
  readonly where: Whereabouts;
  /** Cells with formulas that are computed, the whole of what is followed. */
  readonly steps: readonly FormulaCell[];
  readonly #values = new Map<number, number>();
  readonly #results = new Map<number, Scalar>();
  readonly #opened = new Map<number, Opened>();
  readonly #changes = new Map<string, number>();
  /** The same without the calculation of cells, where the formulas are plain enough. */
  readonly #arithmetic: Arithmetic | undefined;
  #running: number;

  constructor(
    private readonly book: Book,
    private readonly cell: FormulaCell,
    /** The cells that are inputs: what lies behind them is not followed. */
    readonly inputs: readonly number[],
    steps: readonly FormulaCell[],
    /** The formula around a part of it that is an input as a whole. */
    private readonly around?: FormulaNode,
  ) {
    this.steps = steps;
    this.#running = cell.key;
    this.#arithmetic = Arithmetic.of(book, {
      cell,
      inputs,
      steps,
      ...(around && { around: { tree: around, text: textOfPart, key: partKey } }),
    });
    this.where = {
      sheetNumber: (name) => (name === nameOfNumbers ? sheetOfNumbers : book.sheetNumber(name)),
      nameArea: (name, sheet): CellArea | undefined => book.nameArea(name, sheet),
      used: (sheet) => book.used(sheet),
    };
  }

  /** The numbers typed in the formulas followed; from then on they can be changed. */
  open(): readonly TypedNumber[] {
    for (const step of this.steps)
      this.#opened.set(
        step.key,
        this.around ? openedTree(this.book, step, this.around) : openedFormula(this.book, step),
      );
    return this.steps.flatMap(({ key }) => this.#opened.get(key)!.numbers);
  }

  /** Puts another value in place of a typed number (counted within all that `open` gave); undefined: its own again. */
  change(number: number, value: number | undefined): void {
    if (this.#arithmetic) return this.#arithmetic.change(number, value);
    let left = number;
    for (const { key } of this.steps) {
      const { numbers } = this.#opened.get(key)!;
      if (left < numbers.length) {
        if (value === undefined) this.#changes.delete(`${key},${left}`);
        else this.#changes.set(`${key},${left}`, value);
        return;
      }
      left -= numbers.length;
    }
  }

  /** The value with these inputs; NaN where it is no number. */
  run(values: ArrayLike<number>): number {
    return this.#arithmetic ? this.#arithmetic.run(values) : this.runAsCells(values);
  }

  /** By the calculation of cells, whatever the formulas hold. */
  runAsCells(values: ArrayLike<number>): number {
    this.#results.clear();
    for (let i = 0; i < this.inputs.length; i++) this.#values.set(this.inputs[i]!, values[i]!);
    try {
      const value = this.#compute(this.cell);
      return typeof value === "number" ? value : NaN;
    } catch (error) {
      // What the calculation of cells cannot compute has no value here.
      if (!(error instanceof CannotCompute)) throw error;
      return NaN;
    }
  }

  read(sheet: number, row: number, column: number): Scalar {
    if (sheet === sheetOfNumbers) {
      if (row === rowOfPart) return this.#values.get(partKey) ?? null;
      const changed = this.#changes.size > 0 ? this.#changes.get(`${this.#running},${row}`) : undefined;
      return changed ?? this.#opened.get(this.#running)!.numbers[row]!.value;
    }
    const key = keyOf(sheet, row, column);
    const given = this.#values.get(key);
    if (given !== undefined) return given;
    const before = this.#results.get(key);
    if (before !== undefined) return before;
    const formula = this.book.formulas.cells.get(key);
    return formula ? this.#compute(formula) : this.book.hostValue(sheet, row, column);
  }

  #compute(cell: FormulaCell): Scalar {
    const compiled = this.#opened.get(cell.key)?.compiled ?? cell.compiled;
    const frame: Frame = {
      reader: this,
      sheet: cell.sheet,
      row: cell.row,
      column: cell.column,
      locals: new Array<Value>(compiled.locals),
    };
    const outer = this.#running;
    this.#running = cell.key;
    const value = compiled.run(frame);
    const scalar = value instanceof Block ? (single(value) ?? null) : value;
    this.#running = outer;
    this.#results.set(cell.key, scalar);
    return scalar;
  }
}

/** The cells that a formula reads directly, in the order they are written. */
export function readBy(book: Book, { reads, ranges }: FormulaCell): readonly number[] {
  const out = new Set(reads);
  for (const number of ranges) {
    const area = book.formulas.ranges[number]!;
    for (let r = 0; r < area.rows; r++)
      for (let c = 0; c < area.columns; c++) out.add(keyOf(area.sheet, area.row + r, area.column + c));
  }
  return [...out];
}

/** What a cell holds by its number. */
export function valueAt(book: Book, key: number): Scalar {
  const { sheet, row, column } = placeOfKey(key);
  return book.hostValue(sheet, row, column);
}
