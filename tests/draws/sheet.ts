import { bookOfSheets } from "../../src/checker/index.ts";
import { a1, Calculation, type Address, type Book } from "../../src/cells/index.ts";
import { plannedSnapshot, skeletonOf, type InputCell, type Plan, type Template } from "../../src/sheet/index.ts";
import type { Inputs } from "../../src/sheet/index.ts";

type Single = string | number | null;

/** The sheet of one shape, ready to be computed with one set of inputs after another, without a grid. */
export class DrawnSheet {
  readonly plan: Plan;
  readonly inputs: readonly InputCell[];
  readonly #book: Book;
  readonly #formulas: readonly Address[];

  constructor(
    readonly template: Template,
    readonly shape: Inputs,
  ) {
    const { plan, inputs } = skeletonOf(template, shape);
    this.plan = plan;
    this.inputs = inputs;
    this.#book = bookOfSheets([plannedSnapshot(plan, "Sheet1")]);
    this.#formulas = plan.cells.filter(({ formula }) => formula !== undefined);
  }

  with(values: readonly Single[]): Computation {
    const changes = this.inputs.map(({ at }, i) => ({ sheet: "Sheet1", ...at, value: values[i] ?? null }));
    return new Computation(this.plan, this.#formulas, new Calculation(this.#book, changes, { everything: true }));
  }
}

/** One computation of a sheet. */
export class Computation {
  constructor(
    private readonly plan: Plan,
    private readonly formulas: readonly Address[],
    private readonly calculation: Calculation,
  ) {}

  #at({ row, column }: Address) {
    return this.calculation.valueAt({ sheet: "Sheet1", row, column });
  }

  /** The value of a row, or the values of a column. */
  valuesOf(id: string): readonly unknown[] {
    const meaning = this.plan.meanings.find((one) => one.id === id);
    if (!meaning) throw new Error(`the sheet has no ${id}`);
    const { row, column, rows } = meaning.at;
    return Array.from({ length: rows }, (_, i) => this.#at({ row: row + i, column }).value);
  }

  get conflicts(): readonly string[] {
    return (this.plan.conflicts ?? []).flatMap(({ status, message, where }) =>
      this.#at(status).value === "CONFLICT" ? [`${where} ${String(this.#at(message).value)}`] : [],
    );
  }

  /** Input cells whose status is neither given, empty by choice nor in conflict. */
  get refused(): readonly string[] {
    return this.plan.cells.flatMap((cell) => {
      if (cell.role !== "verdict" || cell.formula === undefined) return [];
      const { value } = this.#at(cell);
      return value === "MISSING" || value === "OUT OF RANGE" ? [`${a1(cell)} ${value}`] : [];
    });
  }

  get overall(): unknown {
    return this.#at(this.plan.summary.overall).value;
  }

  get checks(): readonly { readonly id: string; readonly utilisation: unknown; readonly verdict: unknown }[] {
    return this.plan.summary.checks.map(({ id, utilisation, verdict }) => ({
      id,
      utilisation: this.#at(utilisation).value,
      verdict: this.#at(verdict).value,
    }));
  }

  /** Cells that hold an error, with the row or column they belong to and what they say. */
  get errors(): readonly { readonly id: string; readonly at: string; readonly said: string }[] {
    return this.formulas.flatMap((cell) => {
      const { error, cannot } = this.#at(cell);
      if (!error && cannot === undefined) return [];
      const meaning = this.plan.meanings.find(
        ({ at }) => cell.column === at.column && cell.row >= at.row && cell.row < at.row + at.rows,
      );
      return [
        {
          id:
            meaning?.id ??
            `– ${this.plan.cells.find((one) => one.row === cell.row && one.column === cell.column)?.formula ?? ""}`,
          at: a1(cell),
          said: cannot ?? `${error!.code} ${error!.message ?? ""}`,
        },
      ];
    });
  }
}
