import type { Place } from "../address/place.ts";
import { agreesWithHost } from "../values/agreement.ts";
import { Fault, type Scalar } from "../values/values.ts";
import type { Book } from "./book.ts";
import { Calculation, told, type Computed } from "./calculation.ts";
import type { FormulaCell } from "./formulas.ts";
import { FromShown } from "./fromShown.ts";

/** A cell whose value is not what its formula gives. */
export interface Difference {
  readonly place: Place;
  readonly formula: string;
  readonly host: Computed;
  readonly computed: Computed;
  /** The formula runs into an error that the host passes over, as some do where a cell that holds an error is compared. */
  readonly passedOver: boolean;
  /** Values that agree to a relative 1e-9, but not to the last digits, decide which of the two values it is. */
  readonly byLastDigits: boolean;
}

export interface AgainstHost {
  /** How many formulas were computed and compared. */
  readonly compared: number;
  readonly differences: readonly Difference[];
  /** Formulas that cannot be computed here, each with the reason. */
  readonly notCompared: readonly { readonly place: Place; readonly formula: string; readonly why: string }[];
}

const scalar = ({ value, error }: Computed): Scalar => (error ? new Fault(error.code, error.message) : value);

type Verdict = { readonly computed: Computed; readonly byLastDigits: boolean } | undefined;

/** Whether a shown value counts as another than its formula gives: computed anew, and from the values shown. */
function verdict(shown: FromShown, { key }: FormulaCell, anew: Computed, same: boolean): Verdict {
  const { standing, gives } = shown.of(key);
  if (same && (standing !== "differs" || gives === undefined)) return undefined;
  const before = shown.before(key);
  const untrue = before === "differs" || before === "cannot";
  // What the formulas give anew, though not from what is shown: the cells it reads are told of, unless they agree.
  if (same) return untrue ? undefined : { computed: told(gives!), byLastDigits: before === "nearly" };
  if (standing === "follows" && before === "follows") return undefined;
  return { computed: anew, byLastDigits: standing !== "differs" && !untrue };
}

/**
 * Holds every formula of a book against the value that the host shows. Each is computed from the values shown in the
 * cells it reads, and must give the shown value to the last digits that programs keep. Only where one does not, all is
 * computed anew from the typed cells: what differs then (numbers by more than a relative 1e-9, texts and errors at all)
 * is a difference, unless the cell and all that it depends on follow from what is shown to the last digits.
 */
export function valuesAgainstHost(book: Book): AgainstHost {
  const shown = new FromShown(book);
  if (shown.allFollow()) return { compared: book.formulas.cells.size, differences: [], notCompared: [] };
  const calculation = new Calculation(book, [], { everything: true });
  const differences: Difference[] = [];
  const notCompared: { place: Place; formula: string; why: string }[] = [];
  let compared = 0;
  for (const cell of book.formulas.cells.values()) {
    const { sheet, row, column, formula } = cell;
    const place = { sheet: book.sheets[sheet]!.sheet, row, column };
    const anew = calculation.valueAt(place);
    if (anew.cannot !== undefined) {
      notCompared.push({ place, formula, why: anew.cannot });
      continue;
    }
    compared++;
    const found = verdict(shown, cell, anew, agreesWithHost(scalar(anew), book.hostValue(sheet, row, column)));
    if (!found) continue;
    const { value, error } = book.content(sheet, row, column);
    const host = { value, ...(error && { error }) };
    const passedOver = found.computed.error !== undefined && !error;
    differences.push({ place, formula, host, passedOver, ...found });
  }
  return { compared, differences, notCompared };
}
