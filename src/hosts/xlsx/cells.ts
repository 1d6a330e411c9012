import type { Values } from "../look/values.ts";
import { a1, type Area } from "../../cells/index.ts";
import type { Plan, PlannedCell } from "../../sheet/index.ts";
import type { CellContent } from "../host/host.ts";
import { styleOf } from "../look/styles.ts";
import { defaultRowHeight, type Heights } from "../look/measures.ts";
import { storedText, type SharedTexts } from "./sharedTexts.ts";
import { storedFormula } from "./storedFormula.ts";
import type { StyleSheet } from "./styleSheet.ts";
import { element, escaped, textElement } from "./xml.ts";

const storableErrors: ReadonlySet<string> = new Set([
  "#NULL!",
  "#DIV/0!",
  "#VALUE!",
  "#REF!",
  "#NAME?",
  "#NUM!",
  "#N/A",
]);

/** Would a person who edits the cell and leaves it as it is get something other than this text? */
function looksLikeMore(text: string): boolean {
  return /^[=+\-@']|^(TRUE|FALSE)$/i.test(text) || /^\s*[\d.,]/.test(text);
}

function formulaCell(r: string, s: number, formula: string, { value, error }: CellContent): string {
  const f = element("f", {}, escaped(storedFormula(formula)));
  const cell = (t: string | undefined, v: string): string => element("c", { r, s, t }, f, v);
  if (error) {
    if (!storableErrors.has(error.code))
      throw new Error(
        `the cell ${r} shows ${error.code}, which a workbook file cannot keep: ${error.message ?? formula}`,
      );
    return cell("e", element("v", {}, error.code));
  }
  // A formula that only passes on an empty cell shows 0 in a spreadsheet program.
  if (typeof value === "number" || value === null) return cell(undefined, element("v", {}, String(value ?? 0)));
  if (typeof value === "boolean") return cell("b", element("v", {}, value ? "1" : "0"));
  return cell("str", textElement("v", storedText(value)));
}

function plainCell(r: string, s: number, value: PlannedCell["value"], texts: SharedTexts): string {
  if (value === undefined) return element("c", { r, s });
  if (typeof value === "string") return element("c", { r, s, t: "s" }, element("v", {}, String(texts.index(value))));
  if (typeof value === "boolean") return element("c", { r, s, t: "b" }, element("v", {}, value ? "1" : "0"));
  if (!Number.isFinite(value)) throw new Error(`the cell ${r} = ${value} is not a finite number`);
  return element("c", { r, s }, element("v", {}, String(value)));
}

/** `row column` of every cell of some areas. */
export function keysOf(areas: readonly Area[]): ReadonlySet<string> {
  return new Set(
    areas.flatMap(({ row, column, rows, columns }) =>
      Array.from({ length: rows * columns }, (_, i) => `${row + Math.floor(i / columns)} ${column + (i % columns)}`),
    ),
  );
}

/** The sheet's rows with all cells. Joined cells all carry the look of the first, since each draws its own lines. */
export function sheetData(
  plan: Plan,
  values: Values,
  heights: Heights,
  styleSheet: StyleSheet,
  texts: SharedTexts,
): string {
  const unlocked = keysOf(plan.unlocked);
  const rows = new Map<number, Map<number, string>>();
  const put = (row: number, column: number, xml: string): void => {
    const cells = rows.get(row) ?? new Map<number, string>();
    rows.set(row, cells.set(column, xml));
  };
  const joined = new Map(plan.spans.map((span) => [`${span.row} ${span.column}`, span]));
  for (const cell of plan.cells) {
    const { row, column, value, formula, format } = cell;
    const key = `${row} ${column}`;
    const open = unlocked.has(key);
    const look = (quoted: boolean): number =>
      styleSheet.index({ style: styleOf(cell), ...(format !== undefined && { format }), unlocked: open, quoted });
    const r = a1(cell);
    const content = values[row]?.[column];
    if (formula !== undefined && !content) throw new Error(`the cell ${r} has no computed value`);
    put(
      row,
      column,
      formula === undefined
        ? plainCell(r, look(open && typeof value === "string" && looksLikeMore(value)), value, texts)
        : formulaCell(r, look(false), formula, content!),
    );
    const span = joined.get(key);
    for (let i = 1; span && i < span.rows * span.columns; i++) {
      const at = { row: row + Math.floor(i / span.columns), column: column + (i % span.columns) };
      put(at.row, at.column, element("c", { r: a1(at), s: look(false) }));
    }
  }
  const folding = new Set(
    (plan.groups ?? []).flatMap(({ row, rows: count }) => Array.from({ length: count }, (_, i) => row + i)),
  );
  for (let row = 0; row < plan.rows; row++) if (!rows.has(row)) rows.set(row, new Map());
  const inOrder = <T>(map: ReadonlyMap<number, T>): [number, T][] => [...map].sort(([a], [b]) => a - b);
  return element(
    "sheetData",
    {},
    ...inOrder(rows).map(([row, cells]) =>
      element(
        "row",
        {
          r: row + 1,
          // Said for each: a program may take its own default for rows that say nothing.
          ht: heights.get(row) ?? defaultRowHeight,
          customHeight: 1,
          outlineLevel: folding.has(row) ? 1 : undefined,
        },
        ...inOrder(cells).map(([, xml]) => xml),
      ),
    ),
  );
}
