import type { ICommandInfo, IRange, IRowData } from "@univerjs/core";
import type { Area } from "../../cells/index.ts";
import type { PlacedLogo } from "../../sheet/index.ts";
import type { BookPrint, BookSheet } from "../workbook/workbook.ts";
import type { GridRuntime, GridSheet } from "./runtime.ts";

/** What a sheet has beside what the grid shows: how it is printed, and its charts. It goes into files saved from the grid. */
export interface Beside {
  readonly print?: BookPrint;
  readonly groups: BookSheet["groups"];
  readonly charts: BookSheet["charts"];
  readonly logo?: PlacedLogo;
}

/** As the grid keeps data of others with a sheet: copies of the sheet get it too. */
export function beside(what: Beside): { readonly kernbook: Beside } {
  return { kernbook: what };
}

export function besideOf(sheet: GridSheet): Beside {
  const custom = sheet.getSheet().getConfig().custom as { readonly kernbook?: Beside } | null | undefined;
  return custom?.kernbook ?? { groups: [], charts: [] };
}

/** In the grid rows are higher than in files, in the proportion of their usual heights. */
const pixelsPerPoint = 20 / 13.5;

interface KeptHeight {
  readonly points: number;
  readonly pixels: number | undefined;
}

/** A row that knows its height in points, as long as nobody makes it higher or lower. */
export function keptHeight(points: number, row: IRowData = {}): IRowData {
  return { ...row, custom: { kernbook: { points, pixels: row.h } } };
}

/** A row of that height in points. */
export function rowOfPoints(points: number): IRowData {
  return keptHeight(points, { h: Math.round(points * pixelsPerPoint), ia: 0 });
}

/** The height in points that a row was given; undefined where it has the usual one. */
export function pointsOf({ h, ia, custom }: Partial<IRowData>): number | undefined {
  const kept = (custom as { readonly kernbook?: KeptHeight } | null | undefined)?.kernbook;
  if (kept && kept.pixels === h) return kept.points;
  return h === undefined || Number(ia) === 1 ? undefined : Math.round((h / pixelsPerPoint) * 4) / 4;
}

type Line = "row" | "column";
const counted = { row: "rows", column: "columns" } as const;

/** An area after lines were put in (`count` above 0) or taken out at `at`; undefined where nothing of it is left. */
function moved(area: Area, line: Line, at: number, count: number): Area | undefined {
  const from = area[line];
  const to = from + area[counted[line]];
  if (count > 0)
    return {
      ...area,
      [line]: from >= at ? from + count : from,
      [counted[line]]: to - from + (at > from && at < to ? count : 0),
    };
  const end = at - count;
  const left = Math.max(0, Math.min(to, at) - from) + Math.max(0, to - Math.max(from, end));
  if (left === 0) return undefined;
  return { ...area, [line]: Math.min(from, at) + Math.max(0, from - end), [counted[line]]: left };
}

function movedPrint(print: BookPrint, line: Line, at: number, count: number): BookPrint {
  const areas = print.areas.flatMap((area) => moved(area, line, at, count) ?? []);
  const breaks = print.breaks?.flatMap(
    (row) => moved({ row, column: 0, rows: 1, columns: 1 }, line, at, count)?.row ?? [],
  );
  const titles =
    print.titleRows &&
    moved(
      { row: print.titleRows[0], rows: print.titleRows[1] - print.titleRows[0] + 1, column: 0, columns: 1 },
      line,
      at,
      count,
    );
  const { titleRows: _, ...rest } = print;
  return {
    ...rest,
    areas,
    ...(breaks && line === "row" && { breaks }),
    ...(titles && { titleRows: [titles.row, titles.row + titles.rows - 1] }),
  };
}

function movedBeside({ print, groups, charts, logo }: Beside, line: Line, at: number, count: number): Beside {
  const corner = logo && moved({ ...logo.at, rows: 1, columns: 1 }, line, at, count);
  return {
    ...(print && { print: movedPrint(print, line, at, count) }),
    groups: groups.flatMap(({ row, rows }) => {
      const area = moved({ row, rows, column: 0, columns: 1 }, line, at, count);
      if (line === "column") return [{ row, rows }];
      return area ? [{ row: area.row, rows: area.rows }] : [];
    }),
    charts: charts.flatMap((chart) => {
      const place = moved(chart.at, line, at, count);
      const series = chart.series.flatMap((one) => {
        const x = moved(one.x, line, at, count);
        const y = moved(one.y, line, at, count);
        return x && y ? [{ ...one, x, y }] : [];
      });
      return place && series.length > 0 ? [{ ...chart, at: place, series }] : [];
    }),
    ...(logo && corner && { logo: { ...logo, at: { row: corner.row, column: corner.column } } }),
  };
}

interface Params {
  readonly subUnitId?: string;
  readonly range?: IRange;
}
const mutations: Readonly<Record<string, { readonly line: Line; readonly sign: 1 | -1 }>> = {
  "sheet.mutation.insert-row": { line: "row", sign: 1 },
  "sheet.mutation.insert-col": { line: "column", sign: 1 },
  "sheet.mutation.remove-rows": { line: "row", sign: -1 },
  "sheet.mutation.remove-col": { line: "column", sign: -1 },
};

/** Keeps print set-up and charts with their cells when rows or columns are put in or taken out. */
export function besideFollows({ api, core, univer }: GridRuntime): void {
  univer
    .__getInjector()
    .get(core.ICommandService)
    .onCommandExecuted(({ id, params }: Readonly<ICommandInfo>) => {
      const known = mutations[id];
      const { subUnitId, range } = (params ?? {}) as Params;
      if (!known || subUnitId === undefined || !range) return;
      const sheet = api.getActiveWorkbook()?.getSheetBySheetId(subUnitId);
      const custom = sheet?.getSheet().getConfig().custom as { kernbook?: Beside } | null | undefined;
      if (!custom?.kernbook) return;
      const { line, sign } = known;
      const [from, to] = line === "row" ? [range.startRow, range.endRow] : [range.startColumn, range.endColumn];
      custom.kernbook = movedBeside(custom.kernbook, line, from, sign * (to - from + 1));
    });
}
