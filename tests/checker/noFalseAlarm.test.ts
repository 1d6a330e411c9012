import { a1, type Address } from "../../src/cells/index.ts";
import { describe, expect, it } from "vitest";
import { compare, readHandOut } from "../../src/checker/index.ts";
import { expand, type Plan } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { alarms, Built, en, ended, is, isValue, name, opened } from "./planted.ts";

describe("no false alarm", () => {
  /** Cells to type other allowed values into: some numbers moved by a little, and a choice turned. */
  function edits(plan: Plan): readonly { readonly at: Address; readonly value: number | string }[] {
    const rule = ({ row, column }: Address) =>
      plan.validations.find(
        (v) => row >= v.row && row < v.row + v.rows && column >= v.column && column < v.column + v.columns,
      )?.rule;
    const inputs = plan.cells.filter(({ role }) => role === "input" || role === "choice");
    const numbers = inputs.flatMap((cell) => {
      const of = rule(cell);
      if (of?.kind !== "number" || of.whole || typeof cell.value !== "number" || cell.value === 0) return [];
      const value = cell.value * 0.99;
      return value < (of.min ?? -Infinity) || value <= (of.above ?? -Infinity) || value > (of.max ?? Infinity)
        ? []
        : [{ at: cell, value }];
    });
    const choice = inputs.flatMap((cell) => {
      const of = rule(cell);
      const other = of?.kind === "list" ? of.values.find((v) => v !== String(cell.value)) : undefined;
      return other === undefined ? [] : [{ at: cell, value: other }];
    });
    const spread = Array.from({ length: 3 }, (_, i) => numbers[Math.floor(((i + 0.5) * numbers.length) / 3)]!);
    return [...spread, ...choice.slice(0, 1)];
  }

  it.each(templates.map((t) => [t.id, t] as const))(
    "on %s as built, after ordinary edits of inputs, and renamed",
    async (_id, template) => {
      const built = await Built.of(template);
      const fresh = await built.compared();
      expect(fresh.findings).toEqual([]);
      expect(fresh.clean).toBe(true);
      expect(fresh.recognised.plan.hash).toBe(built.plan.hash);
      expect(fresh.compared.computed).toBeGreaterThan(4_000);
      for (const { at, value } of edits(built.plan))
        await built.faults.host.enter({ sheet: name, row: at.row, column: at.column }, value);
      const edited = await built.compared();
      expect(alarms(edited)).toEqual([]);
      expect(edited.recognised.plan.hash).toBe(edited.recognised.head.hash);
      await built.faults.rename(name, "Girder 7 (checked)");
      expect(alarms(await built.compared("Girder 7 (checked)"))).toEqual([]);
    },
  );

  it.each(templates.map((t) => [t.id, t] as const))(
    "on %s with nothing but its defaults, most inputs empty",
    async (_id, template) => {
      const { host } = opened();
      await host.apply(expand(template, {}), { sheetName: name, progress: () => undefined });
      const comparison = await compare(host, name);
      expect(alarms(comparison!)).toEqual([]);
      expect(comparison!.counts.note).toBeGreaterThan(0);
    },
  );

  it(
    "after empty rows were inserted, the sheet duplicated and copied to another workbook; a fault there " +
      "is found all the same",
    async () => {
      const built = await Built.unprotected(en);
      await built.faults.insertRows(name, 30, 2);
      expect(alarms(await built.compared())).toEqual([]);
      const copy = await built.faults.duplicate(name);
      expect(alarms(await built.compared(copy))).toEqual([]);
      const target = built.cell("formula", (c) => isValue(c) && c.formula?.includes("KERN.") === true && c.row > 30);
      await built.faults.typeOver(name, { row: target.row + 2, column: target.column }, 1);
      const elsewhere = await built.faults.copyToAnotherBook(name, "From a file");
      // Two grids of one process share what they have parsed.
      ended();
      try {
        const there = await compare(elsewhere.host, elsewhere.sheet);
        expect(
          there?.findings.filter(({ grade }) => grade !== "note").map(({ kind, at }) => [kind, at && a1(at)]),
        ).toEqual([["typed over", a1({ row: target.row + 2, column: target.column })]]);
      } finally {
        elsewhere.host.dispose();
      }
    },
  );

  it("a hand-out copy is nothing to compare", async () => {
    const built = await Built.of(is);
    const { plan } = await readHandOut(built.faults.host, name, {
      when: "1 January 2026, 12:00 UTC",
      host: "the grid",
    });
    await built.faults.host.apply(plan, { sheetName: "Copy", progress: () => undefined });
    expect(await compare(built.faults.host, "Copy")).toBeUndefined();
  });

  it("on a sheet that no template built there is nothing to compare", async () => {
    const { host } = opened();
    await host.enter({ sheet: "Sheet1", row: 0, column: 0 }, "my own calculation");
    expect(await compare(host, "Sheet1")).toBeUndefined();
  });
});
