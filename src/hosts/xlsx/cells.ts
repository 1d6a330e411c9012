import { a1, areaA1 } from "../../cells/index.ts";
import { defaultRowHeight } from "../look/measures.ts";
import type { BookCell, BookSheet } from "../workbook/workbook.ts";
import { fillsSeveral } from "./severalCells.ts";
import { storedText, type SharedTexts } from "./sharedTexts.ts";
import { storedFormula } from "./storedFormula.ts";
import type { StyleSheet } from "./styleSheet.ts";
import { element, escaped, textElement } from "./xml.ts";

export const storableErrors: ReadonlySet<string> = new Set([
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

function formulaCell(cell: BookCell, s: number | undefined): string {
  const r = a1(cell);
  const { formula, value, error, fills } = cell;
  const several = fillsSeveral(cell);
  const ref = several
    ? areaA1({ row: cell.row, column: cell.column, ...(fills ?? { rows: 1, columns: 1 }) }, false)
    : undefined;
  const f = element("f", { t: several ? "array" : undefined, ref }, escaped(storedFormula(formula!)));
  const written = (t: string | undefined, v: string): string =>
    element("c", { r, s, t, cm: several ? 1 : undefined }, f, v);
  if (error !== undefined) {
    if (!storableErrors.has(error))
      throw new Error(`the cell ${r} shows ${error}, which a workbook file cannot keep: ${formula}`);
    return written("e", element("v", {}, error));
  }
  // A formula that only passes on an empty cell shows 0 in a spreadsheet program.
  if (typeof value === "number" || value === null) return written(undefined, element("v", {}, String(value ?? 0)));
  if (typeof value === "boolean") return written("b", element("v", {}, value ? "1" : "0"));
  return written("str", textElement("v", storedText(value)));
}

function plainCell({ value, lowered, look, ...at }: BookCell, s: number | undefined, texts: SharedTexts): string {
  const r = a1(at);
  if (value === null) return element("c", { r, s });
  if (typeof value === "string")
    return element("c", { r, s, t: "s" }, element("v", {}, String(texts.index(value, lowered, look))));
  if (typeof value === "boolean") return element("c", { r, s, t: "b" }, element("v", {}, value ? "1" : "0"));
  if (!Number.isFinite(value)) throw new Error(`the cell ${r} = ${value} is not a finite number`);
  return element("c", { r, s }, element("v", {}, String(value)));
}

/** The sheet's rows with all cells. */
export function sheetData(
  { cells, heights, hiddenRows, groups, rows: count, protected: guarded }: BookSheet,
  styleSheet: StyleSheet,
  texts: SharedTexts,
): string {
  const hidden = new Set(hiddenRows);
  const rows = new Map<number, Map<number, string>>();
  // In a planned sheet each row says its height: a program may take its own default for rows that say nothing.
  const heightOf = (row: number): number | undefined => heights.get(row) ?? (guarded ? defaultRowHeight : undefined);
  for (const cell of cells) {
    const { row, column, value, formula, look } = cell;
    const unlocked = cell.unlocked === true;
    // Where it may be typed into, a text that looks like something else has to stay one.
    const open = unlocked || !guarded;
    const quoted = formula === undefined && open && typeof value === "string" && looksLikeMore(value);
    const s = styleSheet.index({ look, unlocked, quoted }) || undefined;
    const of = rows.get(row) ?? new Map<number, string>();
    rows.set(row, of);
    // Of joined cells, the first alone holds something.
    if (of.has(column) && formula === undefined && value === null) continue;
    of.set(column, formula === undefined ? plainCell(cell, s, texts) : formulaCell(cell, s));
  }
  const folding = new Set(groups.flatMap(({ row, rows: count }) => Array.from({ length: count }, (_, i) => row + i)));
  if (guarded) for (let row = 0; row < count; row++) if (!rows.has(row)) rows.set(row, new Map());
  for (const row of [...heights.keys(), ...hidden, ...folding]) if (!rows.has(row)) rows.set(row, new Map());
  const inOrder = <T>(map: ReadonlyMap<number, T>): [number, T][] => [...map].sort(([a], [b]) => a - b);
  return element(
    "sheetData",
    {},
    ...inOrder(rows).map(([row, of]) =>
      element(
        "row",
        {
          r: row + 1,
          ht: heightOf(row),
          hidden: hidden.has(row) ? 1 : undefined,
          customHeight: heightOf(row) === undefined ? undefined : 1,
          outlineLevel: folding.has(row) ? 1 : undefined,
        },
        ...inOrder(of).map(([, xml]) => xml),
      ),
    ),
  );
}
