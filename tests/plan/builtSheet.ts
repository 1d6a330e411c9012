import type { Area } from "../../src/cells/index.ts";
import { expect } from "vitest";
import { openGridInNode } from "../../src/hosts/grid/index.ts";
import { expand, type Inputs, type Plan } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";

/** A template's sheet on the grid, with its example unless other inputs are given. */
export async function builtSheet(id: string, inputs?: Inputs) {
  const template = templates.find((t) => t.id === id);
  if (!template) throw new Error(`there is no template ${id}`);
  const grid = await openGridInNode();
  const plan: Plan = expand(template, inputs ?? template.example.inputs);
  const sheet = "Beam";
  await grid.apply(plan, { sheetName: sheet, progress: () => undefined });
  const areaOf = (row: string): Area => {
    const meaning = plan.meanings.find((m) => m.id === row);
    if (!meaning) throw new Error(`the sheet has no ${row}`);
    return meaning.at;
  };
  const column = async (row: string): Promise<readonly unknown[]> =>
    (await grid.read(sheet, areaOf(row))).map((cells) =>
      cells[0]!.error ? `${cells[0]!.error.code} ${cells[0]!.error.message ?? ""}` : cells[0]!.value,
    );
  return {
    plan,
    grid,
    sheet,
    column,
    /** Agreement to 1e-9: two computations of the same differ in nothing but rounding and the end of their searches. */
    async agree(row: string, values: readonly number[]): Promise<void> {
      const found = await column(row);
      expect(found, row).toHaveLength(values.length);
      // Relative to the column's own largest value, so that small quantities are held to as many digits.
      const scale = Math.max(...values.map(Math.abs));
      values.forEach((value, i) => {
        const cell = found[i];
        expect(typeof cell, `${row} row ${i + 1}: ${String(cell)}`).toBe("number");
        expect(
          Math.abs((cell as number) - value),
          `${row} row ${i + 1}: sheet ${String(cell)}, recomputed ${value}`,
        ).toBeLessThanOrEqual(1e-9 * scale);
      });
    },
    async errors(): Promise<readonly string[]> {
      const cells = await grid.read(sheet, { row: 0, column: 0, rows: plan.rows, columns: plan.columns });
      return cells.flatMap((row, i) =>
        row.flatMap((cell, j) =>
          cell.error
            ? [`row ${i + 1} column ${j + 1}: ${cell.formula} ${cell.error.code} ${cell.error.message ?? ""}`]
            : [],
        ),
      );
    },
    async verdicts(): Promise<{
      readonly overall: unknown;
      readonly checks: readonly {
        readonly description: string;
        readonly verdict: unknown;
        readonly where: string;
        readonly utilisation: unknown;
      }[];
    }> {
      const one = async (at: { readonly row: number; readonly column: number }) =>
        (await grid.read(sheet, { ...at, rows: 1, columns: 1 }))[0]![0]!;
      const { overall, checks } = plan.summary;
      const read = [];
      for (const c of checks)
        read.push({
          description: c.description,
          verdict: (await one(c.verdict)).value,
          where: (await one(c.where)).text,
          utilisation: (await one(c.utilisation)).value,
        });
      return { overall: (await one(overall)).value, checks: read };
    },
  };
}
export type BuiltSheet = Awaited<ReturnType<typeof builtSheet>>;
