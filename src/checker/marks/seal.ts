import { a1, type Address, type Area, cellAt, cellsOf, firstStanding } from "../../cells/index.ts";
import { fnv1a64, sealOfValues } from "../../core/index.ts";
import { columns, sourceSheetId, type Plan, type PlannedCell } from "../../sheet/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { plannedAt } from "../recognise/standing.ts";
import type { Part } from "./parts.ts";
import { cellKey, placeless } from "./rowKeys.ts";

/** A part that cannot be marked now. */
export class NotMarkable extends Error {
  override readonly name = "NotMarkable";
}

/**
 * What was taken of a part when it was marked: of its values, as the sheet itself checks them, and of its formulas.
 * Number formats are not sealed: Compare reports them.
 */
interface Seal {
  readonly values: string;
  readonly formulas: string;
}

/**
 * An area without the words that name the source: they follow it when it is renamed. The pieces overlap, so that what
 * is inserted beside these words lies within one of them.
 */
function withoutSourceName(whole: Area, { plan, rowNow, columnNow }: Recognised): readonly Area[] {
  const name = plan.source && plan.meanings.find(({ id }) => id === sourceSheetId)?.at;
  const row = name && rowNow(name.row);
  const column = name && columnNow(name.column);
  if (row === undefined || column === undefined) return [whole];
  const [above, left] = [row - whole.row, column - whole.column];
  if (above < 0 || above >= whole.rows || left < 0 || left >= whole.columns) return [whole];
  const pieces: readonly Area[] = [
    { ...whole, columns: left },
    { ...whole, column: column + 1, columns: whole.columns - left - 1 },
    { ...whole, rows: above },
    { row: row + 1, column, rows: whole.rows - above - 1, columns: 1 },
  ];
  return pieces.filter(({ rows, columns: width }) => rows > 0 && width > 0);
}

/** Marks made before the name of the source was left out hold by all cells. */
type Which = "all" | "without the source's name";

/** The cells of a part as they stand now, in areas that leave out the marks. */
export function areasOf(
  part: Part,
  recognised: Recognised,
  which: Which = "without the source's name",
): readonly Area[] {
  const { plan, rowNow, columnNow } = recognised;
  const area = (first: number, last: number, left: number, right: number): Area[] => {
    const top = firstStanding(first, last, rowNow);
    const bottom = firstStanding(last, first, rowNow);
    const west = firstStanding(left, right, columnNow);
    const east = firstStanding(right, left, columnNow);
    return top === undefined || bottom === undefined || west === undefined || east === undefined
      ? []
      : [{ row: top, column: west, rows: bottom - top + 1, columns: east - west + 1 }];
  };
  const body = area(part.first, part.last, 0, columns.mark - 1);
  return [
    ...(which === "all" ? body : body.flatMap((whole) => withoutSourceName(whole, recognised))),
    ...(part.further ? area(...part.further, 0, columns.mark - 1) : []),
    ...part.wide.flatMap(([first, last]) => area(first, last, columns.mark, columns.mark)),
    ...(plan.columns > columns.mark + 1 ? area(part.first, part.last, columns.mark + 1, plan.columns - 1) : []),
  ];
}

/** What a cell counts for beside its value, each once: blocks, their rows and the whole sheet overlap. */
const written = new WeakMap<Recognised, Map<number, string>>();

function writtenIn(recognised: Recognised, at: { readonly row: number; readonly column: number }): string {
  const { snapshot, rowPlanned, columnPlanned, plan } = recognised;
  const known = written.get(recognised) ?? new Map<number, string>();
  written.set(recognised, known);
  const key = at.row * Math.max(plan.columns, snapshot.columns) + at.column;
  let text = known.get(key);
  if (text === undefined) {
    const { formula, value } = cellAt(snapshot, at.row, at.column);
    // What stands in inserted rows counts by its values. A typed 0 is told from an empty cell here, since functions cannot.
    const counts =
      rowPlanned(at.row) !== undefined &&
      columnPlanned(at.column) !== undefined &&
      (formula !== undefined || value === 0);
    text = counts
      ? `${cellKey(recognised, at)}${formula === undefined ? "0" : writtenAs(formula, recognised, at)}`
      : "";
    known.set(key, text);
  }
  return text;
}

/** Of a linked cell the source's name counts, wherever that cell stands; what it refers to is for Compare to tell. */
function writtenAs(formula: string, recognised: Recognised, at: Address): string {
  const planned = plannedAt(recognised, at);
  const link = planned && linksOf(recognised.plan).get(`${planned.row},${planned.column}`);
  return link ? `link ${link.name} ${link.index}` : placeless(formula, recognised);
}

const links = new WeakMap<Plan, ReadonlyMap<string, NonNullable<PlannedCell["link"]>>>();

function linksOf(plan: Plan): ReadonlyMap<string, NonNullable<PlannedCell["link"]>> {
  const known = links.get(plan);
  if (known) return known;
  const made = new Map(
    plan.cells.flatMap(({ row, column, link }) => (link ? [[`${row},${column}`, link] as const] : [])),
  );
  links.set(plan, made);
  return made;
}

/** The cells of a part that show an error: nobody signs them, and no function is called with them. */
export function errorsIn(part: Part, recognised: Recognised): readonly string[] {
  return areasOf(part, recognised)
    .flatMap(cellsOf)
    .filter(({ row, column }) => cellAt(recognised.snapshot, row, column).error)
    .map((at) => a1(at));
}

/** The present seal of a part; undefined where a cell shows an error. */
export function sealNow(part: Part, recognised: Recognised, which?: Which): Seal | undefined {
  if (errorsIn(part, recognised).length > 0) return undefined;
  const { snapshot } = recognised;
  const areas = areasOf(part, recognised, which);
  const values = sealOfValues(
    areas.map(({ row, column, rows, columns: width }) =>
      Array.from({ length: rows }, (_r, r) =>
        Array.from({ length: width }, (_c, c) => cellAt(snapshot, row + r, column + c).value),
      ),
    ),
  );
  const formulas = areas
    .flatMap(cellsOf)
    .map((at) => writtenIn(recognised, at))
    .filter((text) => text !== "");
  return { values, formulas: fnv1a64(formulas.join("\n")) };
}

/**
 * The seal of a part, to be marked now.
 * @throws NotMarkable where cells of it show an error or are gone
 */
export function sealOf(part: Part, recognised: Recognised): Seal {
  const errors = errorsIn(part, recognised);
  if (errors.length > 0)
    throw new NotMarkable(
      `${errors.slice(0, 5).join(", ")}${errors.length > 5 ? ` and ${errors.length - 5} more` : ""} ` +
        `${errors.length === 1 ? "shows an error" : "show errors"}; cells that show an error cannot be marked`,
    );
  if (areasOf(part, recognised).length === 0) throw new NotMarkable("its rows are no longer on the sheet");
  return sealNow(part, recognised)!;
}

/** A seal as a mark's formula holds it: 16 digits of its values, a dot, 16 of its formulas. */
export const sealText = ({ values, formulas }: Seal): string => `${values}.${formulas}`;

/** The same read again; undefined for anything else. */
export function readSeal(text: string): Seal | undefined {
  const [, values, formulas] = /^([0-9a-f]{16})\.([0-9a-f]{16})$/.exec(text) ?? [];
  return values === undefined || formulas === undefined ? undefined : { values, formulas };
}
