import { a1, readFormula, UnreadableFormula, type Address, type ReadFormula } from "../../cells/index.ts";
import type { ReadSheet } from "./read.ts";

/** The formulas that a report follows; where one cannot be read, the report goes on without it and says so. */
export class Followed {
  readonly #notRead = new Map<string, Map<string, string>>();

  /** Undefined where it cannot be read. */
  read({ of: { snapshot } }: ReadSheet, at: Address, formula: string): ReadFormula | undefined {
    try {
      return readFormula(formula);
    } catch (error) {
      if (!(error instanceof UnreadableFormula)) throw error;
      const cells = this.#notRead.get(snapshot.sheet) ?? new Map<string, string>();
      this.#notRead.set(snapshot.sheet, cells.set(a1(at), formula));
      return undefined;
    }
  }

  /** Those of a sheet that could not be read: "H14: =SUM(". */
  notRead({ of: { snapshot } }: ReadSheet): readonly string[] {
    return [...(this.#notRead.get(snapshot.sheet) ?? [])].map(([cell, formula]) => `${cell}: ${formula}`);
  }
}
