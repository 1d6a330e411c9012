import { type Address, type Area, areaA1, quotedSheet } from "../../src/cells/index.ts";
import type { ICellData } from "@univerjs/core";
import { calculated } from "../../src/hosts/grid/calculated.ts";
import { lockedAreas } from "../../src/hosts/grid/lockedAreas.ts";
import { nodeGrid, type NodeGrid } from "../../src/hosts/grid/node.ts";
import { rangeOf } from "../../src/hosts/grid/sheetData.ts";
import { workbookId, type GridSheet } from "../../src/hosts/grid/runtime.ts";
import { type GridHost } from "../../src/hosts/index.ts";
import type { Copied, Faults, FaultyEntry, OwnColours } from "./faults.ts";

/** What people do to a sheet that was built, done on a grid without a screen. Each resolves when the grid has computed what follows. */
export class GridFaults implements Faults {
  readonly host: GridHost;
  readonly #grid: NodeGrid;

  constructor(grid: NodeGrid) {
    this.#grid = grid;
    this.host = grid.host;
  }

  async unprotected(sheet: string): Promise<void> {
    for (const rule of await this.#sheet(sheet).getWorksheetPermission().listRangeProtectionRules())
      await rule.remove();
  }

  async protectedBut(sheet: string, { row, column }: Address): Promise<void> {
    const { api } = this.#grid.runtime;
    const target = this.#sheet(sheet);
    const { rows, columns } = await this.host.used(sheet);
    const ranges = lockedAreas(rows, columns, [{ row, column, rows: 1, columns: 1 }]).map((area) =>
      target.getRange(area.row, area.column, area.rows, area.columns),
    );
    for (const rule of await target.getWorksheetPermission().protectRanges([{ ranges, options: { name: "again" } }]))
      await rule.setPoint(api.Enum.RangePermissionPoint.Edit, false);
  }

  async typeOver(sheet: string, at: Address, entry: FaultyEntry): Promise<void> {
    await this.#put(sheet, at, { v: null, f: null, si: null, t: null, p: null, ...this.#cell(entry) });
  }

  async insertRows(sheet: string, before: number, count: number): Promise<void> {
    this.#sheet(sheet).insertRowsBefore(before, count);
    this.#coloursFollow(sheet, (row) => (row >= before ? row + count : row));
    await this.#settled();
  }

  async deleteRows(sheet: string, first: number, count: number): Promise<void> {
    this.#sheet(sheet).deleteRows(first, count);
    this.#coloursFollow(sheet, (row, end) =>
      row < first ? row : row >= first + count ? row - count : end ? first - 1 : first,
    );
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

  setColour(sheet: string, { row, column }: Address, rgb: string): void {
    this.#sheet(sheet).getRange(row, column, 1, 1).setFontColor(rgb);
  }

  setSize(sheet: string, { row, column }: Address, points: number): void {
    this.#sheet(sheet).getRange(row, column, 1, 1).setFontSize(points);
  }

  addColours(sheet: string, area: Area, least: number, style: OwnColours): void {
    const { color, background, format } = style;
    this.#sheet(sheet).addConditionalFormattingRule({
      cfId: `own-${area.row}-${area.column}-${color}`,
      ranges: [rangeOf(area)],
      stopIfTrue: false,
      rule: {
        type: "highlightCell",
        subType: "number",
        operator: "greaterThanOrEqual",
        value: least,
        style: {
          cl: { rgb: color },
          ...(background && { bg: { rgb: background } }),
          ...(format && { n: { pattern: format } }),
        },
      },
    } as Parameters<GridSheet["addConditionalFormattingRule"]>[0]);
  }

  clearColours(sheet: string, text?: string): void {
    const target = this.#sheet(sheet);
    for (const { cfId, rule } of target.getConditionalFormattingRules())
      if (text === undefined || (rule as { readonly value?: unknown }).value === text)
        target.deleteConditionalFormattingRule(cfId);
  }

  swapColours(sheet: string, text: string, as: string): void {
    const target = this.#sheet(sheet);
    const rules = target.getConditionalFormattingRules();
    const valueOf = (rule: (typeof rules)[number]): unknown => (rule.rule as { readonly value?: unknown }).value;
    const { style } = rules.find((rule) => valueOf(rule) === as)!.rule as { readonly style?: unknown };
    for (const rule of rules.filter((one) => valueOf(one) === text))
      target.setConditionalFormattingRule(rule.cfId, { ...rule, rule: { ...rule.rule, style } as typeof rule.rule });
  }

  setEntryRule(sheet: string, { row, column }: Address, between?: readonly [number, number]): void {
    const rule = between
      ? this.#grid.runtime.api
          .newDataValidation()
          .requireNumberBetween(...between)
          .setAllowInvalid(false)
          .build()
      : null;
    this.#sheet(sheet).getRange(row, column, 1, 1).setDataValidation(rule);
  }

  async rename(sheet: string, name: string): Promise<void> {
    this.#sheet(sheet).setName(name);
    await this.#settled();
  }

  async duplicate(sheet: string): Promise<string> {
    const copy = this.#grid.workbook.duplicateSheet(this.#sheet(sheet));
    await this.#settled();
    return copy.getSheetName();
  }

  async remove(sheet: string): Promise<void> {
    if (!this.#grid.workbook.deleteSheet(this.#sheet(sheet))) throw new Error(`“${sheet}” cannot be deleted`);
    await this.#settled();
  }

  async copyToAnotherBook(sheet: string, name = `${sheet} from a file`): Promise<Copied> {
    const other = nodeGrid();
    const from = this.#sheet(sheet);
    const styles = this.#grid.workbook.getWorkbook().getStyles();
    const area = await this.host.used(sheet);
    const formulas = from.getRange(0, 0, area.rows, area.columns).getFormulas();
    const cellData: Record<number, Record<number, ICellData>> = {};
    from
      .getSheet()
      .getCellMatrix()
      .forValue((row, column, cell) => {
        if (!cell) return;
        const f = formulas[row]?.[column];
        const s = styles.getStyleByCell(cell);
        (cellData[row] ??= {})[column] = {
          ...(f ? { f } : (cell.v ?? "") === "" ? {} : { v: cell.v!, t: cell.t ?? null }),
          ...(s && { s: structuredClone(s) }),
        };
      });
    const to = other.workbook.create(name, from.getMaxRows(), from.getMaxColumns(), {
      sheet: { cellData, mergeData: structuredClone(from.getSheet().getMergeData()) },
    });
    for (const rule of from.getConditionalFormattingRules()) to.addConditionalFormattingRule(structuredClone(rule));
    const rules = from.getDataValidations().map(({ rule }) => structuredClone(rule));
    if (rules.length > 0)
      other.runtime.univer
        .__getInjector()
        .get(other.runtime.core.ICommandService)
        .syncExecuteCommand("data-validation.mutation.addRule", {
          unitId: workbookId,
          subUnitId: to.getSheetId(),
          rule: rules,
          source: "command",
        });
    await new GridFaults(other).#settled();
    return { host: other.host, sheet: name };
  }

  async changeName(sheet: string, name: string, area: Area): Promise<void> {
    const { core, formula, univer } = this.#grid.runtime;
    const injector = univer.__getInjector();
    const known = injector.get(formula.IDefinedNamesService).getDefinedNameMap(workbookId) ?? {};
    const entries = [`${this.#sheet(sheet).getSheetId()}!`, "plain!"].flatMap(
      (owner) => known[`${owner}${name.toLowerCase()}`] ?? [],
    );
    if (entries.length === 0) throw new Error(`“${sheet}” has no name ${name}`);
    for (const entry of entries)
      injector.get(core.ICommandService).syncExecuteCommand("formula.mutation.set-defined-name", {
        unitId: workbookId,
        ...entry,
        formulaOrRefString: `${quotedSheet(sheet)}!${areaA1(area, !entry.hidden)}`,
      });
    await this.#settled();
  }

  /** On a screen colours move with their rows; the grid without one leaves them where they were. */
  #coloursFollow(sheet: string, moved: (row: number, end: boolean) => number): void {
    const target = this.#sheet(sheet);
    for (const rule of target.getConditionalFormattingRules()) {
      const ranges = rule.ranges
        .map((range) => ({ ...range, startRow: moved(range.startRow, false), endRow: moved(range.endRow, true) }))
        .filter(({ startRow, endRow }) => startRow <= endRow);
      if (ranges.length === 0) target.deleteConditionalFormattingRule(rule.cfId);
      else target.setConditionalFormattingRule(rule.cfId, { ...rule, ranges });
    }
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
    if (!target.getWorksheetPermission().canEditCell(row, column))
      throw new Error(
        `the cell at row ${row + 1}, column ${column + 1} of “${sheet}” is protected: take the protection away first`,
      );
    target.getRange(row, column, 1, 1).setValue(cell);
    await calculated(this.#grid.runtime);
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
