import { agreesToLastDigits, agreesWithHost, differsByRounding } from "../values/agreement.ts";
import type { Frame } from "../values/frame.ts";
import { Block, cannot, CannotCompute, single, type Scalar, type Value } from "../values/values.ts";
import type { Book } from "./book.ts";
import { mayCircle } from "./circles.ts";
import { keyOf, type FormulaCell } from "./formulas.ts";

/**
 * How a shown value relates to what its formula gives from the values shown in the cells it reads: it `follows` to the
 * last digits, `nearly` to a relative 1e-9, it `differs`, or that `cannot` be computed here. In the order of trust.
 */
const standings = ["follows", "nearly", "differs", "cannot"] as const;
type Standing = (typeof standings)[number];

const worse = (a: Standing, b: Standing): Standing => (standings.indexOf(a) < standings.indexOf(b) ? b : a);

type Reading = Frame["reader"]["read"];
interface How {
  readonly read?: Reading;
  readonly fifteenDigits?: true;
}

interface Judged {
  readonly standing: Standing;
  /** What the formula gives; undefined where it cannot be computed, and for a formula that fills several cells. */
  readonly gives?: Scalar;
}

/**
 * Every formula of a book, each computed by itself from the values that the host shows. Where each follows from those
 * it reads, the sheet is right to the rounding of each formula: no error adds up unseen, and which of equal values is
 * the highest is as the host has it.
 */
export class FromShown {
  readonly #judged = new Map<number, Judged>();
  /** The worst standing of all that a cell depends on, where it was asked for. */
  readonly #before = new Map<number, Standing>();

  constructor(private readonly book: Book) {
    for (const cell of book.formulas.cells.values()) this.#judged.set(cell.key, this.#judge(cell));
  }

  /** Whether every formula follows from the values shown, and none from itself. */
  allFollow(): boolean {
    for (const { standing } of this.#judged.values()) if (standing !== "follows") return false;
    return !mayCircle(this.book);
  }

  of(key: number): Judged {
    return this.#judged.get(key)!;
  }

  /** The worst standing of all that a cell depends on, at whatever distance. */
  before(key: number): Standing {
    this.#descend(key);
    return this.#before.get(key)!;
  }

  #judge(cell: FormulaCell): Judged {
    try {
      const value = this.#filling(cell, this.#run(cell));
      if (value instanceof Block) return { standing: this.#ofBlock(cell, value) };
      const host = this.book.hostValue(cell.sheet, cell.row, cell.column);
      return { standing: this.#ofCell(cell, value ?? 0, host), gives: value ?? 0 };
    } catch (error) {
      if (error instanceof CannotCompute) return { standing: "cannot" };
      throw error;
    }
  }

  /** The formula cells that a formula really reads, with the values shown. */
  #readsOf(key: number): readonly number[] {
    const { formulas, blocks } = this.book;
    const read = new Set<number>();
    this.#single(formulas.cells.get(key)!, {
      read: (sheet, row, column) => {
        const at = keyOf(sheet, row, column);
        const giver = blocks.first.get(at) ?? at;
        if (formulas.cells.has(giver)) read.add(giver);
        return this.book.hostValue(sheet, row, column);
      },
    });
    return [...read];
  }

  #run({ compiled, sheet, row, column }: FormulaCell, { read, fifteenDigits }: How = {}): Value {
    const shown: Reading = (s, r, c) => this.book.hostValue(s, r, c);
    return compiled.run({
      reader: { where: this.book, read: read ?? shown },
      sheet,
      row,
      column,
      locals: [],
      ...(fifteenDigits && { fifteenDigits }),
    });
  }

  /** A value of the size that its formula fills; a block of one cell is that cell. */
  #filling({ key }: FormulaCell, value: Value): Value {
    const size = this.book.blocks.sizes.get(key);
    const [rows, columns] = value instanceof Block ? [value.rows, value.columns] : [1, 1];
    if (rows !== (size?.rows ?? 1) || columns !== (size?.columns ?? 1))
      cannot("a formula that fills another block of cells than it does now");
    return size ? value : single(value)!;
  }

  #ofBlock({ sheet, row, column }: FormulaCell, block: Block): Standing {
    let standing: Standing = "follows";
    for (let r = 0; r < block.rows; r++) {
      for (let c = 0; c < block.columns; c++) {
        const [given, host] = [block.at(r, c), this.book.hostValue(sheet, row + r, column + c)];
        if (agreesToLastDigits(given, host)) continue;
        standing = worse(standing, agreesWithHost(given, host) ? "nearly" : "differs");
      }
    }
    return standing;
  }

  #ofCell(cell: FormulaCell, gives: Scalar, host: Scalar): Standing {
    if (agreesToLastDigits(gives, host)) return "follows";
    if (typeof gives === "number" && typeof host === "number" && this.#isRounding(cell, gives, host)) return "follows";
    const short = this.#single(cell, { fifteenDigits: true });
    if (short !== undefined && agreesToLastDigits(short, host)) return "follows";
    return agreesWithHost(gives, host) ? "nearly" : "differs";
  }

  #isRounding(cell: FormulaCell, gives: number, host: number): boolean {
    return differsByRounding(gives, host, (by) =>
      this.#single(cell, {
        read: (s, r, c) => {
          const shown = this.book.hostValue(s, r, c);
          return typeof shown === "number" ? shown * by(s, r, c) : shown;
        },
      }),
    );
  }

  #single(cell: FormulaCell, how: How): Scalar | undefined {
    try {
      return single(this.#run(cell, how));
    } catch (error) {
      if (error instanceof CannotCompute) return undefined;
      throw error;
    }
  }

  /** Goes down from a cell to the typed ones, without depth; a circle is left where it closes. */
  #descend(from: number): void {
    if (this.#before.has(from)) return;
    const opened = new Set([from]);
    const path = [{ key: from, read: this.#readsOf(from), next: 0 }];
    for (let top = path.at(-1); top; top = path.at(-1)) {
      const key = top.read[top.next++];
      if (key === undefined) {
        this.#before.set(top.key, this.#worstOf(top.read));
        path.pop();
      } else if (!opened.has(key) && !this.#before.has(key)) {
        opened.add(key);
        path.push({ key, read: this.#readsOf(key), next: 0 });
      }
    }
  }

  #worstOf(read: readonly number[]): Standing {
    return read.reduce<Standing>(
      (worst, key) => worse(worst, worse(this.of(key).standing, this.#before.get(key) ?? "follows")),
      "follows",
    );
  }
}
