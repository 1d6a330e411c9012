import { a1, movedDown, sameFormula, wordsOf, type Address, type Area, type Snapshot } from "../../cells/index.ts";
import type { Meaning } from "../../sheet/index.ts";
import { hasSymbol, plainSymbol } from "../../typeset/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { areaNow } from "./look.ts";

/** The formulas of cells that follow one another down a column and are the same. */
export interface SaidFormula {
  /** The first of them, on the original. */
  readonly at: Address;
  readonly rows: number;
  /** With symbols and numbers of rows in place of addresses. */
  readonly read: string;
  /** As it stands in the first cell, with the addresses of the copy. */
  readonly stands: string;
  /** The formula further up the column that says the same of other rows. */
  readonly like?: Address;
}

/** The symbol; without one the description as far as its first comma. */
const called = ({ symbol, description }: Meaning): string =>
  hasSymbol(symbol) ? plainSymbol(symbol) : description.split(/[,;:(]/)[0]!.trim();

/** "σp0 [4.1]", "σp [5.2: row 3]", "M to fibre [2.7: all rows]": cells in the words of the sheet; undefined where they have none. */
function wordsFor(
  recognised: Recognised,
  wholeOf: (meaning: Meaning) => Area | undefined,
  area: Area,
  at: Address,
): string | undefined {
  const meaning = recognised.meaningAt(area);
  const whole = meaning && wholeOf(meaning);
  if (!meaning || !whole) return undefined;
  const last =
    area.columns === 1 ? meaning : recognised.meaningAt({ row: area.row, column: area.column + area.columns - 1 });
  if (!last || last.item !== meaning.item || area.row + area.rows > whole.row + whole.rows) return undefined;
  const name = last === meaning ? called(meaning) : `${called(meaning)} to ${called(last)}`;
  const from = area.row - whole.row + 1;
  if (whole.rows === 1) return `${name} [${meaning.item}]`;
  const which =
    area.rows === whole.rows
      ? "all rows"
      : area.rows > 1
        ? `rows ${from} to ${from + area.rows - 1}`
        : area.row === at.row
          ? "this row"
          : `row ${from}`;
  return `${name} [${meaning.item}: ${which}]`;
}

/** A message without the rows it is about. */
const ofAnyRow = (read: string): string => read.replace(/: (?:this row|all rows|rows? \d+(?: to \d+)?)\]/g, "]");

/**
 * Every formula of the sheet, said once where it repeats down a column, by the row of its first cell. `down`: how much
 * further down the copy stands.
 */
export function saidFormulas(
  snapshot: Snapshot,
  recognised: Recognised | undefined,
  down: number,
): ReadonlyMap<number, readonly SaidFormula[]> {
  const out = new Map<number, SaidFormula[]>();
  const wholes = new Map<Meaning, Area | undefined>();
  const wholeOf = (meaning: Meaning): Area | undefined => {
    if (!wholes.has(meaning)) wholes.set(meaning, recognised && areaNow(recognised, meaning.at));
    return wholes.get(meaning);
  };
  const formulaAt = (row: number, column: number): string | undefined => snapshot.cells[row]?.[column]?.formula;
  for (let column = 0; column < snapshot.columns; column++) {
    let before: { readonly said: string; readonly at: Address } | undefined;
    for (let row = 0; row < snapshot.rows; row++) {
      const formula = formulaAt(row, column);
      if (formula === undefined) continue;
      const at = { row, column };
      let rows = 1;
      for (
        let next = formulaAt(row + rows, column);
        next !== undefined && sameFormula(formula, at, next, { row: row + rows, column });
        next = formulaAt(row + rows, column)
      )
        rows++;
      const named = (name: string): Area | undefined => {
        const place = snapshot.names.get(name.toLowerCase());
        return place?.sheet === snapshot.sheet ? place : undefined;
      };
      const read = wordsOf(formula, down, (what) => {
        const area = "area" in what ? what.area : named(what.name);
        return recognised && area ? wordsFor(recognised, wholeOf, area, at) : undefined;
      });
      const like = before?.said === ofAnyRow(read) ? before.at : undefined;
      if (!like) before = { said: ofAnyRow(read), at };
      out.set(row, [
        ...(out.get(row) ?? []),
        { at, rows, read, stands: movedDown(formula, down), ...(like && { like }) },
      ]);
      row += rows - 1;
    }
  }
  for (const all of out.values()) all.sort((a, b) => a.at.column - b.at.column);
  return out;
}

/** As it is written beside the row, the cells named as on the copy: on one line where both fit into so many characters. */
export function saidText({ at, rows, read, stands, like }: SaidFormula, down: number, width: number): string {
  const cell = (row: number): string => a1({ row: row + down, column: at.column });
  const where = rows === 1 ? cell(at.row) : `${cell(at.row)} to ${cell(at.row + rows - 1)}, each as the first`;
  if (`=${read}`.replaceAll("; ", ",") === stands.replaceAll("; ", ",")) return `${where}: ${stands}`;
  const full = `${where}: ${read}`;
  // Long words said of other rows before are not said again: of which rows, the addresses tell.
  const told =
    like && `${full}   ${stands}`.length >= width ? `${where}: as ${a1({ ...like, row: like.row + down })}` : full;
  return `${told}   ${stands}`.length < width ? `${told}   ${stands}` : `${told}\n${stands}`;
}
