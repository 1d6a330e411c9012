import { a1, type Address } from "../../src/cells/index.ts";
import { describe, expect, it } from "vitest";
import { collect, Tracer } from "../../src/checker/index.ts";
import { patternOf } from "../../src/cells/calculation/pattern.ts";
import type { Host } from "../../src/hosts/index.ts";
import { expand, type Plan } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { staticHost, type StaticCell } from "./staticHost.ts";

/** A plan as it stands on a sheet, uncomputed. */
function hostOf(plan: Plan): Host {
  const cells = Object.fromEntries(
    plan.cells.map((c): readonly [string, StaticCell] => [
      a1(c),
      c.formula !== undefined ? { f: c.formula } : (c.value ?? null),
    ]),
  );
  const names = Object.fromEntries(plan.names.map(({ name, ...area }) => [name, `Sheet1!${a1(area, true)}`]));
  return Object.assign(staticHost(cells, names), {
    namesOn: () =>
      Promise.resolve(plan.names.map(({ name, ...area }) => ({ name, area: { ...area, sheet: "Sheet1" } }))),
  });
}

describe.each(templates.map((t) => [t.id, t] as const))("%s as it is built", (_, template) => {
  it("has no formula whose arguments do not fit the cells they come from, nor one that hands over a cell without a meaning", async () => {
    const plan = expand(template, template.example.inputs);
    const tracer = new Tracer(hostOf(plan));
    const flagged: string[] = [];
    const unnamed: string[] = [];
    const unread: string[] = [];
    const seen = new Set<string>();
    // A rule that looks at the row before finds none in a table's first row: there it refers to the head, and uses nothing of it.
    const endsHead = new Set(plan.cells.filter(({ role }) => role === "bound").map(({ row }) => row));
    const above = (row: number, text: string): string => `${/^\$[A-Z]+/.exec(text)?.[0] ?? ""}${row}`;
    const ofHead = (row: number, message: string): boolean =>
      endsHead.has(row - 1) && new RegExp(`\\b[A-Z]+${row} is empty`).test(message);
    let calls = 0;
    for (const { row, column, formula } of plan.cells) {
      if (formula === undefined) continue;
      // Cells of a table column filled down refer to the same columns.
      const key = `${column} ${patternOf(formula, row, column)}`;
      if (seen.has(key)) continue;
      seen.add(key);
      const cell = await tracer.trace({ sheet: "Sheet1", row, column });
      if (cell.misfit !== undefined) flagged.push(`${cell.address} ${cell.misfit}`);
      if (cell.unreadable !== undefined) unread.push(`${cell.address}: ${cell.unreadable}`);
      for (const { call, flags, unknown, arguments: all } of cell.calls) {
        calls++;
        for (const { origins } of all)
          for (const { text, label } of origins)
            if (label?.from !== "template" && !(endsHead.has(row - 1) && text === above(row, text)))
              unnamed.push(`${cell.address}: ${text}`);
        if (unknown) flagged.push(`${cell.address} ${unknown.message}`);
        // Nothing is computed here, so that no value lies in or out of a range.
        for (const { kind, parameter, message } of flags)
          if (kind !== "unusual" && !ofHead(row, message))
            flagged.push(`${cell.address} ${call.id} ${parameter} ${kind}: ${message}`);
      }
    }
    expect({ flagged, unnamed, unread }).toEqual({ flagged: [], unnamed: [], unread: [] });
    expect(calls).toBeGreaterThan(200);
  }, 120_000);
});

it("what was typed over a formula is not called an input", async () => {
  const plan = expand(templates[0]!, templates[0]!.example.inputs);
  const fck = plan.meanings.find(({ id }) => id === "fck")!.at;
  const reads = (formula: string | undefined, cell: Address): boolean =>
    new RegExp(`${a1(cell, true).replaceAll("$", "\\$")}(?!\\d)`).test(formula ?? "");
  const usesIt = plan.cells.filter(
    ({ role, column, formula }) => role === "value" && column === fck.column && reads(formula, fck),
  );
  const over = usesIt[0]!;
  const user = plan.cells.find(({ row, role, formula }) => row > over.row && role === "value" && reads(formula, over))!;
  const sources = async (p: Plan): Promise<ReadonlyMap<string, string>> =>
    new Map(
      (
        await collect(
          new Tracer(hostOf(p)),
          { sheet: "Sheet1", row: user.row, column: user.column },
          { depth: Infinity },
        )
      ).inputs.map(({ address, source }) => [address, source]),
    );
  expect((await sources(plan)).get(a1(fck))).toBe("input");
  expect((await sources(plan)).has(a1(over))).toBe(false);
  const typed: Plan = {
    ...plan,
    cells: plan.cells.map(({ formula, ...cell }) =>
      cell.row === over.row && cell.column === over.column
        ? { ...cell, value: 3 }
        : { ...cell, ...(formula !== undefined && { formula }) },
    ),
  };
  expect((await sources(typed)).get(a1(over))).toBe("typed over a formula");
});
