import * as mathjs from "mathjs/number";
import { portableCopies, type PortableCopy, type SheetToCopy } from "../../../src/checker/portable/index.ts";
import { recogniseSnapshot } from "../../../src/checker/recognise/recognise.ts";
import { planValues, type Values } from "../../../src/hosts/index.ts";
import { plannedSnapshot, expand, type Inputs, type Plan, type Template } from "../../../src/sheet/index.ts";

export const facts = { when: "1 January 2026, 12:00", host: "the grid" };

/** A planned sheet with its values, as it is copied. */
export async function toCopy(plan: Plan, sheet: string): Promise<SheetToCopy> {
  const values: Values = planValues(plan, sheet)!;
  const formats = Array.from({ length: plan.rows }, () => Array.from({ length: plan.columns }, () => "General"));
  for (const { row, column, format } of plan.cells) if (format !== undefined) formats[row]![column] = format;
  const snapshot = { ...plannedSnapshot(plan, sheet), cells: values };
  const looks = { formats, hiddenRows: [], hiddenColumns: [], sameColour: [], tooSmall: [] };
  return { snapshot, looks, recognised: await recogniseSnapshot(snapshot) };
}

export async function copyOf(template: Template, inputs: Inputs = {}): Promise<PortableCopy & { readonly original: Plan }> {
  const original = expand(template, { ...template.example.inputs, ...inputs });
  const [copy] = portableCopies([await toCopy(original, "Beam")], facts, mathjs as never);
  return { ...copy!, original };
}
