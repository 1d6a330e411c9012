import { areaOf, cellAt, readCells, type Address } from "../../cells/index.ts";
import { standing } from "../recognise/standing.ts";
import type { Followed } from "./followed.ts";
import type { ReadSheet } from "./read.ts";

/** So many steps back from a check its numbers are followed. */
const mostSteps = 8;

const keyOf = ({ row, column }: Address): string => `${row} ${column}`;

/** Of a column that a formula takes as a whole: the cells that decide a largest or a smallest value. */
function extremes(cells: readonly { readonly at: Address; readonly value: unknown }[], formula: string): Address[] {
  const numbers = cells.flatMap(({ at, value }) => (typeof value === "number" ? [{ at, value }] : []));
  if (numbers.length === 0) return [];
  const most = numbers.reduce((a, b) => (b.value > a.value ? b : a));
  const least = numbers.reduce((a, b) => (b.value < a.value ? b : a));
  return /\bMIN\(/.test(formula) ? [most.at, least.at] : [most.at];
}

/**
 * The cells that decide the checks of a sheet, from the check that governs on: what a check is computed from, and of
 * each column that it takes as a whole the largest value (the smallest too, where it looks for one).
 */
export function decidingCells(sheet: ReadSheet, followed: Followed): readonly Address[] {
  const { of, checks } = sheet;
  const { snapshot, plan } = of;
  const order = plan.summary.checks
    .map(({ utilisation }, i) => ({ utilisation, size: Number(checks[i]?.utilisation) || 0 }))
    .sort((a, b) => b.size - a.size);
  const found = new Map<string, Address>();
  let next = order.flatMap(({ utilisation }) => standing(of, utilisation) ?? []);
  for (let step = 0; step < mostSteps && next.length > 0; step++) {
    const behind: Address[] = [];
    for (const at of next) {
      if (found.has(keyOf(at))) continue;
      found.set(keyOf(at), at);
      const { formula } = cellAt(snapshot, at.row, at.column);
      if (formula === undefined) continue;
      for (const { text } of followed.read(sheet, at, formula)?.references ?? []) {
        const read = readCells(text);
        const area = read && areaOf(read);
        if (!area || (read.sheet !== undefined && read.sheet !== snapshot.sheet)) continue;
        for (let c = 0; c < area.columns; c++) {
          const column = Array.from({ length: area.rows }, (_, r) => {
            const place = { row: area.row + r, column: area.column + c };
            return { at: place, value: cellAt(snapshot, place.row, place.column).value };
          });
          behind.push(...(area.rows === 1 ? [column[0]!.at] : extremes(column, formula)));
        }
      }
    }
    next = behind;
  }
  return [...found.values()];
}
