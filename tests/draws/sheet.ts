import { bookOfSheets } from "../../src/checker/index.ts";
import { a1, Calculation, cellsOf, type Address, type Book } from "../../src/cells/index.ts";
import { plannedSnapshot, skeletonOf, type InputCell, type Plan, type Template } from "../../src/sheet/index.ts";
import type { Inputs, InputValue } from "../../src/sheet/index.ts";
import { exampleOf } from "../plan/builtSheet.ts";

type Single = string | number | null;

/** The sheet of one shape, ready to be computed with one set of inputs after another, without a grid. */
export class DrawnSheet {
  readonly plan: Plan;
  readonly inputs: readonly InputCell[];
  readonly #book: Book;
  readonly #formulas: readonly Address[];
  readonly #source: Plan | undefined;
  /** The sheet of each input. */
  readonly #sheets: readonly string[];

  constructor(
    readonly template: Template,
    readonly shape: Inputs,
  ) {
    const { plan, inputs } = skeletonOf(template, shape);
    this.plan = plan;
    // A linked sheet stands beside its source, whose inputs are drawn with its own.
    const of = template.source && skeletonOf(template.source.template, ownShape(template.source.template, shape));
    this.#source = of?.plan;
    this.inputs = [...(of?.inputs ?? []), ...inputs];
    this.#sheets = this.inputs.map((input) => (inputs.includes(input) ? "Sheet1" : plan.source!.sheet));
    this.#book = bookOfSheets([
      plannedSnapshot(plan, "Sheet1"),
      ...(of ? [plannedSnapshot(of.plan, plan.source!.sheet)] : []),
    ]);
    this.#formulas = plan.cells.filter(({ formula }) => formula !== undefined);
  }

  with(values: readonly Single[]): Computation {
    const changes = this.inputs.map(({ at }, i) => ({ sheet: this.#sheets[i]!, ...at, value: values[i] ?? null }));
    const calculation = new Calculation(this.#book, changes, { everything: true });
    const source = this.#source && new Computation(this.#source, [], calculation, this.plan.source!.sheet);
    return new Computation(this.plan, this.#formulas, calculation, "Sheet1", source);
  }
}

function ownShape({ shape }: Template, values: Inputs): Inputs {
  return Object.fromEntries(shape.map(({ id }) => [id, values[id]!]));
}

/** One computation of a sheet. */
export class Computation {
  constructor(
    private readonly plan: Plan,
    private readonly formulas: readonly Address[],
    private readonly calculation: Calculation,
    private readonly sheet: string,
    /** Of the sheet it is linked to. */
    private readonly source?: Computation,
  ) {}

  #at({ row, column }: Address) {
    return this.calculation.valueAt({ sheet: this.sheet, row, column });
  }

  /** What a cell of the sheet shows. */
  valueAt(at: Address): unknown {
    return this.#at(at).value;
  }

  /** The value of a row, or the values of a column. */
  valuesOf(id: string): readonly unknown[] {
    const meaning = this.plan.meanings.find((one) => one.id === id);
    if (!meaning && this.source) return this.source.valuesOf(id);
    if (!meaning) throw new Error(`the sheet has no ${id}`);
    const { row, column, rows } = meaning.at;
    return Array.from({ length: rows }, (_, i) => this.#at({ row: row + i, column }).value);
  }

  get conflicts(): readonly string[] {
    const own = (this.plan.conflicts ?? []).flatMap(({ status, message, where }) =>
      this.#at(status).value === "CONFLICT" ? [`${where} ${String(this.#at(message).value)}`] : [],
    );
    return [...(this.source?.conflicts ?? []), ...own];
  }

  /** Input cells whose status is neither given, empty by choice nor in conflict. */
  get refused(): readonly string[] {
    const own = this.plan.cells.flatMap((cell) => {
      if (cell.role !== "verdict" || cell.formula === undefined) return [];
      const { value } = this.#at(cell);
      return value === "MISSING" || value === "OUT OF RANGE" ? [`${a1(cell)} ${value}`] : [];
    });
    return [...(this.source?.refused ?? []), ...own];
  }

  get overall(): unknown {
    return this.#at(this.plan.summary.overall).value;
  }

  get checks(): readonly {
    readonly id: string;
    readonly utilisation: unknown;
    readonly verdict: unknown;
    readonly where: unknown;
  }[] {
    return this.plan.summary.checks.map(({ id, utilisation, verdict, where }) => ({
      id,
      utilisation: this.#at(utilisation).value,
      verdict: this.#at(verdict).value,
      where: this.#at(where).value,
    }));
  }

  check(id: string) {
    return this.checks.find((one) => one.id === id)!;
  }

  /** The warnings that the sheet lists. */
  get warnings(): readonly string[] {
    return cellsOf(this.plan.summary.warnings)
      .map((cell) => this.#at(cell).value)
      .flatMap((value) => (typeof value === "string" && value.trim() !== "" ? [value.trim()] : []));
  }

  /** Input statuses by the name of the status: cells that say it. */
  statuses(word: string): readonly string[] {
    return this.plan.cells.flatMap((cell) =>
      cell.role === "verdict" && cell.formula !== undefined && this.#at(cell).value === word ? [a1(cell)] : [],
    );
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

/** A template's example with some inputs set, computed once; a shorter list of the example leaves the rest of the table as its defaults. */
export function computedSheet(template: Template, set: Inputs = {}): Computation {
  const inputs: Inputs = { ...exampleOf(template), ...set };
  const shape = Object.fromEntries(template.shape.map((one) => [one.id, inputs[one.id] ?? one.default]));
  const sheet = new DrawnSheet(template, shape);
  const flat = (value: InputValue | undefined): readonly InputValue[] =>
    Array.isArray(value) ? (value as readonly InputValue[]).flatMap(flat) : [value ?? null];
  const values = sheet.inputs.map(({ id, index, spec }): InputValue => {
    const given = id in inputs ? flat(inputs[id])[index] : undefined;
    return given === undefined ? (spec.default ?? null) : given;
  });
  return sheet.with(values as readonly Single[]);
}
