import { all, create } from "mathjs/number";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { CellContent, GridHost } from "../../../src/hosts/index.ts";
import { openGridInNode } from "../../../src/hosts/index.ts";
import { expand, type Plan } from "../../../src/sheet/index.ts";
import { templates } from "../../../src/templates/index.ts";
import { inputValues, typedExample } from "../../../taskpane/build/fields.ts";
import {
  agreement,
  evaluateSteps,
  relativeDifference,
  traceCell,
  type TracedCall,
} from "../../../src/checker/index.ts";

const math = create(all!);

/** The form's own path from the invented example to a sheet, and from every cell with a function of ours back to its arguments. */
describe("every function on the example sheet can be traced", () => {
  let host: GridHost;
  let plan: Plan;
  let cells: readonly (readonly CellContent[])[];
  const calls: { readonly address: string; readonly traced: TracedCall; readonly value: CellContent["value"] }[] = [];

  beforeAll(async () => {
    const template = templates[0]!;
    plan = expand(template, inputValues(template, typedExample(template)));
    host = await openGridInNode();
    const { sheet } = await host.apply(plan, { sheetName: "Alder Quay", progress: () => undefined });
    cells = await host.read(sheet, { row: 0, column: 0, rows: plan.rows, columns: plan.columns });
    for (const [row, line] of cells.entries()) {
      for (const [column, cell] of line.entries()) {
        if (!cell.formula?.includes("KERN.")) continue;
        const at = await traceCell(host, { sheet, row, column });
        // Warnings and versions are functions of the workbook, not formulas.
        for (const traced of at.calls.filter((c) => c.call.whole))
          calls.push({ address: at.address, traced, value: cell.value });
      }
    }
  }, 300_000);
  afterAll(() => host.dispose());

  it("finds many of them", () => expect(calls.length).toBeGreaterThan(500));

  it("gives the value of the cell, from the cell's own arguments", () => {
    const bad = calls
      .filter(({ traced }) => traced.formula)
      .filter(
        ({ traced, value }) =>
          typeof value !== "number" || !traced.trace || relativeDifference(value, traced.trace.result) > agreement,
      );
    expect(
      bad.map(
        ({ address, traced, value }) =>
          `${address}: ${traced.call.text} = ${String(value)}, ${traced.refused?.message ?? String(traced.trace?.result)}`,
      ),
    ).toEqual([]);
  });

  it("agrees with the displayed equations, and its searches leave no residual", () => {
    const bad = calls.filter(({ traced: { formula, trace } }) => {
      if (!formula || !trace) return false;
      const second = evaluateSteps(math, formula, trace.values);
      return (
        trace.steps.some((s) => relativeDifference(second[s.name]!, s.value) > agreement) ||
        Math.abs(trace.proof ?? 0) > agreement
      );
    });
    expect(bad.map(({ address, traced }) => `${address}: ${traced.call.text}`)).toEqual([]);
  });

  it("says of every cell it leads to what that cell means", () => {
    const bare = calls.flatMap(({ address, traced }) =>
      traced.arguments
        .filter((a) => a.origin?.place && a.origin.label?.from !== "template")
        .map((a) => `${address}: ${a.origin!.address}`),
    );
    expect([...new Set(bare)]).toEqual([]);
  });
});
