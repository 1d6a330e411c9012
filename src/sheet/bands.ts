import { templateFormula } from "../cells/index.ts";
import { tableColumns, columns as sheetColumns, widths } from "./columns.ts";
import type { Says } from "./says.ts";
import { markedSymbol } from "./subscripts.ts";
import { textWidth } from "./textWidth.ts";
import type { Column, Template } from "./template.ts";

/** Columns of a table that stand side by side. A table wider than the page has several bands, one below the other, each with all rows. */
export interface PlacedColumn {
  readonly band: number;
  /** The sheet's column. */
  readonly at: number;
  /** How many of the sheet's columns it takes: words run over several. */
  readonly cells: number;
}

/** A column repeated at the left of a further band, so that its rows can be told apart. */
export interface Repeated {
  readonly band: number;
  readonly at: number;
  readonly cells: number;
  /** Which of the table's columns it repeats. */
  readonly of: number;
}

interface Sized {
  readonly column: Column;
  readonly says: Says;
  readonly cells: number;
}

const rangesKept = new WeakMap<Template, ReadonlyMap<string, ReadonlySet<string>>>();

/** Pairs of columns of which a formula takes all from the first to the second: they have to stand side by side. */
export function rangesIn(template: Template): ReadonlyMap<string, ReadonlySet<string>> {
  const kept = rangesKept.get(template) ?? findRanges(template);
  rangesKept.set(template, kept);
  return kept;
}

function findRanges(template: Template): ReadonlyMap<string, ReadonlySet<string>> {
  const out = new Map<string, Set<string>>();
  const read = (value: unknown): void => {
    if (typeof value === "string") {
      if (!/\{\w+:\w+\[/.test(value)) return;
      for (const piece of templateFormula(value).pieces)
        if (piece.kind === "template" && "id" in piece.reference && piece.reference.to !== undefined) {
          const { id, to } = piece.reference;
          out.set(id, (out.get(id) ?? new Set()).add(to));
        }
    } else if (typeof value === "object" && value !== null) Object.values(value).forEach(read);
  };
  read(template.blocks);
  read(template.relations);
  return out;
}

/** A column of words: no symbol, no unit. */
export function holdsWords({ column, says }: { readonly column: Column; readonly says: Says }): boolean {
  return says.symbol === "–" && says.unit === "–" && column.index === undefined;
}

const wordCells = 3;
/** Room for what people write. */
const typedCells = 2;
const ordinaryWidth = widths[tableColumns.first]!;

/** The heading of a column, with marks around subscripts: its symbol, or its words where it has none. */
export function headOfColumn({ says }: { readonly says: Says }): string {
  return says.symbol === "–" || says.symbol === "no." ? says.text : markedSymbol(says.symbol);
}

function cellsOf(column: Column, says: Says, memberTexts: (dimension: string) => readonly string[]): number {
  if (column.width !== undefined) return column.width;
  if (!holdsWords({ column, says })) return 1;
  const cellsFor = (texts: readonly string[]): number =>
    Math.max(1, Math.ceil((Math.max(...texts.map(textWidth), 0) + 1) / (ordinaryWidth + 1)));
  if (column.memberText !== undefined) return cellsFor(memberTexts(column.memberText));
  if (column.input?.choices) return cellsFor(column.input.choices.map(({ value }) => String(value)));
  if (column.input && !column.input.freeText) return 1;
  return column.input || column.record ? typedCells : wordCells;
}

/** Runs of columns that stay together. */
function runs(all: readonly Sized[], ranges: ReadonlyMap<string, ReadonlySet<string>>): readonly (readonly number[])[] {
  const out: number[][] = [];
  let until = -1;
  all.forEach(({ says }, i) => {
    const inside = i <= until;
    for (const to of ranges.get(says.id) ?? []) {
      const end = all.findIndex((other) => other.says.id === to);
      if (end > until) until = end;
    }
    if (inside) out.at(-1)!.push(i);
    else out.push([i]);
  });
  return out;
}

export interface Bands {
  readonly placed: readonly PlacedColumn[];
  readonly repeated: readonly Repeated[];
  readonly count: number;
  /** How many of them hold results: the first ones. The others go to the workings. */
  readonly results: number;
}

/**
 * Places a table's columns: the first number in the sheet's first column, verdicts in the verdict column, all others
 * from the left; what has no room goes into a further band, which begins with the rows' number and words again. Results
 * come first, then bands of workings; `isResult` says which columns are results.
 */
export function placeColumns(
  columns: readonly Column[],
  says: readonly Says[],
  ranges: ReadonlyMap<string, ReadonlySet<string>>,
  memberTexts: (dimension: string) => readonly string[],
  isResult: (column: Column) => boolean,
): Bands {
  const all = columns.map((column, i): Sized => ({
    column,
    says: says[i]!,
    cells: cellsOf(column, says[i]!, memberTexts),
  }));
  const placed: PlacedColumn[] = [];
  const repeated: Repeated[] = [];
  const counts = all[0]?.column.index !== undefined;
  // Beside inputs one column stays free for the message of inputs that contradict each other.
  const messages = columns.some(({ input }) => input) ? 1 : 0;
  const room = tableColumns.last - tableColumns.first + 1 - messages;
  const first = counts ? 1 : 0;
  if (counts) placed[0] = { band: 0, at: sheetColumns.item, cells: 1 };
  // What tells the rows apart: the number, and the columns of words or counts that follow it.
  const lead: number[] = [];
  for (let i = first; i < all.length && lead.length < 2; i++) {
    const { column, cells } = all[i]!;
    if (column.verdict || column.input || (column.index === undefined && cells === 1)) break;
    lead.push(i);
  }
  const leadCells = lead.reduce((sum, i) => sum + all[i]!.cells, 0);
  let band = 0;
  let used = 0;
  const begin = (): void => {
    band++;
    used = 0;
    if (counts) repeated.push({ band, at: sheetColumns.item, cells: 1, of: 0 });
    for (const i of lead) {
      const { cells } = all[i]!;
      repeated.push({ band, at: tableColumns.first + used, cells, of: i });
      used += cells;
    }
  };
  const put = (i: number): void => {
    placed[i] = { band, at: tableColumns.first + used, cells: all[i]!.cells };
    used += all[i]!.cells;
  };
  const place = (run: readonly number[]): void => {
    const free = run.filter((i) => i >= first && !all[i]!.column.verdict && !placed[i]);
    if (free.length === 0) return;
    const cells = free.reduce((sum, i) => sum + all[i]!.cells, 0);
    if (used + cells > room && used > (band === 0 ? 0 : leadCells)) begin();
    free.forEach(put);
  };
  // Columns that a formula takes together stay together, among the results if one of them is one.
  const together = runs(all, ranges);
  const hasResults = columns.some(isResult);
  const isShown = (run: readonly number[]): boolean => run.some((i) => isResult(columns[i]!));
  if (hasResults) {
    for (const i of lead) if (!together.some((run) => run.length > 1 && run.includes(i))) put(i);
    together.filter(isShown).forEach(place);
  }
  const results = hasResults ? band + 1 : 0;
  const workings = together.filter((run) => !hasResults || !isShown(run));
  if (hasResults && workings.some((run) => run.some((i) => !placed[i] && !all[i]!.column.verdict))) begin();
  workings.forEach(place);
  // A verdict stands beside the last of what it judges: the results before it.
  all.forEach(({ column }, i) => {
    if (!column.verdict) return;
    const before = placed.slice(0, i).filter((one) => one !== undefined && (!hasResults || one.band < results));
    placed[i] = { band: before.at(-1)?.band ?? 0, at: sheetColumns.verdict, cells: 1 };
  });
  return { placed, repeated, count: band + 1, results };
}
