interface Kept {
  readonly code: string;
  readonly message: string;
  readonly functionName: string;
  readonly pass: number;
}

/** Why a cell shows an error, by sheet and cell: the grid itself keeps the code only. */
export class CellErrors {
  readonly #kept = new Map<string, Kept>();
  #pass = 0;

  /** A new calculation begins: what it finds replaces what earlier ones left. */
  nextPass(): void {
    this.#pass++;
  }

  /** The first refusal of a pass stays: later calls of the same cell only follow from it. */
  refused(cell: string, functionName: string, code: string, message: string): void {
    if (this.#kept.get(cell)?.pass !== this.#pass)
      this.#kept.set(cell, { code, message, functionName, pass: this.#pass });
  }

  /** A call of this cell went well: what an earlier pass left no longer holds. */
  computed(cell: string): void {
    const kept = this.#kept.get(cell);
    if (kept && kept.pass !== this.#pass) this.#kept.delete(cell);
  }

  /** A cell shows no error any more. */
  forget(cell: string): void {
    this.#kept.delete(cell);
  }

  /** The message for a cell that shows this error; undefined where no function of ours gave it. */
  messageFor(cell: string, code: string, formula: string): string | undefined {
    const kept = this.#kept.get(cell);
    return kept?.code === code && formula.toUpperCase().includes(kept.functionName) ? kept.message : undefined;
  }

  forgetSheet(sheetId: string): void {
    for (const key of this.#kept.keys()) if (key.startsWith(`${sheetId}!`)) this.#kept.delete(key);
  }
}

export function cellKey(sheetId: string, row: number, column: number): string {
  return `${sheetId}!${row},${column}`;
}
