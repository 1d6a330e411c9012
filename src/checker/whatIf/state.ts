import {
  type Address,
  type Book,
  Calculation,
  cellAt,
  cellsOf,
  type Change,
  type Computed,
  type Snapshot,
} from "../../cells/index.ts";
import { readBook } from "../book/readBook.ts";
import { columns } from "../../sheet/index.ts";
import type { Host } from "../../hosts/index.ts";
import { linkedTo } from "../link/link.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { recognise } from "../recognise/recognise.ts";
import { standing } from "../recognise/standing.ts";
import { sheetInputs, type SheetInput } from "./sheetInputs.ts";

/** A cell of the plan that the sheet still holds. */
interface Standing {
  readonly at: Address;
}

/** A check of the sheet: where its utilisation, its verdict and the place where it governs stand now. */
export interface CheckCells {
  readonly id: string;
  readonly description: string;
  readonly utilisation: Address;
  readonly verdict: Address;
  readonly where: Address;
  /** Typed over: it follows no input. */
  readonly typedOver: boolean;
}

/** A recognised sheet with its book, ready for questions. */
export interface Questioned {
  readonly sheet: string;
  readonly recognised: Recognised;
  readonly book: Book;
  readonly inputs: readonly SheetInput[];
  readonly checks: readonly CheckCells[];
  /** Checks of the plan that the sheet lost. */
  readonly lost: readonly string[];
  /** Cells that hold a typed value where the template has a formula: nothing moves through them. */
  readonly stuck: readonly Address[];
  readonly overall: Address | undefined;
  /** The linked sheets that take their values from this one. */
  readonly linked?: readonly Questioned[];
  readonly warnings: readonly (Standing & { readonly of: string })[];
  readonly verdicts: readonly (Standing & { readonly of: string })[];
}

function typedOver(snapshot: Snapshot, ...cells: readonly Address[]): boolean {
  return cells.some(({ row, column }) => cellAt(snapshot, row, column).formula === undefined);
}

/** What the label of a row says, as the sheet has it. */
function rowLabel({ plan, meaningAt }: Recognised, now: Address, planned: Address): string {
  const meaning =
    plan.meanings.find((m) => planned.row >= m.at.row && planned.row < m.at.row + m.at.rows) ?? meaningAt(now);
  return meaning ? `${meaning.item} ${meaning.description}`.trim() : `row ${now.row + 1}`;
}

/** A recognised sheet made ready for questions. */
export function questionedOf(recognised: Recognised, book: Book): Questioned {
  const { plan, snapshot } = recognised;
  const lost: string[] = [];
  const checks = plan.summary.checks.flatMap(({ id, description, ...cells }) => {
    const [utilisation, verdict, where] = [cells.utilisation, cells.verdict, cells.where].map((at) =>
      standing(recognised, at),
    );
    if (utilisation && verdict && where)
      return [{ id, description, utilisation, verdict, where, typedOver: typedOver(snapshot, utilisation, verdict) }];
    lost.push(description);
    return [];
  });
  const { warnings: list, overall } = plan.summary;
  const warnings = cellsOf(list).flatMap((planned) => {
    const at = standing(recognised, planned);
    const label = plan.cells.find(({ row, column }) => row === planned.row && column === columns.description)?.value;
    return at ? [{ at, of: String(label ?? "") }] : [];
  });
  const verdicts = plan.cells
    .filter(({ column, formula }) => column === columns.verdict && formula !== undefined)
    .flatMap((planned) => {
      const at = standing(recognised, planned);
      return at ? [{ at, of: rowLabel(recognised, at, planned) }] : [];
    });
  const stuck = plan.cells.flatMap((planned) => {
    const at = planned.formula === undefined || planned.role === "mark" ? undefined : standing(recognised, planned);
    return at && typedOver(snapshot, at) ? [at] : [];
  });
  return {
    sheet: snapshot.sheet,
    recognised,
    book,
    inputs: sheetInputs(recognised),
    checks,
    lost,
    stuck,
    overall: standing(recognised, overall),
    warnings,
    verdicts,
  };
}

/** Reads a sheet for questions; undefined where no template of this version built it. */
export async function questioned(host: Host, sheet: string): Promise<Questioned | undefined> {
  const recognised = await recognise(host, sheet);
  if (!recognised) return undefined;
  const linked = await linkedTo(host, recognised);
  const book = await readBook(
    host,
    recognised.snapshot,
    linked.map(({ snapshot }) => snapshot),
  );
  return { ...questionedOf(recognised, book), linked: linked.map((one) => questionedOf(one, book)) };
}

/** A check under some inputs. */
export interface CheckState {
  /** Undefined where it is no number. */
  readonly utilisation: number | undefined;
  /** The utilisation's text where it is no number: an error, or why there is none. */
  readonly said: string;
  readonly verdict: string;
  readonly where: string;
}

/** A value as it is read: an error by its code, what cannot be computed by its reason. */
export function textOf({ value, error, cannot }: Computed): string {
  return (
    cannot ??
    error?.code ??
    (value === null ? "" : typeof value === "boolean" ? String(value).toUpperCase() : String(value))
  );
}

/** The sheet under some inputs: its own where nothing is changed. */
export class State {
  readonly #calculation: Calculation;
  constructor(
    private readonly of: Questioned,
    changes: readonly Change[] = [],
  ) {
    this.#calculation = new Calculation(of.book, changes);
  }

  at(address: Address): Computed {
    return this.#calculation.valueAt({ sheet: this.of.sheet, ...address });
  }

  text(address: Address | undefined): string {
    return address ? textOf(this.at(address)) : "";
  }

  check({ utilisation, verdict, where }: CheckCells): CheckState {
    const of = this.at(utilisation);
    return {
      utilisation: typeof of.value === "number" ? of.value : undefined,
      said: typeof of.value === "number" ? "" : textOf(of),
      verdict: this.text(verdict),
      where: this.text(where),
    };
  }

  /** Why a check has no number: the message of the first error on the way, where the host's functions gave one. */
  reason({ utilisation }: CheckCells): string {
    const { error, cannot, value } = this.at(utilisation);
    return cannot ?? error?.message ?? error?.code ?? textOf({ value });
  }
}
