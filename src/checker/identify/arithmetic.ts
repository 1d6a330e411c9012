import {
  keyOf,
  parseFormula,
  placeOfKey,
  readCells,
  splitSheet,
  withPrefix,
  type Book,
  type CellArea,
  type FormulaCell,
  type FormulaNode,
} from "../../cells/index.ts";

/** A part of a formula as arithmetic over numbers in places of a store; NaN where a cell would show an error. */
type Sum = (store: Float64Array) => number;

const degrees = 180 / Math.PI;
/** A number that a cell can hold. */
const held = (value: number): number => (Number.isFinite(value) ? value : NaN);
const positive =
  (f: (a: number) => number) =>
  (a: number): number =>
    a > 0 ? f(a) : NaN;

/** Functions of one number. */
const ofOne: Readonly<Record<string, (a: number) => number>> = {
  ABS: Math.abs,
  ATAN: Math.atan,
  COS: Math.cos,
  COSH: Math.cosh,
  DEGREES: (a) => a * degrees,
  EXP: Math.exp,
  LN: positive(Math.log),
  LOG10: positive(Math.log10),
  RADIANS: (a) => a / degrees,
  SIN: Math.sin,
  SINH: Math.sinh,
  SQRT: (a) => (a < 0 ? NaN : Math.sqrt(a)),
  TAN: Math.tan,
  TANH: Math.tanh,
};

function power(base: number, exponent: number): number {
  if (base === 0 && exponent <= 0) return NaN;
  return held(base ** exponent);
}

const ofTwo: Readonly<Record<string, (a: number, b: number) => number>> = {
  "+": (a, b) => held(a + b),
  "-": (a, b) => held(a - b),
  "*": (a, b) => held(a * b),
  "/": (a, b) => held(a / b),
  "^": power,
};

const comparisons: Readonly<Record<string, (a: number, b: number) => boolean>> = {
  "=": (a, b) => a === b,
  "<>": (a, b) => a !== b,
  "<": (a, b) => a < b,
  "<=": (a, b) => a <= b,
  ">": (a, b) => a > b,
  ">=": (a, b) => a >= b,
};

/** Thrown where a formula holds more than this arithmetic; the calculation of cells takes over. */
class More extends Error {}
const more = (): never => {
  throw new More();
};

/** What the parts of a formula stand for. */
interface Around {
  /** The number in a cell; null where the cell is blank or holds a text. */
  readonly read: (key: number) => Sum | null;
  /** The key of what stands in place of a part that is an input as a whole. */
  readonly part: (text: string) => number | undefined;
  readonly area: (text: string, isName: boolean) => CellArea;
  readonly number: (value: number) => Sum;
}

const keysOf = ({ sheet, row, column, rows, columns }: CellArea): readonly number[] =>
  Array.from({ length: rows * columns }, (_, i) => keyOf(sheet, row + Math.floor(i / columns), column + (i % columns)));

function referenceSum(text: string, isName: boolean, around: Around): Sum {
  const part = around.part(text);
  if (part !== undefined) return around.read(part) ?? more();
  const area = around.area(text, isName);
  if (area.rows !== 1 || area.columns !== 1) return more();
  return around.read(keyOf(area.sheet, area.row, area.column)) ?? more();
}

/** Numbers of an argument that may be a range; blanks and texts in a range do not count. */
function sumsOf(argument: FormulaNode | null, around: Around): readonly Sum[] {
  if (argument?.type !== "ReferenceIdentifier" || argument.kind === "table") return [sumOf(argument, around)];
  if (around.part(argument.value) !== undefined) return [sumOf(argument, around)];
  const area = around.area(argument.value, argument.kind === "name");
  const keys = keysOf(area);
  return keys.length > mostInRange ? more() : keys.flatMap((key) => around.read(key) ?? []);
}
const mostInRange = 200;

/** Of several numbers, as they come one after the other. */
const ofMany: Readonly<Record<string, (a: number, b: number) => number>> = {
  MAX: (a, b) => Math.max(a, b),
  MIN: (a, b) => Math.min(a, b),
  PRODUCT: (a, b) => a * b,
  SUM: (a, b) => a + b,
};

function callSum(name: string, given: readonly (FormulaNode | null)[], around: Around): Sum {
  if (name === "PI" && given.length === 0) return () => Math.PI;
  const one = ofOne[name];
  if (one && given.length === 1) {
    const a = sumOf(given[0]!, around);
    return (store) => held(one(a(store)));
  }
  const many = ofMany[name];
  if (many) {
    const [first, ...rest] = given.flatMap((argument) => sumsOf(argument, around));
    if (!first) return more();
    return (store) => {
      let value = first(store);
      for (const next of rest) value = many(value, next(store));
      return value;
    };
  }
  if (name === "POWER" && given.length === 2) {
    const [a, b] = [sumOf(given[0]!, around), sumOf(given[1]!, around)];
    return (store) => power(a(store), b(store));
  }
  if (name === "IF" && given.length === 3) {
    const is = conditionOf(given[0]!, around);
    const [yes, no] = [sumOf(given[1]!, around), sumOf(given[2]!, around)];
    return (store) => {
      const holds = is(store);
      if (holds === undefined) return NaN;
      return holds ? yes(store) : no(store);
    };
  }
  return more();
}

/** A condition; undefined where one of its sides has no value. */
function conditionOf(tree: FormulaNode | null, around: Around): (store: Float64Array) => boolean | undefined {
  const compared = tree?.type === "BinaryExpression" ? comparisons[tree.operator] : undefined;
  if (compared && tree?.type === "BinaryExpression") {
    const [a, b] = [sumOf(tree.arguments[0]!, around), sumOf(tree.arguments[1]!, around)];
    return (store) => {
      const [left, right] = [a(store), b(store)];
      return Number.isNaN(left) || Number.isNaN(right) ? undefined : compared(left, right);
    };
  }
  const name = tree?.type === "CallExpression" ? tree.callee.name?.toUpperCase() : undefined;
  if (tree?.type !== "CallExpression" || (name !== "AND" && name !== "OR") || tree.arguments.length === 0)
    return more();
  const all = tree.arguments.map((argument) => conditionOf(argument, around));
  return (store) => {
    const holds = all.map((one) => one(store));
    if (holds.includes(undefined)) return undefined;
    return name === "AND" ? !holds.includes(false) : holds.includes(true);
  };
}

function sumOf(tree: FormulaNode | null, around: Around): Sum {
  switch (tree?.type) {
    case "Literal":
      return typeof tree.value === "number" ? around.number(tree.value) : more();
    case "ReferenceIdentifier":
      return tree.kind === "table" ? more() : referenceSum(tree.value, tree.kind === "name", around);
    case "UnaryExpression": {
      const a = sumOf(tree.arguments[0]!, around);
      if (tree.operator === "-") return (store) => -a(store);
      if (tree.operator === "%") return (store) => a(store) / 100;
      return tree.operator === "+" ? a : more();
    }
    case "BinaryExpression": {
      const of = ofTwo[tree.operator] ?? more();
      const [a, b] = [sumOf(tree.arguments[0]!, around), sumOf(tree.arguments[1]!, around)];
      return (store) => of(a(store), b(store));
    }
    case "CallExpression":
      return callSum(tree.callee.name?.toUpperCase() ?? "", tree.arguments, around);
    default:
      return more();
  }
}

/** What a reference of a formula on a sheet stands for. */
function areaOf(book: Book, text: string, isName: boolean, from: number): CellArea {
  if (isName) {
    const { sheet: name, rest } = splitSheet(text);
    const sheet = name === undefined ? from : book.sheetNumber(name);
    return (sheet !== undefined && book.nameArea(rest, sheet)) || more();
  }
  const cells = readCells(text);
  if (!cells || cells.book !== undefined) return more();
  const { top, left, bottom, right } = cells;
  if (top === null || left === null || bottom === null || right === null) return more();
  const sheet = cells.sheet === undefined ? from : book.sheetNumber(cells.sheet);
  if (sheet === undefined) return more();
  return { sheet, row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 };
}

/** A formula to be computed, what it follows, and where it stops. */
interface Followed {
  readonly cell: FormulaCell;
  readonly inputs: readonly number[];
  readonly steps: readonly FormulaCell[];
  /** The formula around a part of it that is an input as a whole, and how that part is written and numbered. */
  readonly around?: { readonly tree: FormulaNode; readonly text: string; readonly key: number };
}

/**
 * A formula and those behind it as arithmetic over plain numbers, many times as fast as the calculation of cells. It
 * knows the usual operators and functions of single numbers; of a formula that holds anything else there is none.
 */
export class Arithmetic {
  readonly #store: Float64Array;
  readonly #steps: { readonly at: number; readonly sum: Sum }[] = [];
  readonly #sum: Sum;
  readonly #inputs: number;
  readonly #typed: readonly { readonly at: number; readonly value: number }[];

  private constructor(book: Book, { cell, inputs, steps, around }: Followed) {
    const inputAt = new Map(inputs.map((key, i) => [key, i]));
    const stepOf = new Map(steps.map((step, n) => [step.key, n]));
    const placeOf = new Map<number, number>();
    const busy = new Set<number>();
    const typed = steps.map((): { at: number; value: number }[] => []);
    let next = inputs.length;
    this.#inputs = inputs.length;

    const read = (key: number): Sum | null => {
      const input = inputAt.get(key);
      if (input !== undefined) return (store) => store[input]!;
      const step = stepOf.get(key);
      if (step !== undefined) {
        const at = placeOf.get(step) ?? computed(step);
        return (store) => store[at]!;
      }
      if (book.formulas.cells.has(key)) return more();
      const { sheet, row, column } = placeOfKey(key);
      const value = book.hostValue(sheet, row, column);
      if (typeof value === "number") return () => value;
      return value === null || typeof value === "string" ? null : more();
    };
    const computed = (n: number): number => {
      const sum = built(n);
      const at = next++;
      placeOf.set(n, at);
      this.#steps.push({ at, sum });
      return at;
    };
    const built = (n: number): Sum => {
      if (busy.has(n)) return more();
      busy.add(n);
      const step = steps[n]!;
      return sumOf(around?.tree ?? parseFormula(withPrefix(step.formula)), {
        read,
        part: (text) => (around?.text === text ? around.key : undefined),
        area: (text, isName) => areaOf(book, text, isName, step.sheet),
        number: (value) => {
          const at = next++;
          typed[n]!.push({ at, value });
          return (store) => store[at]!;
        },
      });
    };
    this.#sum = built(stepOf.get(cell.key) ?? more());
    this.#typed = typed.flat();
    this.#store = new Float64Array(next);
    for (const { at, value } of this.#typed) this.#store[at] = value;
    // Whatever was not met would have to be counted among the typed numbers.
    if (busy.size < steps.length) more();
  }

  /** The arithmetic of a formula; undefined where it holds more than that. */
  static of(book: Book, followed: Followed): Arithmetic | undefined {
    try {
      return new Arithmetic(book, followed);
    } catch (error) {
      if (error instanceof More) return undefined;
      throw error;
    }
  }

  /** Puts another value in place of a typed number, in the order of the steps and as written; undefined: its own again. */
  change(number: number, value: number | undefined): void {
    const { at, value: own } = this.#typed[number]!;
    this.#store[at] = value ?? own;
  }

  run(values: ArrayLike<number>): number {
    const store = this.#store;
    for (let i = 0; i < this.#inputs; i++) store[i] = values[i]!;
    for (const { at, sum } of this.#steps) store[at] = sum(store);
    return held(this.#sum(store));
  }
}
