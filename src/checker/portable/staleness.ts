import { Book, keyOf, placeOfKey, type FormulaCell, type Place, type Snapshot } from "../../cells/index.ts";
import { ourFunctions } from "../../../functions/index.ts";

/** What a formula of a copy is: it computes, it stays a value, or it stays a text that only warns. */
export type Standing = "computes" | "stays" | "warns";

/** Inputs as a set of their numbers. */
type Inputs = bigint;

/** Which inputs what stays on a copy depends on. */
export class Staleness {
  readonly #book: Book;
  readonly #upstream = new Map<number, Inputs>();
  readonly #stale = new Map<number, Inputs>();
  readonly #warned = new Map<number, Inputs>();
  readonly #ranges = new Map<string, Inputs>();
  readonly #inputs = new Map<number, number>();
  readonly inputs: readonly Place[];

  constructor(
    sheets: readonly Snapshot[],
    isInput: (place: Place) => boolean,
    private readonly standing: (place: Place) => Standing,
  ) {
    this.#book = new Book(sheets, ourFunctions);
    const inputs: Place[] = [];
    sheets.forEach(({ sheet, cells }, number) =>
      cells.forEach((row, r) =>
        row.forEach((cell, c) => {
          const place = { sheet, row: r, column: c };
          if (cell.formula !== undefined || !isInput(place)) return;
          this.#inputs.set(keyOf(number, r, c), inputs.length);
          inputs.push(place);
        }),
      ),
    );
    this.inputs = inputs;
  }

  /** All that a formula reads, through one map or another. */
  #through(cell: FormulaCell, known: Map<number, Inputs>, of: (key: number) => Inputs, kind: string): Inputs {
    let all: Inputs = 0n;
    for (const key of cell.reads) all |= of(key);
    for (const number of cell.ranges) {
      const name = `${kind} ${number}`;
      let inRange = this.#ranges.get(name);
      if (inRange === undefined) {
        inRange = 0n;
        const { sheet, row, column, rows, columns } = this.#book.formulas.ranges[number]!;
        for (let r = row; r < row + rows; r++)
          for (let c = column; c < column + columns; c++) inRange |= of(keyOf(sheet, r, c));
        this.#ranges.set(name, inRange);
      }
      all |= inRange;
    }
    known.set(cell.key, all);
    return all;
  }

  #placeOf(key: number): Place {
    const { sheet, row, column } = placeOfKey(key);
    return { sheet: this.#book.sheets[sheet]!.sheet, row, column };
  }

  #upstreamOf = (key: number): Inputs => {
    const known = this.#upstream.get(key);
    if (known !== undefined) return known;
    const input = this.#inputs.get(key);
    if (input !== undefined) return 1n << BigInt(input);
    const cell = this.#book.formulas.cells.get(key);
    if (!cell) return 0n;
    // A formula in a circle adds nothing to itself.
    this.#upstream.set(key, 0n);
    return this.#through(cell, this.#upstream, this.#upstreamOf, "upstream");
  };

  #staleOf = (key: number): Inputs => {
    const known = this.#stale.get(key);
    if (known !== undefined) return known;
    const cell = this.#book.formulas.cells.get(key);
    if (!cell) return 0n;
    this.#stale.set(key, 0n);
    const standing = this.standing(this.#placeOf(key));
    if (standing === "warns") return 0n;
    if (standing === "stays") {
      const all = this.#upstreamOf(key);
      this.#stale.set(key, all);
      return all;
    }
    return this.#through(cell, this.#stale, this.#staleOf, "stale");
  };

  #warnedOf = (key: number): Inputs => {
    const known = this.#warned.get(key);
    if (known !== undefined) return known;
    const cell = this.#book.formulas.cells.get(key);
    if (!cell) return 0n;
    this.#warned.set(key, 0n);
    if (this.standing(this.#placeOf(key)) === "warns") {
      const all = this.#upstreamOf(key);
      this.#warned.set(key, all);
      return all;
    }
    return this.#through(cell, this.#warned, this.#warnedOf, "warned");
  };

  /** The inputs that a cell depends on by way of values that stay; 0 where it follows all its inputs. */
  staleAt(place: Place): bigint {
    return this.#staleOf(this.#book.keyOf(place));
  }

  /** The inputs it depends on by way of warnings that stay. */
  warnedAt(place: Place): bigint {
    return this.#warnedOf(this.#book.keyOf(place));
  }
}

/** The numbers in a set of inputs. */
export function numbersIn(set: bigint): readonly number[] {
  const out: number[] = [];
  for (let i = 0, rest = set; rest > 0n; i++, rest >>= 1n) if (rest & 1n) out.push(i);
  return out;
}
