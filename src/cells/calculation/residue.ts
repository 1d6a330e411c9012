import { nudges } from "../values/agreement.ts";
import type { Book } from "./book.ts";
import type { FormulaCell } from "./formulas.ts";
import { CannotCompute, single } from "../values/values.ts";

/**
 * Whether a number is what rounding leaves of terms that cancel: no larger than what the formula gives away when the
 * numbers it reads move by a
 * relative 1e-9. Two programs need not agree on such a remainder.
 */
export function isResidue(book: Book, { sheet, row, column, compiled }: FormulaCell, value: number): boolean {
  const results = [undefined, ...nudges].map((nudge) => {
    const read = (s: number, r: number, c: number) => {
      const held = book.hostValue(s, r, c);
      return nudge && typeof held === "number" ? held * nudge(r, c) : held;
    };
    try {
      return single(compiled.run({ reader: { where: book, read }, sheet, row, column, locals: [] }));
    } catch (error) {
      if (error instanceof CannotCompute) return undefined;
      throw error;
    }
  });
  const [still, ...moved] = results;
  if (typeof still !== "number") return false;
  return moved.some((other) => typeof other === "number" && Math.abs(other - still) >= Math.abs(value));
}
