import type { ApplyOptions, CellContent, Host, InsertedCell, Place, Selection } from "../../../src/hosts/index.ts";
import { CellsNotEmpty, SheetNameTaken } from "../../../src/hosts/index.ts";
import type { Area, Plan } from "../../../src/sheet/index.ts";

/** A host whose cells stand in a Map. It calculates nothing: values and evaluations are given to it. */
export class FakeHost implements Host {
  readonly name = "fake";
  readonly undoesInsertion = true;
  readonly cells = new Map<string, CellContent>();
  readonly sheets = new Set<string>();
  readonly names = new Map<string, string>();
  readonly evaluations = new Map<string, CellContent>();
  readonly selected: Place[] = [];
  /** Set to make `apply` fail. */
  failure: Error | undefined;
  private at: Selection | undefined;
  private readonly selectionListeners = new Set<(selection: Selection) => void>();
  private readonly calculationListeners = new Set<() => void>();

  put(sheet: string, row: number, column: number, content: Partial<CellContent>): void {
    this.sheets.add(sheet);
    const value = content.value ?? null;
    this.cells.set(`${sheet}!${row},${column}`, { value, text: content.text ?? (value === null ? "" : String(value)), ...content });
    for (const listener of this.calculationListeners) listener();
  }

  async apply(plan: Plan, { sheetName, progress, signal }: ApplyOptions): Promise<{ readonly sheet: string }> {
    if (this.sheets.has(sheetName)) throw new SheetNameTaken(sheetName, `${sheetName} 2`);
    const total = plan.cells.length;
    for (let done = 0; done < total; done += 100) {
      await Promise.resolve();
      if (signal?.aborted) throw new DOMException("Cancelled", "AbortError");
      progress(done, total, "writing cells");
    }
    if (this.failure) throw this.failure;
    this.sheets.add(sheetName);
    for (const c of plan.cells) this.put(sheetName, c.row, c.column, { value: c.value ?? null, ...(c.formula !== undefined && { formula: c.formula }) });
    return { sheet: sheetName };
  }

  sheetNames(): Promise<readonly string[]> {
    return Promise.resolve([...this.sheets]);
  }

  read(sheet: string, area: Area): Promise<readonly (readonly CellContent[])[]> {
    return Promise.resolve(Array.from({ length: area.rows }, (_, r) => Array.from({ length: area.columns }, (_, c) => this.cells.get(`${sheet}!${area.row + r},${area.column + c}`) ?? { value: null, text: "" })));
  }

  insert(sheet: string, cells: readonly InsertedCell[]): Promise<void> {
    const filled = cells.filter(({ row, column }) => this.cells.has(`${sheet}!${row},${column}`));
    if (filled.length > 0) return Promise.reject(new CellsNotEmpty(sheet, filled));
    for (const { row, column, value, formula } of cells) this.put(sheet, row, column, { value: value ?? null, ...(formula !== undefined && { formula }) });
    return Promise.resolve();
  }

  selection(): Promise<Selection | undefined> {
    return Promise.resolve(this.at);
  }

  /** As a user selects several cells. */
  selectArea(selection: Selection): void {
    this.at = selection;
    for (const listener of this.selectionListeners) listener(selection);
  }

  select(place: Place): Promise<void> {
    this.selected.push(place);
    this.selectArea({ rows: 1, columns: 1, ...place });
    return Promise.resolve();
  }

  resolveName(name: string): Promise<string | undefined> {
    return Promise.resolve(this.names.get(name));
  }

  evaluate(formula: string): Promise<readonly (readonly CellContent[])[]> {
    const found = this.evaluations.get(formula);
    if (!found) return Promise.reject(new Error(`the fake was not told what ${formula} is`));
    return Promise.resolve([[found]]);
  }

  onSelection(listener: (selection: Selection) => void): () => void {
    this.selectionListeners.add(listener);
    return () => this.selectionListeners.delete(listener);
  }

  onCalculated(listener: () => void): () => void {
    this.calculationListeners.add(listener);
    return () => this.calculationListeners.delete(listener);
  }
}
