import type { Change } from "../../cells/index.ts";
import { faultOfInput } from "../../sheet/index.ts";
import { inputName, type InputNow, type SheetInput } from "./sheetInputs.ts";

/**
 * How an input is changed: to a value (a number in its own unit, or a choice), by an amount in its unit, or by per
 * cent of what it holds.
 */
export type Amount =
  | { readonly kind: "to"; readonly value: number | string | null }
  | { readonly kind: "by"; readonly value: number }
  | { readonly kind: "percent"; readonly value: number };

/** A change of an input: of all its cells, or of the one with this number. */
export interface InputChange {
  readonly input: SheetInput;
  readonly cell?: number;
  readonly amount: Amount;
}

/** Values that an input may not take; nothing was computed. */
export class NotAllowed extends Error {
  override readonly name = "NotAllowed";
  constructor(readonly messages: readonly string[]) {
    super(messages.join("\n"));
  }
}

/** The value of one cell after a change, or why it may not be changed so. */
export function valueAfter(
  input: SheetInput,
  cell: InputNow,
  amount: Amount,
): { readonly value: number | string | null } | { readonly fault: string } {
  const name = inputName(input, cell);
  let value: number | string | null;
  if (amount.kind === "to") value = amount.value;
  else if (input.kind === "choice") return { fault: `${name} is a choice; state one of them: ${input.allowed}` };
  else if (typeof cell.value !== "number")
    return { fault: `${name} holds no number to be changed by an amount; state a value` };
  else if (!Number.isFinite(amount.value)) return { fault: `${name}: the amount is not a number` };
  else if (amount.kind === "percent" && cell.value === 0)
    return { fault: `${name} is 0, of which a per cent is nothing; state a value or an amount` };
  else value = amount.kind === "by" ? cell.value + amount.value : cell.value * (1 + amount.value / 100);
  // An input that must be given may be emptied too: the sheet then says INCOMPLETE.
  const fault = faultOfInput(value, cell.cell);
  return fault === undefined ? { value } : { fault: `${name} ${fault}` };
}

/** The cells of the sheet that changes of inputs come to. Throws NotAllowed with every reason where an input may not take its value. */
export function cellChanges(
  sheet: string,
  changes: readonly InputChange[],
): readonly (Change & { readonly input: SheetInput; readonly from: InputNow })[] {
  const faults: string[] = [];
  const out = changes.flatMap(({ input, cell, amount }) =>
    (cell === undefined ? input.cells : input.cells.slice(cell, cell + 1)).flatMap((from) => {
      const after = valueAfter(input, from, amount);
      if ("fault" in after) {
        faults.push(after.fault);
        return [];
      }
      return [{ sheet, ...from.at, value: after.value === "" ? null : after.value, input, from }];
    }),
  );
  if (faults.length > 0) throw new NotAllowed(faults);
  return out;
}
