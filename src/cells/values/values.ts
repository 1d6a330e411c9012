/** An error as a value: it travels through whatever uses it. */
export class Fault {
  constructor(
    readonly code: string,
    readonly message?: string,
  ) {}
}

/** What one cell or one element of an array holds; null is blank. */
export type Scalar = number | string | boolean | null | Fault;

/** Rows and columns of values: cells of a sheet, or an array. */
export abstract class Block {
  constructor(
    readonly rows: number,
    readonly columns: number,
  ) {}
  abstract at(row: number, column: number): Scalar;
}

export type Value = Scalar | Block;

/** An array that stands in no cells. */
export class Rows extends Block {
  constructor(private readonly cells: readonly (readonly Scalar[])[]) {
    super(cells.length, cells[0]?.length ?? 0);
  }

  override at(row: number, column: number): Scalar {
    return this.cells[row]![column]!;
  }
}

/**
 * What cannot be computed here. Thrown, so that no function can make a value of it: whatever reads such a cell cannot
 * be computed either.
 */
export class CannotCompute extends Error {
  override readonly name = "CannotCompute";
}

/** Throws CannotCompute with what it is that cannot be computed. */
export function cannot(what: string): never {
  throw new CannotCompute(`cannot be computed here: ${what}`);
}

export const divisionByZero = new Fault("#DIV/0!");
export const wrongValue = new Fault("#VALUE!");
export const wrongNumber = new Fault("#NUM!");
export const wrongReference = new Fault("#REF!");
export const notFound = new Fault("#N/A");

/** What stands in a value's cells one after another, row by row. */
export function* each(value: Value): Generator<Scalar> {
  if (!(value instanceof Block)) {
    yield value;
    return;
  }
  for (let r = 0; r < value.rows; r++) for (let c = 0; c < value.columns; c++) yield value.at(r, c);
}

/** The single value of a value: a block of one cell is that cell; undefined for larger blocks. */
export function single(value: Value): Scalar | undefined {
  if (!(value instanceof Block)) return value;
  return value.rows === 1 && value.columns === 1 ? value.at(0, 0) : undefined;
}

/** Applies a function of single values element by element where one of them is a block; blocks of one row or column repeat. */
export function broadcast(values: readonly Value[], f: (...scalars: Scalar[]) => Scalar): Value {
  let rows = 1;
  let columns = 1;
  let blocks = false;
  for (const value of values) {
    if (!(value instanceof Block)) continue;
    if (value.rows > 1 || value.columns > 1) blocks = true;
    rows = Math.max(rows, value.rows);
    columns = Math.max(columns, value.columns);
  }
  if (!blocks) return f(...values.map((value) => single(value)!));
  const element = (value: Value, r: number, c: number): Scalar => {
    if (!(value instanceof Block)) return value;
    const row = value.rows === 1 ? 0 : r;
    const column = value.columns === 1 ? 0 : c;
    return row < value.rows && column < value.columns ? value.at(row, column) : notFound;
  };
  return new Rows(
    Array.from({ length: rows }, (_r, r) =>
      Array.from({ length: columns }, (_c, c) => f(...values.map((value) => element(value, r, c)))),
    ),
  );
}
