import { cellAt, type Address, type PlacedArea } from "../../cells/index.ts";
import type { Host } from "../../hosts/index.ts";
import type { Plan } from "../../sheet/index.ts";
import { recognise } from "../recognise/recognise.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { plannedAt } from "../recognise/standing.ts";
import { labelFromTexts, labelOfMeaning, reach, type Label } from "./labels.ts";
import type { Reading } from "./reading.ts";

/** For so long (in ms) a sheet that no template built is taken for one. */
const pause = 60_000;

interface Known {
  readonly sheet: Recognised | undefined;
  readonly at: number;
}

/**
 * What is known of the sheets of a workbook: which of them templates built, and what their cells mean. A sheet is
 * recognised when it is first asked for, and again when the cells at hand are no longer those it had then; not at every
 * selection.
 */
export class Knowledge {
  readonly #known = new Map<string, Promise<Known>>();
  constructor(private readonly host: Host) {}

  #look(sheet: string): Promise<Known> {
    const found = (async (): Promise<Known> => ({ sheet: await recognise(this.host, sheet), at: Date.now() }))();
    this.#known.set(sheet, found);
    // What failed is asked again the next time.
    found.catch(() => {
      if (this.#known.get(sheet) === found) this.#known.delete(sheet);
    });
    return found;
  }

  /** Forgets a sheet, or all of them. */
  forget(sheet?: string): void {
    if (sheet === undefined) this.#known.clear();
    else this.#known.delete(sheet);
  }

  /** The sheet as its template's, as it was when it was last recognised. */
  async of(sheet: string): Promise<Recognised | undefined> {
    const before = await (this.#known.get(sheet) ?? this.#look(sheet));
    return before.sheet;
  }

  /** The same, recognised anew where rows of it that have just been read are not those it had. */
  async current(sheet: string, rows: readonly PlacedArea[], reading: Reading): Promise<Recognised | undefined> {
    const before = await (this.#known.get(sheet) ?? this.#look(sheet));
    const { sheet: known, at } = before;
    if (known ? rows.every((area) => sameTexts(known, area, reading)) : Date.now() - at < pause) return known;
    return (await this.#look(sheet)).sheet;
  }
}

/** Whether the row still says what it said; numbers and choices typed in may change. */
function sameTexts(known: Recognised, { sheet, row, column, columns }: PlacedArea, reading: Reading): boolean {
  for (let c = column; c < column + columns; c++) {
    const before = cellAt(known.snapshot, row, c);
    const now = reading.at(sheet, row, c);
    if (before.formula !== now.formula) return false;
    // The last columns are that of a value, and those to its right.
    if (
      now.formula === undefined &&
      c < column + columns - 1 - reach.right &&
      (typeof before.value === "string" || typeof now.value === "string") &&
      before.value !== now.value
    )
      return false;
  }
  return true;
}

const computedKept = new WeakMap<Plan, ReadonlySet<number>>();

/** The cells of a plan that have a formula, a number each. */
function computedCells(plan: Plan): ReadonlySet<number> {
  const all =
    computedKept.get(plan) ??
    new Set(plan.cells.filter(({ formula }) => formula !== undefined).map((cell) => numberIn(plan, cell)));
  computedKept.set(plan, all);
  return all;
}
const numberIn = ({ columns }: Plan, { row, column }: Address): number => row * columns + column;

/** Whether the template has a formula there, whatever stands there now. */
function isComputed(known: Recognised, at: Address): boolean {
  const planned = plannedAt(known, at);
  return planned !== undefined && computedCells(known.plan).has(numberIn(known.plan, planned));
}

const listOfWarnings: Label = { item: "", description: "list of warnings", symbol: "", unit: "", from: "template" };

/** Whether a row is a line of the sheet's list of warnings, whose cells have no meanings of their own. */
function isListed({ plan, rowPlanned }: Recognised, row: number): boolean {
  const { row: first, rows } = plan.summary.warnings;
  const planned = rowPlanned(row);
  return planned !== undefined && planned >= first && planned < first + rows;
}

/** What a cell is called, on a sheet that a template built or on any other; its row and column must have been read. */
export function labelAt(
  known: Recognised | undefined,
  reading: Reading,
  sheet: string,
  row: number,
  column: number,
): Label | undefined {
  const meaning = known?.meaningAt({ row, column });
  if (meaning) return labelOfMeaning(meaning, isComputed(known!, { row, column }));
  if (known && isListed(known, row)) return { ...listOfWarnings, computed: true };
  return labelFromTexts((r, c) => reading.at(sheet, r, c), row, column);
}
