import { type Area, columnOfLetters } from "../../src/cells/index.ts";
import type { CellContent, CellValue, Host, Place } from "../../src/hosts/index.ts";

/** What stands in a cell of a workbook of tests: a value, a formula with its value, or a value with how it is printed. */
export type StaticCell =
  | CellValue
  | { readonly f: string; readonly v?: CellValue; readonly error?: string }
  | { readonly v: CellValue; readonly text: string };

const content = (cell: StaticCell | undefined): CellContent => {
  if (cell === undefined || cell === null) return { value: null, text: "" };
  if (typeof cell !== "object") return { value: cell, text: String(cell) };
  if ("text" in cell) return { value: cell.v, text: cell.text };
  const value = cell.v ?? null;
  return {
    value,
    formula: cell.f,
    text: cell.error ?? (value === null ? "" : String(value)),
    ...(cell.error !== undefined && { error: { code: cell.error } }),
  };
};

function placeOf(address: string): Place {
  const [, sheet = "Sheet1", letters, row] = /^(?:(.*)!)?([A-Z]+)(\d+)$/.exec(address)!;
  return { sheet, row: Number(row) - 1, column: columnOfLetters(letters!) };
}

/** A workbook whose cells stand as they are given, by address; it computes nothing. `asked` counts what it was asked. */
export function staticHost(
  cells: Readonly<Record<string, StaticCell>>,
  names: Readonly<Record<string, string>> = {},
): Host & { readonly asked: { read: number; evaluate: number } } {
  const places = Object.keys(cells).map(placeOf);
  const sheets = [...new Set(["Sheet1", ...places.map(({ sheet }) => sheet)])];
  const on = (sheet: string): readonly Place[] => places.filter((at) => at.sheet === sheet);
  /** By sheet, row and column. */
  const all = new Map(sheets.map((sheet) => [sheet, new Map<number, Map<number, CellContent>>()]));
  Object.values(cells).forEach((cell, i) => {
    const { sheet, row, column } = places[i]!;
    const rows = all.get(sheet)!;
    const line = rows.get(row) ?? new Map<number, CellContent>();
    rows.set(row, line.set(column, content(cell)));
  });
  const asked = { read: 0, evaluate: 0 };
  const part: Partial<Host> = {
    name: "static",
    sheetNames: () => Promise.resolve(sheets),
    used: (sheet) =>
      Promise.resolve({
        row: 0,
        column: 0,
        rows: Math.max(0, ...on(sheet).map(({ row }) => row + 1)),
        columns: Math.max(0, ...on(sheet).map(({ column }) => column + 1)),
      }),
    namesOn: () => Promise.resolve([]),
    logo: () => Promise.resolve(undefined),
    read: (sheet: string, area: Area) => {
      asked.read++;
      if (!sheets.includes(sheet)) return Promise.reject(new Error(`there is no sheet “${sheet}”`));
      return Promise.resolve(
        Array.from({ length: area.rows }, (_r, r) =>
          Array.from(
            { length: area.columns },
            (_c, c) =>
              all
                .get(sheet)
                ?.get(area.row + r)
                ?.get(area.column + c) ?? content(null),
          ),
        ),
      );
    },
    resolveName: (name) => Promise.resolve(names[name]),
    evaluate: (formula) => {
      asked.evaluate++;
      return Promise.reject(new Error(`the static workbook evaluates nothing, and was asked for ${formula}`));
    },
  };
  return Object.assign(part as Host, { asked });
}

export const at = placeOf;
