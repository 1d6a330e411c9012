import { expect } from "vitest";
import type { Address, Area, Snapshot } from "../../src/cells/index.ts";
import { planValues, type Values } from "../../src/hosts/index.ts";
import { expand, inputsFrom, type Inputs, type Plan, type Template } from "../../src/sheet/index.ts";
import { KeptByTemplate } from "../../src/sheet/keptByTemplate.ts";
import { allTemplates } from "../../src/templates/index.ts";

/** The values of a plan without a grid, in a tenth of its time; tests/cells holds the grid to the same values. */
export function valuesOf(plan: Plan): Values {
  const values = planValues(plan, "Beam");
  if (!values) throw new Error("a formula of the sheet cannot be computed without a grid");
  return values;
}

/** What the source is called. */
export const sourceName = "Beam 1";

interface Planned {
  readonly plan: Plan;
  readonly values: Values;
  readonly source?: { readonly plan: Plan; readonly sheet: Snapshot };
}
const plannedBefore = new KeptByTemplate<Planned>(60);

/**
 * A plan with its values; a linked one beside a sheet of its source, whose inputs are given with its own. What was
 * asked for last is kept: nobody changes it, and many tests look at the same sheets.
 */
export function planned(template: Template, inputs: Inputs): Planned {
  return plannedBefore.of(template, template, JSON.stringify(inputs), () => plannedAnew(template, inputs));
}

function plannedAnew(template: Template, inputs: Inputs): Planned {
  const of = template.source?.template;
  if (!of) {
    const plan = expand(template, inputs);
    return { plan, values: valuesOf(plan) };
  }
  const isOwn = ([id]: readonly [string, unknown]): boolean =>
    template.blocks.some(({ items }) =>
      items.some((item) => {
        if ("table" in item) return item.columns.some((column) => column.id === id && column.input);
        return "id" in item && item.id === id && item.input;
      }),
    );
  const all = Object.entries(inputs);
  // An id that both sheets have is the linked sheet's in the inputs; the source keeps what its example says.
  const both = Object.entries(of.example.inputs).filter(isOwn);
  const given = Object.fromEntries([...both, ...all.filter((one) => !isOwn(one))]);
  const { plan: source, values: cells } = planned(of, given);
  const plan = expand(template, inputsFrom(template, given, Object.fromEntries(all.filter(isOwn))), {
    sheet: sourceName,
    names: source.names,
  });
  const { rows, columns } = source;
  const sheet: Snapshot = { sheet: sourceName, rows, columns, cells, names: new Map() };
  const values = planValues(plan, "Beam", [sheet]);
  if (!values) throw new Error("a formula of the linked sheet cannot be computed without a grid");
  return { plan, values, source: { plan: source, sheet } };
}

/** The example of a template; of a linked one with that of its source. */
export function exampleOf({ source, example }: Template): Inputs {
  return { ...source?.template.example.inputs, ...example.source, ...example.inputs };
}

/** A template's sheet with its values, with its example unless other inputs are given. */
export function builtSheet(id: string, inputs?: Inputs) {
  const template = allTemplates.find((t) => t.id === id);
  if (!template) throw new Error(`there is no template ${id}`);
  const { plan, values } = planned(template, inputs ?? exampleOf(template));
  const areaOf = (row: string): Area => {
    const meaning = plan.meanings.find((m) => m.id === row);
    if (!meaning) throw new Error(`the sheet has no ${row}`);
    return meaning.at;
  };
  const column = (row: string): readonly unknown[] => {
    const { row: first, column: at, rows } = areaOf(row);
    return values
      .slice(first, first + rows)
      .map((cells) => cells[at]!)
      .map(({ value, error }) => (error ? `${error.code} ${error.message ?? ""}` : value));
  };
  return {
    plan,
    column,
    /** Agreement to 1e-9: two computations of the same differ in nothing but rounding and the end of their searches. */
    agree(row: string, values: readonly number[]): void {
      const found = column(row);
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
    errors(): readonly string[] {
      return values.flatMap((row, i) =>
        row.flatMap((cell, j) =>
          cell.error
            ? [`row ${i + 1} column ${j + 1}: ${cell.formula} ${cell.error.code} ${cell.error.message ?? ""}`]
            : [],
        ),
      );
    },
    verdicts(): {
      readonly overall: unknown;
      readonly checks: readonly {
        readonly description: string;
        readonly verdict: unknown;
        readonly where: string;
        readonly utilisation: unknown;
      }[];
    } {
      const one = (at: Address) => values[at.row]![at.column]!;
      const { overall, checks } = plan.summary;
      return {
        overall: one(overall).value,
        checks: checks.map((check) => ({
          description: check.description,
          verdict: one(check.verdict).value,
          where: one(check.where).text,
          utilisation: one(check.utilisation).value,
        })),
      };
    },
  };
}
export type BuiltSheet = ReturnType<typeof builtSheet>;
