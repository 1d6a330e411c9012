import {
  areaOf,
  areaWithin,
  readCells,
  type ReadCells,
  type PlacedArea,
  placeOf,
  placeText,
  splitSheet,
  type WrittenReference,
} from "../../cells/index.ts";
import type { CellContent, Host } from "../../hosts/index.ts";
import { labelAt, type Knowledge } from "./knowledge.ts";
import { aroundFor, type Label } from "./labels.ts";
import type { Reading } from "./reading.ts";

/** Cells a formula refers to, with what they are called and hold. */
export interface Origin {
  /** As written in the formula. */
  readonly text: string;
  readonly reference: WrittenReference;
  readonly place?: PlacedArea;
  /** "D12": where it is, seen from the formula's sheet. */
  readonly address?: string;
  /** What its upper left cell is called. */
  readonly label?: Label;
  /** What each of its columns is called, by its uppermost cell. */
  readonly columns: readonly (Label | undefined)[];
  /** What the last cell of its first column is called, where it has several rows. */
  readonly lowest?: Label;
  /** By row and column; none where there are too many cells, or none that can be read. */
  readonly contents: readonly (readonly CellContent[])[];
  /** Why its cells are not shown. */
  readonly problem?: string;
}

/** What a formula of the cell refers to by a text as written there; undefined for what it does not refer to. */
export type OriginOf = (text: string) => Origin | undefined;

/** Ranges larger than this are not read for a list of precedents. */
const mostCells = 5000;
/** Labels of more columns than this say nothing more. */
const mostColumns = 40;

interface Resolved {
  readonly reference: WrittenReference;
  readonly place?: PlacedArea;
  readonly problem?: string;
}

/** Where cells stand; whole columns or rows as far as the sheet is used. */
async function placeFor(host: Host, cells: ReadCells, sheet: string): Promise<PlacedArea> {
  const on = cells.sheet ?? sheet;
  const area = areaOf(cells);
  if (area) return { sheet: on, ...area };
  const { rows, columns } = await host.used(on);
  return { sheet: on, ...areaWithin(cells, { rows: Math.max(1, rows), columns: Math.max(1, columns) }) };
}

async function resolve(
  host: Host,
  reference: WrittenReference,
  sheet: string,
  spilled: (anchor: PlacedArea) => Promise<PlacedArea | undefined>,
): Promise<Resolved> {
  const { text, kind } = reference;
  if (text.includes("[") && kind !== "table")
    return { reference, problem: "stands in another workbook, which is not read" };
  if (kind === "table")
    return { reference, problem: "a part of a table of the spreadsheet program, whose cells the host does not tell" };
  if (splitSheet(text).sheet?.includes(":"))
    return { reference, problem: "cells of several sheets at once, which are not shown" };
  if (kind === "spilled") {
    const anchor = placeOf(text.slice(0, -1), sheet);
    const place = anchor && (await spilled(anchor));
    return place ? { reference, place } : { reference, problem: "how far its result spills cannot be told" };
  }
  if (kind === "name") {
    // `Sheet2!name` is a name as another sheet sees it.
    const { rest: name, sheet: on = sheet } = splitSheet(text);
    const address = await host.resolveName(name, on);
    if (address === undefined) return { reference, problem: "no cells stand behind this name" };
    const place = placeOf(address, on);
    return place ? { reference, place } : { reference, problem: `stands for ${address}` };
  }
  const cells = readCells(text);
  return cells
    ? { reference, place: await placeFor(host, cells, sheet) }
    : { reference, problem: "cannot be read as cells" };
}

/** Everything a formula refers to, read with what stands around it in few calls of the host. By the reference's text in capitals. */
export async function originsOf(
  host: Host,
  knowledge: Knowledge,
  reading: Reading,
  references: readonly WrittenReference[],
  from: string,
  spilled: (anchor: PlacedArea) => Promise<PlacedArea | undefined>,
): Promise<ReadonlyMap<string, Origin>> {
  const [names, found] = await Promise.all([
    host.sheetNames(),
    Promise.all(references.map((r) => resolve(host, r, from, spilled))),
  ]);
  const named = new Map(names.map((n) => [n.toLowerCase(), n]));
  const resolved = found.map((r): Resolved => {
    if (!r.place) return r;
    const sheet = named.get(r.place.sheet.toLowerCase());
    return sheet === undefined
      ? { reference: r.reference, problem: `there is no sheet “${r.place.sheet}”` }
      : { ...r, place: { ...r.place, sheet } };
  });
  const lowest = (place: PlacedArea): PlacedArea => ({
    sheet: place.sheet,
    row: place.row + place.rows - 1,
    column: place.column,
    rows: 1,
    columns: 1,
  });
  const strips = resolved.flatMap(({ place }) =>
    place
      ? [place, ...(place.rows > 1 ? [lowest(place)] : [])].map((at) => ({
          ...aroundFor(at, false)[0]!,
          sheet: place.sheet,
        }))
      : [],
  );
  const fit = (place: PlacedArea): boolean => place.rows * place.columns <= mostCells;
  await reading.add([...resolved.flatMap(({ place }) => (place && fit(place) ? [place] : [])), ...strips]);
  const sheets = new Map(
    await Promise.all(
      [...new Set(resolved.flatMap(({ place }) => (place ? [place.sheet] : [])))].map(
        async (sheet) =>
          [
            sheet,
            await knowledge.current(
              sheet,
              strips.filter((s) => s.sheet === sheet),
              reading,
            ),
          ] as const,
      ),
    ),
  );
  const cellsOf = (place: PlacedArea): readonly PlacedArea[] =>
    Array.from({ length: Math.min(place.columns, mostColumns) }, (_, c) => ({
      sheet: place.sheet,
      row: place.row,
      column: place.column + c,
      rows: 1,
      columns: 1,
    }));
  // Where a template says what a cell is, nothing above it need be read.
  await reading.add(
    resolved.flatMap(({ place }) =>
      place
        ? [...cellsOf(place), lowest(place)]
            .filter((cell) => !sheets.get(cell.sheet)?.meaningAt(cell))
            .flatMap((cell) => aroundFor(cell, true).map((a) => ({ ...a, sheet: cell.sheet })))
        : [],
    ),
  );
  return new Map(
    resolved.map(({ reference, place, problem }): readonly [string, Origin] => {
      const base = { text: reference.text, reference };
      const key = reference.text.toUpperCase();
      if (!place) return [key, { ...base, columns: [], contents: [], ...(problem !== undefined && { problem }) }];
      const failed = reading.failed.get(place.sheet);
      const columns = cellsOf(place).map((cell) =>
        labelAt(sheets.get(cell.sheet), reading, cell.sheet, cell.row, cell.column),
      );
      const last =
        place.rows > 1
          ? labelAt(sheets.get(place.sheet), reading, place.sheet, place.row + place.rows - 1, place.column)
          : undefined;
      const why = failed ?? (fit(place) ? undefined : `${place.rows} × ${place.columns} cells, too many to be shown`);
      return [
        key,
        {
          ...base,
          place,
          address: placeText(place, from),
          ...(columns[0] && { label: columns[0] }),
          columns,
          ...(last && { lowest: last }),
          contents: why === undefined ? reading.block(place) : [],
          ...(why !== undefined && { problem: why }),
        },
      ];
    }),
  );
}
