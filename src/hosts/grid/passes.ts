import type { GridRuntime } from "./runtime.ts";

/** How a calculation of the grid ends when all it was asked for is on the sheets: nothing to do, or done. Not: interrupted. */
const finished: ReadonlySet<number> = new Set([2, 3]);

/**
 * Numbers the grid's calculations. One that is interrupted is begun again under the next number, with what the first
 * was asked for.
 */
export class Passes {
  #begun = 0;
  readonly #listeners = new Set<(pass: number) => void>();

  constructor({ api }: GridRuntime) {
    const formula = api.getFormula();
    formula.calculationStart(() => this.#begun++);
    formula.calculationEnd((state) => {
      if (finished.has(state)) for (const listener of this.#listeners) listener(this.#begun);
    });
  }

  /** The number of the next to begin. */
  get next(): number {
    return this.#begun + 1;
  }

  /** Hears of a finished one: what waited for it or an earlier one is done. */
  onFinished(listener: (pass: number) => void): void {
    this.#listeners.add(listener);
  }
}

/** Sheets until the calculation is finished that begins next. */
export class UntilFinished {
  readonly #passes: Passes;
  readonly #sheets = new Map<string, number>();

  constructor(passes: Passes) {
    this.#passes = passes;
    passes.onFinished((finishedPass) => {
      for (const [sheet, pass] of this.#sheets) if (pass <= finishedPass) this.#sheets.delete(sheet);
    });
  }

  add(sheetId: string): void {
    this.#sheets.set(sheetId, this.#passes.next);
  }

  delete(sheetId: string): void {
    this.#sheets.delete(sheetId);
  }

  has(sheetId: string): boolean {
    return this.#sheets.has(sheetId);
  }

  keys(): IterableIterator<string> {
    return this.#sheets.keys();
  }
}
