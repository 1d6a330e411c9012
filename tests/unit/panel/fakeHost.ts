import { type Address, type Area, holds } from "../../../src/cells/index.ts";
import type {
  ApplyOptions,
  CellContent,
  Host,
  InsertedCell,
  Looks,
  Place,
  Selection,
  SheetName,
  SheetRules,
} from "../../../src/hosts/index.ts";
import { CellsNotEmpty, SheetNameTaken, tones } from "../../../src/hosts/index.ts";
import { logoOfPlaced, type Logo, type Plan } from "../../../src/sheet/index.ts";

/** A host whose cells stand in a Map. It calculates nothing: values and evaluations are given to it. */
export class FakeHost implements Host {
  readonly name = "fake";
  readonly undoesInsertion = true;
  readonly showsLogos = true;
  readonly cells = new Map<string, CellContent>();
  readonly sheets = new Set<string>();
  readonly plans = new Map<string, Plan>();
  readonly names = new Map<string, string>();
  readonly evaluations = new Map<string, CellContent>();
  readonly selected: Place[] = [];
  readonly namesOfSheets = new Map<string, readonly SheetName[]>();
  /** By sheet and cell, such as `Beam!4,2`; the fake cannot tell of others. */
  readonly dependantsOf = new Map<string, readonly Place[]>();
  /** What `looks` says beside what hides nothing. */
  hiding: Partial<Looks> = {};
  /** Set to make `apply` and `enterAll` fail. */
  failure: Error | undefined;
  private at: Selection | undefined;
  private readonly selectionListeners = new Set<(selection: Selection) => void>();
  private readonly calculationListeners = new Set<() => void>();

  put(sheet: string, row: number, column: number, content: Partial<CellContent>): void {
    this.sheets.add(sheet);
    const value = content.value ?? null;
    this.cells.set(`${sheet}!${row},${column}`, {
      value,
      text: content.text ?? (value === null ? "" : String(value)),
      ...content,
    });
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
    this.plans.set(sheetName, plan);
    for (const c of plan.cells)
      this.put(sheetName, c.row, c.column, {
        value: c.value ?? null,
        ...(c.formula !== undefined && { formula: c.formula }),
      });
    return { sheet: sheetName };
  }

  sheetNames(): Promise<readonly string[]> {
    return Promise.resolve([...this.sheets]);
  }

  read(sheet: string, area: Area): Promise<readonly (readonly CellContent[])[]> {
    return Promise.resolve(
      Array.from({ length: area.rows }, (_, r) =>
        Array.from(
          { length: area.columns },
          (_, c) => this.cells.get(`${sheet}!${area.row + r},${area.column + c}`) ?? { value: null, text: "" },
        ),
      ),
    );
  }

  used(sheet: string): Promise<Area> {
    const places = [...this.cells.keys()]
      .filter((key) => key.startsWith(`${sheet}!`))
      .map(
        (key) =>
          key
            .slice(sheet.length + 1)
            .split(",")
            .map(Number) as [number, number],
      );
    return Promise.resolve({
      row: 0,
      column: 0,
      rows: Math.max(0, ...places.map(([row]) => row + 1)),
      columns: Math.max(0, ...places.map(([, column]) => column + 1)),
    });
  }

  namesOn(sheet: string): Promise<readonly SheetName[]> {
    return Promise.resolve(this.namesOfSheets.get(sheet) ?? []);
  }

  logo(sheet: string): Promise<Logo | undefined> {
    const logo = this.plans.get(sheet)?.logo;
    return Promise.resolve(logo && logoOfPlaced(logo));
  }

  looks(_sheet: string, { rows, columns }: Area): Promise<Looks> {
    return Promise.resolve({
      formats: Array.from({ length: rows }, () => Array.from({ length: columns }, () => "General")),
      hiddenRows: [],
      hiddenColumns: [],
      sameColour: [],
      tooSmall: [],
      ...this.hiding,
    });
  }

  /** Those of the plan that was applied; none on other sheets. */
  rules(sheet: string, area: Area, places: readonly Address[]): Promise<SheetRules> {
    const plan = this.plans.get(sheet);
    return Promise.resolve({
      locked: Array.from({ length: area.rows }, (_, r) =>
        Array.from(
          { length: area.columns },
          (_, c) =>
            plan !== undefined &&
            !plan.unlocked.some((one) => holds(one, { row: area.row + r, column: area.column + c })),
        ),
      ),
      entries: places.map((place) => {
        const rule = plan?.validations.find((one) => holds(one, place))?.rule;
        return rule && { rule, refuses: true };
      }),
      colours: (plan?.highlights ?? []).map(({ text, begins, tone, ...one }) => ({
        areas: [one],
        text,
        ...(begins && { begins }),
        ...tones[tone],
      })),
    });
  }

  /** Nothing follows from anything here. */
  recalculate(): Promise<void> {
    for (const listener of this.calculationListeners) listener();
    return Promise.resolve();
  }

  dependants({ sheet, row, column }: Place): Promise<readonly Place[] | undefined> {
    return Promise.resolve(this.dependantsOf.get(`${sheet}!${row},${column}`));
  }

  enterAll(sheet: string, cells: readonly Pick<InsertedCell, "row" | "column" | "value" | "formula">[]): Promise<void> {
    if (this.failure) return Promise.reject(this.failure);
    for (const { row, column, value, formula } of cells)
      this.put(sheet, row, column, { value: value ?? null, ...(formula !== undefined && { formula }) });
    return Promise.resolve();
  }

  insert(sheet: string, cells: readonly InsertedCell[]): Promise<void> {
    const filled = cells.filter(({ row, column }) => this.cells.has(`${sheet}!${row},${column}`));
    if (filled.length > 0) return Promise.reject(new CellsNotEmpty(sheet, filled));
    for (const { row, column, value, formula } of cells)
      this.put(sheet, row, column, { value: value ?? null, ...(formula !== undefined && { formula }) });
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
