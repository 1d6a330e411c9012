import { type Area, cellAt, type Snapshot } from "../../cells/index.ts";
import type { Looks } from "../../hosts/index.ts";
import type { Highlight, PlannedChart, Role } from "../../sheet/index.ts";
import type { Recognised } from "../recognise/recognised.ts";

/** How a copied sheet looks, in the rows and columns of the sheet. */
export interface Look {
  readonly roleAt: (row: number, column: number) => Role | undefined;
  readonly formatAt: (row: number, column: number) => string | undefined;
  /** In characters. */
  readonly widths: readonly number[];
  readonly linesAt: (row: number) => number;
  readonly spans: readonly Area[];
  readonly highlights: readonly Highlight[];
  readonly charts: readonly PlannedChart[];
  readonly freezeRows: number;
  readonly titleRows: readonly [number, number] | undefined;
}

const key = (row: number, column: number): string => `${row} ${column}`;
const [narrow, wide] = [6, 40];

/** Room for the longest text, within reason. */
function widthFor(snapshot: Snapshot, column: number): number {
  const longest = Math.max(0, ...snapshot.cells.map((cells) => cells[column]?.text.length ?? 0));
  return Math.min(wide, Math.max(narrow, longest + 2));
}

function formats({ formats: all }: Looks): Look["formatAt"] {
  return (row, column) => {
    const format = all[row]?.[column];
    return format === undefined || format === "General" ? undefined : format;
  };
}

/** Of a sheet of the user's own: values with their number formats, no looks. */
function plainLook(snapshot: Snapshot, looks: Looks): Look {
  return {
    roleAt: () => undefined,
    formatAt: formats(looks),
    widths: Array.from({ length: snapshot.columns }, (_, column) => widthFor(snapshot, column)),
    linesAt: () => 1,
    spans: [],
    highlights: [],
    charts: [],
    freezeRows: 0,
    titleRows: undefined,
  };
}

/** Where a planned block of cells stands now; undefined where all of it is gone. */
export function areaNow({ rowNow, columnNow }: Recognised, area: Area): Area | undefined {
  const there = (count: number, from: number, now: (n: number) => number | undefined): readonly number[] =>
    Array.from({ length: count }, (_, i) => now(from + i)).filter((n) => n !== undefined);
  const rows = there(area.rows, area.row, rowNow);
  const columns = there(area.columns, area.column, columnNow);
  if (rows.length === 0 || columns.length === 0) return undefined;
  const [row, column] = [Math.min(...rows), Math.min(...columns)];
  return { row, column, rows: Math.max(...rows) - row + 1, columns: Math.max(...columns) - column + 1 };
}

function chartsNow(recognised: Recognised): readonly PlannedChart[] {
  return recognised.plan.charts.flatMap((chart) => {
    const series = chart.series.flatMap((one) => {
      const [x, y] = [areaNow(recognised, one.x), areaNow(recognised, one.y)];
      return x && y && x.rows === y.rows ? [{ ...one, x, y }] : [];
    });
    return series.length === 0 ? [] : [{ ...chart, series }];
  });
}

/** As the template gave it, where the rows and columns stand now; rows of the user's own look plain. */
function templateLook(recognised: Recognised, looks: Looks): Look {
  const { plan, snapshot, rowPlanned, columnPlanned } = recognised;
  const roles = new Map(plan.cells.map(({ row, column, role }) => [key(row, column), role]));
  const moved = <T extends Area>(areas: readonly T[]): readonly T[] =>
    areas.flatMap((area) => {
      const now = areaNow(recognised, area);
      return now ? [{ ...area, ...now }] : [];
    });
  const first = recognised.rowNow(plan.print.titleRows[0]);
  const last = recognised.rowNow(plan.print.titleRows[1]);
  return {
    roleAt: (row, column) => {
      const [r, c] = [rowPlanned(row), columnPlanned(column)];
      return r === undefined || c === undefined ? undefined : roles.get(key(r, c));
    },
    formatAt: formats(looks),
    widths: Array.from(
      { length: snapshot.columns },
      (_, column) => plan.widths[columnPlanned(column) ?? -1] ?? widthFor(snapshot, column),
    ),
    linesAt: (row) => plan.lines[rowPlanned(row) ?? -1] ?? 1,
    spans: moved(plan.spans).filter((span) => span.rows === 1),
    highlights: moved(plan.highlights),
    charts: chartsNow(recognised),
    freezeRows: last === undefined ? 0 : last + 1,
    titleRows: first === undefined || last === undefined ? undefined : [first, last],
  };
}

export function lookOf(snapshot: Snapshot, looks: Looks, recognised: Recognised | undefined): Look {
  return recognised ? templateLook(recognised, looks) : plainLook(snapshot, looks);
}

/** What a cell without a look of its own is drawn as. */
export function plainRole(snapshot: Snapshot, row: number, column: number): Role {
  return typeof cellAt(snapshot, row, column).value === "number" ? "value" : "description";
}
