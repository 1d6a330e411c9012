import type { ICellData } from "@univerjs/core";
import { calculated } from "../../src/hosts/grid/build.ts";
import { nodeGrid, type NodeGrid } from "../../src/hosts/grid/node.ts";
import { workbookId } from "../../src/hosts/grid/runtime.ts";
import { quotedSheet, type GridHost } from "../../src/hosts/index.ts";
import { areaA1, type Address, type Area } from "../../src/sheet/index.ts";

/** A number, a text that stays text, a truth value or a formula; null empties the cell. */
export type FaultyEntry = number | string | boolean | null | { readonly formula: string };

export interface Copied {
  readonly host: GridHost;
  readonly sheet: string;
}

/** What people do to a sheet that was built, done on a grid without a screen. Each resolves when the grid has computed what follows. */
export class GridFaults {
  readonly host: GridHost;
  readonly #grid: NodeGrid;

  constructor(grid: NodeGrid) {
    this.#grid = grid;
    this.host = grid.host;
  }

  /** Takes the protection away; what was protected can be typed over then. */
  async unprotected(sheet: string): Promise<void> {
    for (const rule of await this.#sheet(sheet).getWorksheetPermission().listRangeProtectionRules()) await rule.remove();
  }

  async typeOver(sheet: string, at: Address, entry: FaultyEntry): Promise<void> {
    await this.#put(sheet, at, { v: null, f: null, si: null, t: null, p: null, ...this.#cell(entry) });
  }

  async insertRows(sheet: string, before: number, count: number): Promise<void> {
    this.#sheet(sheet).insertRowsBefore(before, count);
    await this.#settled();
  }

  async deleteRows(sheet: string, first: number, count: number): Promise<void> {
    this.#sheet(sheet).deleteRows(first, count);
    await this.#settled();
  }

  hideRow(sheet: string, row: number): void {
    this.#sheet(sheet).hideRows(row, 1);
  }

  hideColumn(sheet: string, column: number): void {
    this.#sheet(sheet).hideColumns(column, 1);
  }

  setFormat(sheet: string, { row, column }: Address, pattern: string): void {
    this.#sheet(sheet).getRange(row, column, 1, 1).setNumberFormat(pattern);
  }

  /** Of the letters, such as `#FFFFFF`. */
  setColour(sheet: string, { row, column }: Address, rgb: string): void {
    this.#sheet(sheet).getRange(row, column, 1, 1).setFontColor(rgb);
  }

  async rename(sheet: string, name: string): Promise<void> {
    this.#sheet(sheet).setName(name);
    await this.#settled();
  }

  /** The name of the copy. */
  async duplicate(sheet: string): Promise<string> {
    const copy = this.#grid.workbook.duplicateSheet(this.#sheet(sheet));
    await this.#settled();
    return copy.getSheetName();
  }

  async remove(sheet: string): Promise<void> {
    if (!this.#grid.workbook.deleteSheet(this.#sheet(sheet))) throw new Error(`“${sheet}” cannot be deleted`);
    await this.#settled();
  }

  /** Cells with values, formulas and formats, as a file keeps them, on another grid that knows nothing of how they were built. */
  async copyToAnotherBook(sheet: string, name = `${sheet} from a file`): Promise<Copied> {
    const other = nodeGrid();
    const from = this.#sheet(sheet);
    const styles = this.#grid.workbook.getWorkbook().getStyles();
    const area = await this.host.used(sheet);
    const formulas = from.getRange(0, 0, area.rows, area.columns).getFormulas();
    const cellData: Record<number, Record<number, ICellData>> = {};
    from.getSheet().getCellMatrix().forValue((row, column, cell) => {
      if (!cell) return;
      const f = formulas[row]?.[column];
      const s = styles.getStyleByCell(cell);
      (cellData[row] ??= {})[column] = { ...(f ? { f } : (cell.v ?? "") === "" ? {} : { v: cell.v!, t: cell.t ?? null }), ...(s && { s: structuredClone(s) }) };
    });
    other.workbook.create(name, from.getMaxRows(), from.getMaxColumns(), { sheet: { cellData, mergeData: structuredClone(from.getSheet().getMergeData()) } });
    await new GridFaults(other).#settled();
    return { host: other.host, sheet: name };
  }

  /** Makes a name of the sheet stand for other cells. */
  async changeName(sheet: string, name: string, area: Area): Promise<void> {
    const { core, formula, univer } = this.#grid.runtime;
    const injector = univer.__getInjector();
    const known = injector.get(formula.IDefinedNamesService).getDefinedNameMap(workbookId) ?? {};
    const entries = [`${this.#sheet(sheet).getSheetId()}!`, "plain!"].flatMap((owner) => known[`${owner}${name.toLowerCase()}`] ?? []);
    if (entries.length === 0) throw new Error(`“${sheet}” has no name ${name}`);
    for (const entry of entries) injector.get(core.ICommandService).syncExecuteCommand("formula.mutation.set-defined-name", { unitId: workbookId, ...entry, formulaOrRefString: `${quotedSheet(sheet)}!${areaA1(area, !entry.hidden)}` });
    await this.#settled();
  }

  #cell(entry: FaultyEntry): ICellData {
    const { CellValueType } = this.#grid.runtime.core;
    if (entry === null) return {};
    if (typeof entry === "object") return { f: entry.formula };
    if (typeof entry === "boolean") return { v: entry ? 1 : 0, t: CellValueType.BOOLEAN };
    return { v: entry, t: typeof entry === "string" ? CellValueType.STRING : CellValueType.NUMBER };
  }

  async #put(sheet: string, { row, column }: Address, cell: ICellData): Promise<void> {
    const target = this.#sheet(sheet);
    if (!target.getWorksheetPermission().canEditCell(row, column)) throw new Error(`the cell at row ${row + 1}, column ${column + 1} of “${sheet}” is protected: take the protection away first`);
    target.getRange(row, column, 1, 1).setValue(cell);
    await this.#settled();
  }

  /** What follows from an edit of rows is computed late or not at all: everything is computed once more. */
  async #settled(): Promise<void> {
    await calculated(this.#grid.runtime);
    await this.host.recalculate();
  }

  #sheet(name: string) {
    const sheet = this.#grid.workbook.getSheetByName(name);
    if (!sheet) throw new Error(`there is no sheet “${name}”`);
    return sheet;
  }
}

export const gridWithFaults = (): GridFaults => new GridFaults(nodeGrid());
