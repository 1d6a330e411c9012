import type { ICommandInfo } from "@univerjs/core";
import { namesIn, sheetsIn } from "../../cells/index.ts";
import { UntilFinished, type Passes } from "./passes.ts";
import { workbookId, type GridRuntime } from "./runtime.ts";

interface Params {
  readonly subUnitId?: string;
  readonly sheet?: { readonly id?: string };
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

/** By address or by name: what a name stands for may change. */
const readsOtherSheets = ({ cells }: WithFormulas): boolean =>
  cells.some(({ formula }) => formula !== undefined && (sheetsIn(formula).length > 0 || namesIn(formula).length > 0));

/**
 * Built sheets whose formulas read only their own sheet, until somebody types a formula there. At each calculation the
 * grid goes through every formula of the workbook, so that an entry would take longer with each sheet; it is handed the
 * formulas of such a sheet only where something on it has changed.
 */
export class SelfContained {
  readonly #sheets = new Set<string>();
  /** Sheets on which all that follows from entries stands already. */
  readonly #computed: UntilFinished;
  /** Sheets whose formulas are to be read at the next calculation although nothing has changed. */
  readonly #unread: UntilFinished;

  constructor({ core, formula, univer }: GridRuntime, passes: Passes) {
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
      const wanted = Object.entries(own).filter(
        ([id]) => !this.#sheets.has(id) || (changed.has(id) && !this.#computed.has(id)),
      );
      return { ...data, [workbookId]: Object.fromEntries(wanted) };
    };
    injector.get(core.ICommandService).onCommandExecuted((command) => this.#follow(command));
  }

  #follow({ id, params }: Readonly<ICommandInfo>): void {
    const { subUnitId, sheet, ...rest }: Params = params ?? {};
    if (id === "sheet.mutation.insert-sheet" && sheet?.id !== undefined) this.#sheets.delete(sheet.id);
    if (subUnitId === undefined || !this.#sheets.has(subUnitId)) return;
    if (id === "sheet.mutation.remove-sheet") this.#sheets.delete(subUnitId);
    if (id === "sheet.mutation.set-range-values" && bringsFormula(rest)) this.#sheets.delete(subUnitId);
  }

  has(sheetId: string): boolean {
    return this.#sheets.has(sheetId);
  }

  /** Takes a sheet just built up, if it is one. */
  add(sheetId: string, sheet: WithFormulas): void {
    if (!readsOtherSheets(sheet)) this.#sheets.add(sheetId);
  }

  /** Takes up a copy of such a sheet, with its formulas and values. */
  addCopy(sheetId: string): void {
    this.#sheets.add(sheetId);
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
