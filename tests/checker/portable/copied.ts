import * as mathjs from "mathjs/number";
import { copiesOfSheets, portableHeadRows, type PortableCopy } from "../../../src/checker/portable/index.ts";
import { planValues, type Values } from "../../../src/hosts/index.ts";
import { expand, type Inputs, type Plan, type Template } from "../../../src/sheet/index.ts";

const facts = { when: "1 January 2026, 12:00", host: "the tests" };

/** A template's example, and its computing copy. */
export async function copyOf(
  template: Template,
  inputs: Inputs = {},
): Promise<PortableCopy & { readonly original: Plan; readonly values: Values }> {
  const original = expand(template, { ...template.example.inputs, ...inputs });
  const values = planValues(original, "Beam")!;
  const [copy] = await copiesOfSheets([{ plan: original, values, sheetName: "Beam" }], facts, mathjs);
  return { ...copy!, original, values };
}

/** The copy with those inputs as a later original has them. */
export function withInputsOf(copy: Plan, before: Plan, later: Plan): Plan {
  const key = (row: number, column: number): string => `${row} ${column}`;
  const old = new Map(before.cells.map((cell) => [key(cell.row, cell.column), cell.value]));
  const changed = new Map(
    later.cells
      .filter((cell) => cell.formula === undefined && old.get(key(cell.row, cell.column)) !== cell.value)
      .map((cell) => [key(cell.row + portableHeadRows, cell.column), cell.value]),
  );
  return {
    ...copy,
    cells: copy.cells.map((cell) =>
      changed.has(key(cell.row, cell.column)) ? { ...cell, value: changed.get(key(cell.row, cell.column))! } : cell,
    ),
  };
}
