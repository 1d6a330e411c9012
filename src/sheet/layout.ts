import { chartsOf, type ShownChart } from "./charts.ts";
import { bandRow, columns, firstRow, fitsOver, titleRow } from "./columns.ts";
import { membersAcross, readAcross, type ReadAcross } from "./across.ts";
import { listedColumns, placeList, type PlacedListed } from "./columnList.ts";
import { doubtsOf } from "./relations.ts";
import { rowTexts, type RowTexts } from "./rowTexts.ts";
import { boundsOf } from "./says.ts";
import {
  isRecord,
  isRecordBlock,
  type ShapedAcross,
  type ShapedBlock,
  type ShapedColumn,
  type ShapedFront,
  type ShapedItem,
  type ShapedRow,
  type ShapedSheet,
  type ShapedTable,
} from "./shape.ts";
import type { Address, Area } from "../cells/index.ts";
import type { Column } from "./template.ts";
import type { Together } from "./pageBreaks.ts";

/** The header rows of a band. */
export type HeaderRow = "symbol" | "unit" | "from" | "to";

export interface PlacedBand {
  /** Row of each header row there is. */
  readonly header: ReadonlyMap<HeaderRow, number>;
  /** First row of data. */
  readonly first: number;
}

export interface PlacedTable {
  readonly shaped: ShapedTable;
  readonly title: number;
  /** The title of its workings, where others of its columns are results. */
  readonly workings?: number;
  readonly note?: number;
  /** The columns defined above the table, with the row of each. */
  readonly list: readonly (PlacedListed & { readonly row: number })[];
  readonly bands: readonly PlacedBand[];
}

/** A table read across: for each of its columns the line that names it, and its bands. */
export interface PlacedAcross {
  readonly shaped: ShapedAcross;
  readonly title: number;
  readonly parts: readonly {
    readonly of: ReadAcross;
    readonly name: number;
    readonly bands: readonly { readonly head: number; readonly first: number }[];
  }[];
}

export type AboutLine =
  "template" | "office" | "hash" | "functions" | "standard" | "method" | { readonly convention: string };

/** The head of a block. */
export interface BlockRows {
  readonly title: number;
  readonly headings?: number;
  readonly note?: number;
}

/** Which row everything stands in. */
export interface Layout {
  readonly sheet: ShapedSheet;
  /** The first row below the first page; counts of verdicts begin here. */
  readonly body: number;
  readonly cautions: ReadonlyMap<string, number>;
  readonly blockRows: ReadonlyMap<ShapedBlock, BlockRows>;
  /** The rows above the workings: those that are printed. */
  readonly printed: number;
  /** What stands behind the results, at the end of the sheet: its rows, and the titles of its blocks. */
  readonly workings:
    | {
        readonly title: number;
        readonly note: number;
        readonly first: number;
        readonly blocks: ReadonlyMap<ShapedBlock, { readonly title: number; readonly headings?: number }>;
      }
    | undefined;
  /** Rows, notes and lists: their (first) row. */
  readonly itemRows: ReadonlyMap<ShapedItem, number>;
  /** The value cell of each row. */
  readonly values: ReadonlyMap<ShapedRow, Address>;
  readonly texts: ReadonlyMap<ShapedRow, RowTexts>;
  readonly tables: ReadonlyMap<ShapedTable, PlacedTable>;
  readonly across: ReadonlyMap<ShapedAcross, PlacedAcross>;
  /** The checks gathered from all over the sheet, in its order. */
  readonly register: { readonly first: number; readonly checks: readonly ShapedRow[] } | undefined;
  readonly charts: readonly (ShownChart & { readonly at: Area })[];
  readonly about: {
    readonly title: number;
    readonly shape: ReadonlyMap<string, number>;
    readonly lines: readonly { readonly line: AboutLine; readonly row: number }[];
    /** What the marks behind clauses mean. */
    readonly marks: number;
    /** Where the workings stand, on sheets that have them. */
    readonly workings?: number;
    /** Its number among the blocks. */
    readonly number: number;
  };
  /** In the order of the sheet. */
  readonly together: readonly Together[];
  /** Empty rows that set apart blocks and tables. */
  readonly gaps: readonly number[];
  readonly rows: number;
}

/** The first row of a column's cells. */
export function firstOf(layout: Layout, table: ShapedTable, column: ShapedColumn): number {
  return layout.tables.get(table)!.bands[column.band]!.first;
}

function headerRows(shaped: ShapedTable, band: number): readonly HeaderRow[] {
  const { columns: all } = shaped;
  const bounds = all.flatMap(({ column, says, band: own }) =>
    own === band && column.input && !column.input.freeText && !column.input.choices
      ? [boundsOf(column.input, says.quantity)]
      : [],
  );
  return [
    "symbol",
    ...(isRecord(shaped) ? [] : ["unit" as const]),
    ...(bounds.some((b) => b.min !== undefined || b.above !== undefined) ? ["from" as const] : []),
    ...(bounds.some((b) => b.max !== undefined || b.below !== undefined) ? ["to" as const] : []),
  ];
}

/** How many rows a list of warnings takes: one at least, which then says that there is nothing to list. */
export function warningRows(sheet: ShapedSheet): number {
  return Math.max(
    1,
    sheet.warned.reduce(
      (sum, it) => sum + ("kind" in it ? 1 : warnedRows(it.table, it.column.column.warnAt!).length),
      sheet.watched.length + doubtsOf(sheet).length,
    ),
  );
}

/**
 * The rows (counted in the table) of each line of warnings, for each run of the innermost dimension: one row, or with
 * `each` all of the run.
 */
export function warnedRows({ groups }: ShapedTable, at: NonNullable<Column["warnAt"]>): readonly (readonly number[])[] {
  const main = groups[0]!;
  const inner = main.over.at(-1)?.members.length ?? 1;
  const runs = Array.from({ length: inner === 0 ? 0 : main.rows / inner }, (_, g) =>
    Array.from({ length: inner }, (_row, i) => g * inner + i),
  );
  if (at === "each") return runs;
  return runs.flatMap((run) => {
    const [first, last] = [run[0]!, run.at(-1)!];
    return { first: [[first]], last: [[last]], both: [...new Set([first, last])].map((row) => [row]) }[at];
  });
}

/** The rows of the summary that a sheet shows on its first page. */
function checksOf({ blocks }: ShapedSheet): readonly ShapedRow[] {
  return blocks
    .flatMap(({ items }) => items)
    .flatMap((item) => (item.kind === "row" && item.row.summary ? [item] : []));
}

/** Rows a chart takes on the sheet, and on the first page. */
const chartRows = 16;
const frontChartRows = 14;
const halfWidth = 8;
const chartGap = 1;
/** Rows of a table that are never cut, and how many of a longer one stay with its heading. */
const longestTogether = 20;
const firstTogether = 5;
/** Lines of a list of columns that stay with the title of their table. */
const firstOfList = 3;

/** Where the two fields of a line on the first page begin, and their values. */
export const fieldColumns = [
  { label: 0, value: 3, last: 7 },
  { label: 8, value: 11, last: 15 },
] as const;

/** The first page's list of checks: how many lines its heading takes. */
const checksHead = 1;

/** Where things stand: with the results that are read and printed, or behind them. */
type Part = "results" | "workings";

function standsIn(item: ShapedItem, part: Part): boolean {
  if (item.kind === "table") return part === "results" ? item.results > 0 : item.results < item.bands;
  const working = item.kind !== "front" && item.working;
  return working === (part === "workings");
}

/** Lays out one sheet from the top down. */
class Placing {
  private row = firstRow;
  private readonly blockRows = new Map<ShapedBlock, { title: number; headings?: number; note?: number }>();
  private readonly itemRows = new Map<ShapedItem, number>();
  private readonly values = new Map<ShapedRow, Address>();
  private readonly texts = new Map<ShapedRow, RowTexts>();
  private readonly tables = new Map<ShapedTable, PlacedTable>();
  private readonly across = new Map<ShapedAcross, PlacedAcross>();
  private workings: Layout["workings"];
  private printed = 0;
  private readonly placedCharts: (ShownChart & { at: Area })[] = [];
  private readonly together: Together[] = [{ row: titleRow, rows: bandRow + 1 }];
  private readonly gaps: number[] = [];
  private readonly cautions = new Map<string, number>();
  private readonly checks: readonly ShapedRow[];
  private readonly charts: readonly ShownChart[];
  private readonly onFront: ReadonlySet<string>;
  private register: Layout["register"];

  constructor(private readonly sheet: ShapedSheet) {
    this.checks = checksOf(sheet);
    this.charts = chartsOf(sheet);
    const front = sheet.blocks.filter(({ block }) => block.front).flatMap(({ items }) => items);
    this.onFront = new Set(front.flatMap((item) => (item.kind === "front" ? (item.front.charts ?? []) : [])));
  }

  private take(rows = 1): number {
    const first = this.row;
    this.row += rows;
    return first;
  }

  /** A low row that sets apart what follows. */
  private gap(): void {
    this.gaps.push(this.take());
  }

  /** Keeps the rows from here on, which `place` takes, on one page. */
  private keep(place: () => void, withNext = false): void {
    const row = this.row;
    place();
    if (this.row > row) this.together.push({ row, rows: this.row - row, ...(withNext && { withNext }) });
  }

  /** Two charts in a line. */
  private putCharts(charts: readonly ShownChart[], rows = chartRows): void {
    for (let i = 0; i < charts.length; i += 2) {
      this.keep(() => {
        const row = this.take(rows + chartGap);
        charts.slice(i, i + 2).forEach((chart, side) =>
          this.placedCharts.push({
            ...chart,
            at: { row, column: side * halfWidth, rows, columns: halfWidth },
          }),
        );
      });
    }
  }

  private frontItem(item: ShapedFront): void {
    const { front, charts = [] } = item.front;
    if (front === "charts") {
      const named = charts.flatMap((id) => this.charts.filter((chart) => chart.spec.id === id));
      return this.putCharts(named, frontChartRows);
    }
    if (front === "checks") this.keep(() => this.itemRows.set(item, this.take(checksHead + this.checks.length)));
  }

  private applying(item: ShapedFront): void {
    this.keep(() => this.itemRows.set(item, this.take(1 + (item.front.lines ?? 1))));
  }

  private front(block: ShapedBlock): void {
    let side = 0;
    let noting = false;
    for (const item of block.items) {
      if (item.kind !== "row" && side === 1) {
        side = 0;
        this.take();
      }
      if (item.kind === "note") {
        // One paragraph, of as many notes as follow each other.
        if (!noting) this.itemRows.set(item, this.take());
        noting = true;
        continue;
      }
      noting = false;
      if (item.kind === "front") this.frontItem(item);
      if (item.kind !== "row") continue;
      this.itemRows.set(item, this.row);
      this.values.set(item, { row: this.row, column: fieldColumns[side]!.value });
      if (side === 1) this.take();
      side = 1 - side;
    }
    if (side === 1) this.take();
  }

  private rowItem(item: ShapedRow): void {
    const texts = rowTexts(item, this.sheet);
    this.texts.set(item, texts);
    this.keep(() => {
      const row = this.take(1 + texts.below);
      this.itemRows.set(item, row);
      this.values.set(item, { row, column: columns.value });
    });
  }

  /** The bands of a table that are results, or those that are workings. */
  private table(shaped: ShapedTable, part: Part): void {
    const working = part === "workings";
    const before = this.tables.get(shaped);
    const isHere = (band: number): boolean => band >= shaped.results === working;
    const title = this.row;
    let note: number | undefined;
    const listed = listedColumns(shaped, this.sheet).filter(({ column }) => isHere(column.band));
    const { entries, lines } = placeList(listed);
    let first = 0;
    this.keep(() => {
      this.take();
      if (shaped.table.note !== undefined && !before) note = this.take();
      first = this.take(Math.min(lines, firstOfList));
    }, lines === 0);
    // A list may be cut by the end of a page: its lines are read without a heading.
    this.take(Math.max(0, lines - firstOfList));
    const list = entries.map((one) => ({ ...one, row: first + one.line }));
    const own = Array.from({ length: shaped.bands }, (_, band) => band).filter(isHere);
    const bands = own.map((band): PlacedBand => {
      const start = this.row;
      const header = new Map(headerRows(shaped, band).map((name) => [name, this.take()] as const));
      const first = this.take(shaped.rows);
      this.keepRows(shaped, start, first);
      if (band !== own.at(-1)) this.gap();
      return { header, first };
    });
    this.tables.set(
      shaped,
      before
        ? { ...before, workings: title, list: [...before.list, ...list], bands: [...before.bands, ...bands] }
        : { shaped, title, ...(note !== undefined && { note }), list, bands },
    );
  }

  private readAcross(shaped: ShapedAcross): void {
    const title = this.row;
    this.keep(() => this.take(), true);
    const parts = readAcross(shaped, this.sheet).flatMap((of) => {
      if (typeof of === "string") return [];
      const name = this.row;
      const bands: { head: number; first: number }[] = [];
      this.keep(() => {
        this.take();
        for (let from = 0; from < of.outer.members.length; from += membersAcross)
          bands.push({ head: this.take(), first: this.take(of.inner.members.length) });
      });
      return [{ of, name, bands }];
    });
    this.across.set(shaped, { shaped, title, parts });
  }

  /** A short table stays on one page; of a long one its heading stays with the first rows. */
  private keepRows({ rows }: ShapedTable, start: number, first: number): void {
    const whole = rows <= longestTogether ? rows : firstTogether;
    this.together.push({ row: start, rows: first - start + whole });
  }

  private block(block: ShapedBlock): void {
    // A block of workings alone has its title there.
    if (!block.items.some((item) => standsIn(item, "results")) && this.chartsIn(block, "results").length === 0) return;
    this.gap();
    const ofRows = block.items.some((item) => item.kind === "row" && !item.working);
    const title = this.row;
    this.keep(() => {
      this.take();
      const headings = ofRows ? this.take() : undefined;
      const note = block.block.note === undefined ? undefined : this.take();
      this.blockRows.set(block, {
        title,
        ...(headings !== undefined && { headings }),
        ...(note !== undefined && { note }),
      });
    }, true);
    this.items(block, "results");
  }

  private items(block: ShapedBlock, part: Part): void {
    let before: ShapedItem | undefined;
    for (const item of block.items) {
      if (!standsIn(item, part)) continue;
      if (before?.kind === "table" || before?.kind === "across") this.gap();
      before = item;
      if (item.kind === "table") this.table(item, part);
      else if (item.kind === "across") this.readAcross(item);
      else if (item.kind === "row") this.rowItem(item);
      else if (item.kind === "warnings") {
        if (this.checks.length > 0) this.placeRegister();
        this.itemRows.set(item, this.take(warningRows(this.sheet)));
      } else this.itemRows.set(item, this.take());
    }
    const charts = this.chartsIn(block, part);
    if (charts.length > 0 && before?.kind === "table") this.gap();
    this.putCharts(charts);
  }

  private chartsIn(block: ShapedBlock, part: Part): readonly ShownChart[] {
    const { results } = block.block;
    return this.charts.filter((chart) => {
      if (chart.block !== block || this.onFront.has(chart.spec.id)) return false;
      return (results === undefined || results.includes(chart.of)) === (part === "results");
    });
  }

  private withWorkings(): readonly ShapedBlock[] {
    return this.sheet.blocks.filter(
      (block) => block.items.some((item) => standsIn(item, "workings")) || this.chartsIn(block, "workings").length > 0,
    );
  }

  /** Behind all else, block by block. */
  private placeWorkings(): void {
    const here = this.withWorkings();
    if (here.length === 0) return;
    this.gap();
    const first = this.row;
    const title = this.take();
    const note = this.take();
    const titles = new Map<ShapedBlock, { title: number; headings?: number }>();
    for (const block of here) {
      this.gap();
      const ofRows = block.items.some((item) => item.kind === "row" && item.working);
      this.keep(() => {
        const own = this.take();
        titles.set(block, { title: own, ...(ofRows && { headings: this.take() }) });
      });
      this.items(block, "workings");
    }
    this.workings = { first, title, note, blocks: titles };
  }

  private placeRegister(): void {
    if (this.register) return;
    this.keep(() => {
      this.take(2);
      this.register = { first: this.take(this.checks.length), checks: this.checks };
      this.take();
    });
  }

  private about(): Layout["about"] {
    const { template } = this.sheet;
    this.gap();
    const title = this.take();
    const shape = new Map(template.shape.map(({ id }) => [id, this.take()] as const));
    const lines: readonly AboutLine[] = [
      "template",
      ...(template.office === undefined ? [] : (["office"] as const)),
      "hash",
      "functions",
      "standard",
      "method",
      ...template.conventions.map((convention) => ({ convention })),
    ];
    const number = this.sheet.blocks.filter(({ block }) => !block.front && !isRecordBlock(block)).length + 1;
    return {
      title,
      number,
      shape,
      lines: lines.map((line) => ({ line, row: this.take() })),
      marks: this.take(),
      ...(this.withWorkings().length > 0 && { workings: this.take() }),
    };
  }

  place(): Layout {
    const front = this.sheet.blocks.filter(({ block }) => block.front);
    for (const block of front) this.front(block);
    for (const caution of this.sheet.template.cautions) this.cautions.set(caution, this.take());
    // Last, so that lines without a warning leave no gap on the page.
    for (const item of front.flatMap(({ items }) => items))
      if (item.kind === "front" && item.front.front === "warnings") this.applying(item);
    const body = this.row;
    const blocks = this.sheet.blocks.filter(({ block }) => !block.front);
    for (const block of blocks) if (!isRecordBlock(block.block)) this.block(block);
    // What stands at the end goes on one page, so that no page holds the revisions alone.
    const end = this.row;
    const about = this.about();
    // The seal of a revision is of everything above it.
    for (const block of blocks) if (isRecordBlock(block.block)) this.block(block);
    const inside = this.together.findIndex(({ row }) => row > end);
    this.together.splice(inside < 0 ? this.together.length : inside, 0, { row: end, rows: this.row - end });
    this.printed = this.row;
    this.placeWorkings();
    return {
      sheet: this.sheet,
      body,
      cautions: this.cautions,
      blockRows: this.blockRows,
      workings: this.workings,
      printed: this.printed,
      itemRows: this.itemRows,
      values: this.values,
      texts: this.texts,
      tables: this.tables,
      across: this.across,
      register: this.register,
      charts: this.placedCharts,
      about,
      together: this.together,
      gaps: this.gaps,
      rows: this.row,
    };
  }
}

export function layOut(sheet: ShapedSheet): Layout {
  return new Placing(sheet).place();
}

/** Whether a row's description fits in front of its symbol, or of its value where it has none. */
export function fitsAsDescription(text: string, last: number = columns.symbol - 1): boolean {
  return fitsOver(text, columns.description, last);
}
