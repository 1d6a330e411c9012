import { holds, type Address, type Area } from "../../src/cells/index.ts";
import type { ColourRule } from "../../src/hosts/index.ts";
import { freeSheetName } from "../../src/sheet/index.ts";
import { MemoryHost } from "../hosts/memory/memoryHost.ts";
import {
  areaAfter,
  rowsAfter,
  withRowsMoved,
  withSheetGone,
  withSheetRenamed,
  type RowEdit,
} from "../hosts/memory/rowsMoved.ts";
import { cellOf, copyOf, isLocked, putCell, type MemoryCell, type MemorySheet } from "../hosts/memory/sheet.ts";
import type { Copied, Faults, FaultyEntry, OwnColours } from "./faults.ts";

const single = ({ row, column }: Address): Area => ({ row, column, rows: 1, columns: 1 });
const upper = (rgb: string | undefined): string | undefined => rgb?.toUpperCase();

/** What people do to a sheet, done in memory. */
export class MemoryFaults implements Faults {
  constructor(readonly host: MemoryHost = new MemoryHost()) {}

  unprotected(sheet: string): Promise<void> {
    return this.#edit(sheet, (found) => {
      found.unlocked = undefined;
    });
  }

  protectedBut(sheet: string, at: Address): Promise<void> {
    return this.#edit(sheet, (found) => {
      found.unlocked = [single(at)];
    });
  }

  typeOver(name: string, at: Address, entry: FaultyEntry): Promise<void> {
    return this.#edit(name, (sheet) => {
      const { row, column } = at;
      if (isLocked(sheet, at))
        throw new Error(
          `the cell at row ${row + 1}, column ${column + 1} of “${name}” is protected: take the protection away first`,
        );
      const content =
        entry !== null && typeof entry === "object"
          ? { value: null, text: "", formula: entry.formula }
          : { value: entry, text: "" };
      this.host.workbook.put(sheet, [{ sheet: name, row, column, cell: { ...cellOf(sheet, row, column), content } }]);
    });
  }

  insertRows(sheet: string, before: number, inserted: number): Promise<void> {
    return this.#moveRows(sheet, { inserted, before });
  }

  deleteRows(sheet: string, from: number, deleted: number): Promise<void> {
    return this.#moveRows(sheet, { deleted, from });
  }

  hideRow(sheet: string, row: number): void {
    this.#sheet(sheet).hiddenRows.add(row);
  }

  hideColumn(sheet: string, column: number): void {
    this.#sheet(sheet).hiddenColumns.add(column);
  }

  setFormat(sheet: string, at: Address, format: string): void {
    this.#look(sheet, at, (cell) => ({ ...cell, format }));
  }

  setColour(sheet: string, at: Address, color: string): void {
    this.#look(sheet, at, (cell) => ({ ...cell, style: { ...cell.style, color } }));
  }

  setSize(sheet: string, at: Address, size: number): void {
    this.#look(sheet, at, (cell) => ({ ...cell, style: { ...cell.style, size } }));
  }

  addColours(sheet: string, area: Area, _least: number, { color, background, format }: OwnColours): void {
    this.#sheet(sheet).colours.push({
      areas: [area],
      color: upper(color)!,
      ...(background !== undefined && { background: upper(background)! }),
      ...(format !== undefined && { format }),
    });
  }

  clearColours(sheet: string, text?: string): void {
    const found = this.#sheet(sheet);
    found.colours = text === undefined ? [] : found.colours.filter((rule) => rule.text !== text);
  }

  swapColours(sheet: string, text: string, as: string): void {
    const found = this.#sheet(sheet);
    const { color, background } = found.colours.find((rule) => rule.text === as)!;
    found.colours = found.colours.map((rule): ColourRule => {
      if (rule.text !== text) return rule;
      const { color: _color, background: _background, ...rest } = rule;
      return { ...rest, ...(color !== undefined && { color }), ...(background !== undefined && { background }) };
    });
  }

  setEntryRule(sheet: string, at: Address, between?: readonly [number, number]): void {
    const found = this.#sheet(sheet);
    found.entries = found.entries.flatMap((one) => (holds(one, at) ? without(one, at) : [one]));
    if (!between) return;
    const [min, max] = between;
    found.entries.push({ ...single(at), entry: { rule: { kind: "number", min, max }, refuses: true } });
  }

  rename(from: string, to: string): Promise<void> {
    return this.#edit(from, (sheet) => {
      for (const other of this.host.workbook.sheets) {
        rewrite(other, (formula) => withSheetRenamed(formula, from, to));
        other.names = other.names.map((one) =>
          one.area?.sheet === from ? { ...one, area: { ...one.area, sheet: to } } : one,
        );
      }
      sheet.name = to;
      this.host.workbook.rebuilt();
    });
  }

  async duplicate(sheet: string): Promise<string> {
    let name = "";
    await this.#edit(sheet, (found) => {
      const { sheets } = this.host.workbook;
      name = freeSheetName(
        sheet,
        sheets.map((one) => one.name),
      );
      const copy: MemorySheet = {
        ...copied(found, name),
        names: found.names.map((one) => (one.area ? { ...one, area: { ...one.area, sheet: name } } : one)),
        unlocked: found.unlocked && [...found.unlocked],
      };
      sheets.push(copy);
      this.host.workbook.rebuilt();
    });
    return name;
  }

  remove(sheet: string): Promise<void> {
    return this.#edit(sheet, (found) => {
      const { sheets } = this.host.workbook;
      sheets.splice(sheets.indexOf(found), 1);
      for (const other of sheets) rewrite(other, (formula) => withSheetGone(formula, sheet));
      this.host.workbook.rebuilt();
    });
  }

  async copyToAnotherBook(sheet: string, name = `${sheet} from a file`): Promise<Copied> {
    const host = new MemoryHost();
    await this.#edit(sheet, (found) => {
      host.workbook.sheets.push(copied(found, name));
      host.workbook.rebuilt();
    });
    return { host, sheet: name };
  }

  changeName(sheet: string, name: string, area: Area): Promise<void> {
    return this.#edit(sheet, (found) => {
      if (!found.names.some((one) => one.name === name)) throw new Error(`“${sheet}” has no name ${name}`);
      found.names = found.names.map((one) => {
        if (one.name !== name) return one;
        const { row, column, rows, columns } = area;
        return { name, area: { sheet: found.name, row, column, rows, columns } };
      });
      this.host.workbook.rebuilt();
    });
  }

  #moveRows(name: string, edit: RowEdit): Promise<void> {
    return this.#edit(name, (sheet) => {
      if ("inserted" in edit) {
        while (sheet.cells.length < edit.before) sheet.cells.push([]);
        sheet.cells.splice(edit.before, 0, ...Array.from({ length: edit.inserted }, () => []));
      } else sheet.cells.splice(edit.from, edit.deleted);
      for (const other of this.host.workbook.sheets) {
        rewrite(other, (formula) => withRowsMoved(formula, other.name, sheet.name, edit));
        other.names = other.names.map(({ name: own, area }) => {
          const after = area?.sheet === sheet.name ? areaAfter(edit, area) : area;
          return { name: own, ...(after && { area: after }) };
        });
      }
      const kept = <T extends Area>(areas: readonly T[]): T[] => areas.flatMap((area) => areaAfter(edit, area) ?? []);
      sheet.entries = kept(sheet.entries);
      sheet.spans = kept(sheet.spans);
      sheet.unlocked &&= kept(sheet.unlocked);
      sheet.colours = sheet.colours.flatMap((rule) => {
        const areas = kept(rule.areas);
        return areas.length > 0 ? [{ ...rule, areas }] : [];
      });
      const rowAfter = (row: number): readonly number[] => rowsAfter(edit, row, row)?.slice(0, 1) ?? [];
      sheet.hiddenRows = new Set([...sheet.hiddenRows].flatMap(rowAfter));
      sheet.heights = new Map(
        [...sheet.heights].flatMap(([row, height]) => rowAfter(row).map((to) => [to, height] as const)),
      );
      this.host.workbook.rebuilt();
    });
  }

  #look(name: string, { row, column }: Address, change: (cell: MemoryCell) => MemoryCell): void {
    const sheet = this.#sheet(name);
    this.host.workbook.lookedOtherwise();
    putCell(sheet, row, column, change(cellOf(sheet, row, column) ?? { content: { value: null, text: "" } }));
  }

  #sheet(name: string): MemorySheet {
    return this.host.workbook.sheet(name);
  }

  /** As on every host: later, and by rejecting. */
  async #edit(sheet: string, work: (sheet: MemorySheet) => void): Promise<void> {
    await Promise.resolve();
    work(this.#sheet(sheet));
  }
}

/** An area without one of its cells: what lies above, below, left and right of it. */
function without<T extends Area>(area: T, { row, column }: Address): T[] {
  const below = area.row + area.rows - row - 1;
  const right = area.column + area.columns - column - 1;
  return [
    { ...area, rows: row - area.row },
    { ...area, row: row + 1, rows: below },
    { ...area, row, rows: 1, columns: column - area.column },
    { ...area, row, rows: 1, column: column + 1, columns: right },
  ].filter(({ rows, columns }) => rows > 0 && columns > 0);
}

function rewrite(sheet: MemorySheet, to: (formula: string) => string): void {
  sheet.cells = sheet.cells.map((line) =>
    line.map((cell) => {
      const formula = cell?.content.formula;
      return cell && formula !== undefined ? { ...cell, content: { ...cell.content, formula: to(formula) } } : cell;
    }),
  );
}

/** Cells, looks and rules; names and protection are left behind. */
function copied(sheet: MemorySheet, name: string): MemorySheet {
  return { ...copyOf(sheet), name, names: [], unlocked: undefined };
}
