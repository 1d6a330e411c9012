import type { Place } from "../address/place.ts";
import { agreesWithHost } from "../values/agreement.ts";
import type { Book } from "./book.ts";
import { Calculation, type Computed } from "./calculation.ts";
import type { FormulaCell } from "./formulas.ts";
import { isResidue } from "./residue.ts";
import { Fault, type Scalar } from "../values/values.ts";

/** A cell whose value is not what its formula gives. */
export interface Difference {
  readonly place: Place;
  readonly formula: string;
  readonly host: Computed;
  readonly computed: Computed;
  /** The formula runs into an error that the host passes over, as some do where a cell that holds an error is compared. */
  readonly passedOver: boolean;
}

export interface AgainstHost {
  /** How many formulas were computed and compared. */
  readonly compared: number;
  readonly differences: readonly Difference[];
  /** Formulas that cannot be computed here, each with the reason. */
  readonly notCompared: readonly { readonly place: Place; readonly formula: string; readonly why: string }[];
}

const scalar = ({ value, error }: Computed): Scalar => (error ? new Fault(error.code, error.message) : value);

/** Agreement of what was computed with the host: to a relative 1e-9, and where both are but the remainder of a difference. */
function same(book: Book, cell: FormulaCell, computed: Scalar, host: Scalar): boolean {
  if (agreesWithHost(computed, host)) return true;
  return (
    typeof computed === "number" &&
    typeof host === "number" &&
    isResidue(book, cell, Math.max(Math.abs(computed), Math.abs(host)))
  );
}

/**
 * Whether a text is what its formula gives from the values that the host shows. Where all numbers agree, other texts
 * come of rounding alone: which of equal values is the highest, and so at which place.
 */
function givesFromShown(book: Book, { place, host, computed }: Difference): boolean {
  if (typeof host.value !== "string" || typeof computed.value !== "string") return false;
  return new Calculation(book, [], { anew: [place] }).valueAt(place).value === host.value;
}

/**
 * Computes every formula of a book from its own and holds it against the host's value: numbers to a relative 1e-9,
 * texts and errors exactly, but for texts that come of rounding.
 */
export function valuesAgainstHost(book: Book): AgainstHost {
  const calculation = new Calculation(book, [], { everything: true });
  const differences: Difference[] = [];
  const notCompared: { place: Place; formula: string; why: string }[] = [];
  let compared = 0;
  for (const cell of book.formulas.cells.values()) {
    const { sheet, row, column, formula } = cell;
    const place = { sheet: book.sheets[sheet]!.sheet, row, column };
    const computed = calculation.valueAt(place);
    if (computed.cannot !== undefined) {
      notCompared.push({ place, formula, why: computed.cannot });
      continue;
    }
    compared++;
    const { value, error } = book.content(sheet, row, column);
    if (!same(book, cell, scalar(computed), book.hostValue(sheet, row, column)))
      differences.push({
        place,
        formula,
        host: { value, ...(error && { error }) },
        computed,
        passedOver: computed.error !== undefined && !error,
      });
  }
  const rounded = differences.every((one) => one.passedOver || givesFromShown(book, one));
  return { compared, differences: rounded ? differences.filter((one) => one.passedOver) : differences, notCompared };
}
