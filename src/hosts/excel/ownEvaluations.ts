/** The program tells of a calculation some time after it: so long after an evaluation it may still be the evaluation's. */
const echo = 1_500;

/**
 * Tells calculations that follow from evaluating an expression from those that follow from an edit. An evaluation makes
 * the program calculate, its volatile cells on other sheets too; were that told like an edit, whoever evaluates after
 * each calculation would never come to an end.
 */
export class OwnEvaluations {
  readonly #sheets = new Set<string>();
  #quietUntil = 0;
  #edited = false;

  /** An evaluation begins on this sheet, made for it. */
  began(sheetId: string): void {
    this.#sheets.add(sheetId);
    this.#quietUntil = Infinity;
  }

  ended(): void {
    this.#quietUntil = performance.now() + echo;
  }

  /** Something was entered on a sheet: the next calculation is told. */
  entered(sheetId: string): void {
    if (!this.#sheets.has(sheetId)) this.#edited = true;
  }

  /** Is this calculation to be told? */
  matters(sheetId: string): boolean {
    if (this.#sheets.has(sheetId)) return false;
    if (performance.now() < this.#quietUntil && !this.#edited) return false;
    this.#edited = false;
    return true;
  }
}
