import type { ICommandInfo } from "@univerjs/core";
import { piecesOf, sheetsIn } from "../../cells/index.ts";
import { UntilFinished, type Passes } from "./passes.ts";
import { workbookId, type GridRuntime, type GridWorkbook } from "./runtime.ts";

interface Params {
  readonly subUnitId?: string;
  readonly sheet?: { readonly id?: string };
  readonly name?: string;
  readonly cellValue?: Readonly<Record<string, Readonly<Record<string, CellParams | null>> | null>>;
}
interface CellParams {
  readonly f?: string | null;
  readonly si?: string | null;
}

const bringsFormula = ({ cellValue = {} }: Params): boolean =>
  Object.values(cellValue).some((row) => Object.values(row ?? {}).some((cell) => Boolean(cell?.f ?? cell?.si)));

/** A sheet as far as its formulas go: planned, or of a file. */
interface WithFormulas {
  readonly cells: readonly { readonly formula?: string }[];
}

/** The other sheets that its formulas read, in small letters; undefined where one of them has a name, which may change. */
function readBy({ cells }: WithFormulas): ReadonlySet<string> | undefined {
  const sheets = new Set<string>();
  for (const { formula } of cells) {
    if (formula === undefined) continue;
    if (piecesOf(formula).some(({ kind }) => kind === "name")) return undefined;
    for (const name of sheetsIn(formula)) sheets.add(name.toLowerCase());
  }
  return sheets;
}

const comingOrGoing = /^sheet\.mutation\.(insert-sheet|remove-sheet|set-worksheet-name)$/;
const entering = "sheet.mutation.set-range-values";
const renaming = "sheet.command.set-worksheet-name";

/**
 * Built sheets whose formulas read only themselves and other such sheets (a stress check with its linked sheets), until
 * somebody types a formula there. At each calculation the grid goes through every formula of the workbook, so that an
 * entry would take longer with each sheet; it is handed the formulas of such a sheet only where something on it, or on
 * a sheet that it reads, has changed.
 */
export class SelfContained {
  readonly #workbook: GridWorkbook;
  /** Built sheets, with the names of the sheets that they read. */
  readonly #built = new Map<string, ReadonlySet<string>>();
  /** Those that read only one another, with the sheets that they read. */
  #members: ReadonlyMap<string, ReadonlySet<string>> | undefined;
  /** What a sheet that is being renamed was called. */
  #renamed: string | undefined;
  /** Steps in which the grid writes its new name into the formulas that read it; some end after the renaming. */
  readonly #rewriting = new WeakSet<object>();
  /** Sheets on which all that follows from entries stands already. */
  readonly #computed: UntilFinished;
  /** Sheets whose formulas are to be read at the next calculation although nothing has changed. */
  readonly #unread: UntilFinished;

  constructor({ core, formula, univer }: GridRuntime, workbook: GridWorkbook, passes: Passes) {
    this.#workbook = workbook;
    this.#computed = new UntilFinished(passes);
    this.#unread = new UntilFinished(passes);
    const injector = univer.__getInjector();
    const current = injector.get(formula.IFormulaCurrentConfigService);
    const all = current.getFormulaData.bind(current);
    current.getFormulaData = () => {
      const data = all();
      const own = data[workbookId];
      if (!own || current.isForceCalculate()) return data;
      const changed = new Set<string | undefined>([
        ...current.getDirtyRanges().map(({ sheetId }) => sheetId),
        ...Object.keys(current.getDirtyNameMap()[workbookId] ?? {}),
        ...this.#unread.keys(),
      ]);
      const concerned = this.#concerned((id) => changed.has(id) && !this.#computed.has(id));
      const wanted = Object.entries(own).filter(([id]) => !this.has(id) || concerned.has(id));
      return { ...data, [workbookId]: Object.fromEntries(wanted) };
    };
    const commands = injector.get(core.ICommandService);
    commands.beforeCommandExecuted(({ id, params }) => {
      if (id.startsWith("sheet.command.")) this.#renamed = undefined;
      const { subUnitId }: Params = params ?? {};
      if (id === renaming && subUnitId !== undefined)
        this.#renamed = workbook.getSheetBySheetId(subUnitId)?.getSheetName().toLowerCase();
      if (id === entering && params && this.#renamed !== undefined) this.#rewriting.add(params);
    });
    commands.onCommandExecuted((command) => this.#follow(command));
  }

  #follow({ id, params }: Readonly<ICommandInfo>): void {
    const { subUnitId, sheet, name, ...rest }: Params = params ?? {};
    if (comingOrGoing.test(id)) this.#members = undefined;
    if (id === renaming) this.#renamed = undefined;
    if (id === "sheet.mutation.insert-sheet" && sheet?.id !== undefined) this.#built.delete(sheet.id);
    if (id === "sheet.mutation.set-worksheet-name" && this.#renamed !== undefined && name !== undefined)
      this.#rename(this.#renamed, name.toLowerCase());
    if (subUnitId === undefined || !this.#built.has(subUnitId)) return;
    if (id === "sheet.mutation.remove-sheet") this.#built.delete(subUnitId);
    if (id === entering && !this.#rewriting.has(params!) && bringsFormula(rest)) {
      this.#built.delete(subUnitId);
      this.#members = undefined;
    }
  }

  #rename(from: string, to: string): void {
    for (const [id, sheets] of this.#built)
      if (sheets.has(from)) this.#built.set(id, new Set([...sheets].map((one) => (one === from ? to : one))));
  }

  /** Sheets of which something else is read go, until all that is left reads only what is left. */
  #closed(): ReadonlyMap<string, ReadonlySet<string>> {
    if (this.#members) return this.#members;
    const ids = new Map(this.#workbook.getSheets().map((one) => [one.getSheetName().toLowerCase(), one.getSheetId()]));
    const members = new Map<string, ReadonlySet<string>>();
    for (const [id, names] of this.#built) {
      const sheets = [...names].map((name) => ids.get(name));
      if (sheets.every((sheet) => sheet !== undefined)) members.set(id, new Set(sheets));
    }
    const left = (): boolean => [...members].some(([id, reads]) => !within(reads, members) && members.delete(id));
    while (left());
    return (this.#members = members);
  }

  /** Those for which something holds, and those that read such a sheet. */
  #concerned(holds: (sheetId: string) => boolean): ReadonlySet<string> {
    const members = this.#closed();
    const out = new Set([...members.keys()].filter(holds));
    const more = (): boolean => {
      const before = out.size;
      for (const [id, reads] of members) if ([...reads].some((sheet) => out.has(sheet))) out.add(id);
      return out.size > before;
    };
    while (more());
    return out;
  }

  has(sheetId: string): boolean {
    return this.#closed().has(sheetId);
  }

  /** The sheet with those that it reads or that read it, directly or by way of others; itself alone where it is none of them. */
  family(sheetId: string): readonly string[] {
    const members = this.#closed();
    const out = new Set([sheetId]);
    // What is added meanwhile is gone through as well.
    for (const one of out)
      for (const [id, reads] of members) {
        if (reads.has(one)) out.add(id);
        if (id === one) for (const sheet of reads) out.add(sheet);
      }
    return [...out].sort();
  }

  /** Takes a sheet just built up, if it is one. */
  add(sheetId: string, sheet: WithFormulas): void {
    const reads = readBy(sheet);
    if (!reads) return;
    this.#built.set(sheetId, reads);
    this.#members = undefined;
  }

  /** Takes up a copy of such a sheet, with its formulas and values. */
  addCopy(copy: string, first: string): void {
    this.#built.set(copy, this.#built.get(first)!);
    this.#members = undefined;
  }

  /** Has the formulas of a sheet read in a calculation that is begun now. */
  reading(sheetId: string, calculate: () => void): void {
    this.#unread.add(sheetId);
    calculate();
  }

  /** What follows from the entries on a sheet stands there; the next calculation need not compute it. */
  computed(sheetId: string): void {
    this.#computed.add(sheetId);
  }

  toBeComputed(sheetId: string): void {
    this.#computed.delete(sheetId);
  }
}

function within(sheets: ReadonlySet<string>, all: ReadonlyMap<string, unknown>): boolean {
  for (const sheet of sheets) if (!all.has(sheet)) return false;
  return true;
}
