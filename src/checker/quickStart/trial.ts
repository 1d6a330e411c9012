import { Calculation, type Address, type Book } from "../../cells/index.ts";
import {
  singlesOf,
  skeletonOf,
  type Inputs,
  type Meaning,
  type Plan,
  type Skeleton,
  type Template,
} from "../../sheet/index.ts";
import { bookOfPlan } from "../../hosts/index.ts";

const name = "Trial";
const stresses: ReadonlySet<string> = new Set(["uCompression", "uTension", "uStepC", "uStepT"]);

/** A check that fails on a trial sheet. */
export interface Failing {
  readonly id: string;
  readonly description: string;
  readonly where: string;
}

/** A sheet computed in memory with some inputs, to take its own limits and forces from, and to see which checks fail. */
export class Trial {
  constructor(
    private readonly plan: Plan,
    private readonly calculation: Calculation,
  ) {}

  #at({ row, column }: Address) {
    return this.calculation.valueAt({ sheet: name, row, column });
  }

  /** The values of a row or a column; a limit that is missing counts as 0, which no tension passes. */
  numbers(id: string): readonly number[] {
    const { row, column, rows } = this.plan.meanings.find((one) => one.id === id)!.at;
    return Array.from({ length: rows }, (_, i) => {
      const { value } = this.#at({ row: row + i, column });
      return typeof value === "number" ? value : 0;
    });
  }

  meaning(id: string): Meaning | undefined {
    return this.plan.meanings.find((one) => one.id === id);
  }

  /** What stands in the first cell of a row or column. */
  value(id: string): string | number | boolean | null {
    const at = this.meaning(id)?.at;
    return at ? (this.#at(at).value ?? null) : null;
  }

  /** The checks of stresses that pass, the closest to its limit first. */
  get stressChecks(): readonly Failing[] {
    const passes = (at: Address): boolean => this.#at(at).value === "OK";
    const known = this.plan.summary.checks.filter(({ id, verdict }) => stresses.has(id) && passes(verdict));
    const used = (at: Address): number => Number(this.#at(at).value) || 0;
    return [...known]
      .sort((a, b) => used(b.utilisation) - used(a.utilisation))
      .map(({ id, description, where }) => ({ id, description, where: String(this.#at(where).value ?? "") }));
  }

  /** The named checks that say FAIL or show an error; where only verdicts in tables fail, the row that counts those. */
  get failing(): readonly Failing[] {
    const all = this.plan.summary.checks.flatMap(({ id, description, where, verdict }): readonly Failing[] => {
      const { value, error } = this.#at(verdict);
      if (value !== "FAIL" && !error) return [];
      return [{ id, description, where: String(this.#at(where).value ?? "") }];
    });
    const named = all.filter(({ id }) => id !== "failed");
    return named.length > 0 ? named : all;
  }
}

/** Sheets of one template in memory. A configuration that is still kept where it is made keeps its book. */
export class Trials {
  readonly #books = new WeakMap<Skeleton, Book>();

  constructor(readonly template: Template) {}

  skeleton(inputs: Inputs): Skeleton {
    const ids = this.template.shape.map(({ id }) => id).filter((id) => id in inputs);
    return skeletonOf(this.template, Object.fromEntries(ids.map((id) => [id, inputs[id]!])));
  }

  /** Reads the formulas of a configuration. */
  prepare(inputs: Inputs): Book {
    const skeleton = this.skeleton(inputs);
    const book = this.#books.get(skeleton) ?? bookOfPlan(skeleton.plan, name);
    this.#books.set(skeleton, book);
    return book;
  }

  with(inputs: Inputs): Trial {
    const skeleton = this.skeleton(inputs);
    const book = this.prepare(inputs);
    const changes = skeleton.inputs.map(({ id, index, at, spec }) => {
      const given = id in inputs ? singlesOf(inputs[id] ?? null)[index] : undefined;
      const value = given === undefined ? (spec.default ?? null) : given;
      return { sheet: name, ...at, value };
    });
    return new Trial(skeleton.plan, new Calculation(book, changes, { everything: true }));
  }
}
