import { Calculation, type Address, type Snapshot } from "../cells/index.ts";
import { bookOfPlan } from "../hosts/index.ts";
import { conflict, freeSheetName, type Plan } from "../sheet/index.ts";

/** Inputs of a plan that contradict each other. */
export interface Conflict {
  /** The inputs of which one contradicts another; those of a table with their row. */
  readonly of: readonly { readonly id: string; readonly index: number }[];
  /** With the row of the table in front: "tendon 2: d = 25 mm …". */
  readonly message: string;
}

/**
 * What the status cells of a plan would say about inputs that contradict each other: the same formulas, computed
 * before there is a sheet; `others` are the sheets that a linked one refers to, with their values.
 */
export function conflictsIn(plan: Plan, others: readonly Snapshot[] = []): readonly Conflict[] {
  const judged = plan.conflicts ?? [];
  if (judged.length === 0) return [];
  const sheet = freeSheetName(
    "Sheet1",
    others.map((one) => one.sheet),
  );
  const calculation = new Calculation(bookOfPlan(plan, sheet, others), [], { everything: true });
  const text = (at: Address): string => {
    const { value, cannot } = calculation.valueAt({ sheet, ...at });
    if (cannot !== undefined) throw new Error(`whether inputs contradict each other cannot be told: ${cannot}`);
    return String(value ?? "");
  };
  return judged.flatMap(({ of, where, status, message }) =>
    text(status) === conflict ? [{ of, message: `${where && `${where}: `}${text(message)}` }] : [],
  );
}
