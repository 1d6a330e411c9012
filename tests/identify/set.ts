/**
 * Small sheets as offices type them, and what each asked formula computes. Four groups: `identified` a rule of the
 * library in another guise; `plain` a rule that is one product, ratio or sum, with labels that make it plausible;
 * `near` a rule with one departure; `unknown` no rule at all. Formulas of the groups with an answer are checked in
 * set.test.ts against the functions.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { bookOfSheets } from "../../src/checker/index.ts";
import { Calculation, type Book, type Snapshot } from "../../src/cells/index.ts";
import type { CellContent } from "../../src/hosts/index.ts";

/** What an argument is: a cell, a range, a choice, or a number that stands in no cell. */
export interface CaseArgument {
  readonly cell?: string;
  readonly range?: string;
  readonly choice?: string;
  readonly value?: number;
  /** The unit in which the cell stands; absent where nothing on the sheet tells. A minus: the opposite sign. */
  readonly unit?: string;
  /** The cell times this is the argument in the function's unit; 1 where absent. */
  readonly times?: number;
}

/**
 * `convention`: another reading of the same inputs; `unit`: one argument in another unit; `age`: the modulus or
 * strength of another age or kind; `edition`: another edition's table or constants; `constant`: a number typed in the
 * place of an input or of the rule's own; `term`: one missing, doubled or of the wrong sign; `factor`: one typed in or
 * left out.
 */
export const departures = ["convention", "unit", "age", "edition", "constant", "term", "factor"] as const;
type DepartureKind = (typeof departures)[number];

interface Departure {
  /** The best name of it first; others that say the same. */
  readonly kinds: readonly DepartureKind[];
  /** `labels`: the formula fits a rule as it stands; only what is written beside the cells tells. */
  readonly shownBy: "labels" | "formula";
  /** The argument that it is about, where it is about one. */
  readonly argument?: string;
  readonly says: string;
  /** The formula's value over the rule's, with the numbers on the sheet. */
  readonly ratio: number;
}

export interface Answer {
  /** The function without its prefix. */
  readonly function: string;
  readonly arguments: Readonly<Record<string, CaseArgument>>;
  /** The asked cell times `times` is the function's value. */
  readonly result: { readonly unit?: string; readonly times?: number };
  /** Arguments that may change places: neither numbers nor the structure tell them apart. */
  readonly either?: readonly (readonly string[])[];
  /** Other functions that say the same of these cells. */
  readonly also?: readonly string[];
  readonly departs?: Departure;
}

/** A cell's number, text or formula; a long formula in parts. */
type Typed = number | string | null | readonly string[];

export interface IdentifyCase {
  readonly id: string;
  readonly group: "identified" | "plain" | "near" | "unknown";
  readonly about: string;
  /** The formula is the rule only there: it leaves out a branch or a limit. */
  readonly where?: string;
  /** What stands beside the cells is wrong. */
  readonly misleading?: boolean;
  /** It has the shape of a rule, or of several, with another meaning. */
  readonly trap?: boolean;
  /** A function of the spreadsheet program in the formula that the calculation of cells does not know. */
  readonly beyond?: string;
  /** Rows from A1 on, by sheet. */
  readonly sheets: Readonly<Record<string, readonly (readonly Typed[])[]>>;
  /** Names of the workbook, each a cell. */
  readonly names?: Readonly<Record<string, string>>;
  readonly ask: string;
  readonly expect?: Answer;
}

const folder = join(import.meta.dirname, "set");

/** Every case of the set. */
export function identifyCases(): readonly IdentifyCase[] {
  return readdirSync(folder).flatMap(
    (file) => JSON.parse(readFileSync(join(folder, file), "utf8")) as readonly IdentifyCase[],
  );
}

/** "Sheet1!B3" as a place. */
export function placeIn(text: string): { readonly sheet: string; readonly row: number; readonly column: number } {
  const [, sheet, letter, row] = /^(.+)!([A-Z])(\d+)$/.exec(text)!;
  return { sheet: sheet!, row: Number(row) - 1, column: letter!.charCodeAt(0) - 65 };
}

function content(typed: Typed): CellContent {
  const value = typeof typed === "object" && typed ? typed.join("") : typed;
  if (typeof value === "string" && value.startsWith("=")) return { value: null, text: "", formula: value };
  return { value, text: String(value ?? "") };
}

/** A case's sheets as they are read from a host, formulas without values; every sheet sees the workbook's names. */
export function sheetsOf({ sheets, names = {} }: Pick<IdentifyCase, "sheets" | "names">): readonly Snapshot[] {
  const named = new Map(
    Object.entries(names).map(([name, cell]) => [name.toLowerCase(), { ...placeIn(cell), rows: 1, columns: 1 }]),
  );
  return Object.entries(sheets).map(([sheet, rows]) => {
    const columns = Math.max(...rows.map((row) => row.length));
    const cells = rows.map((row) => Array.from({ length: columns }, (_, column) => content(row[column] ?? null)));
    return { sheet, rows: rows.length, columns, cells, names: named };
  });
}

/** A case's book with its formulas computed, as a host gives it. */
export function bookOf(one: Pick<IdentifyCase, "sheets" | "names">): Book {
  const sheets = sheetsOf(one);
  const calculation = new Calculation(bookOfSheets(sheets), [], { everything: true });
  return bookOfSheets(
    sheets.map((sheet) => ({
      ...sheet,
      cells: sheet.cells.map((line, row) =>
        line.map((cell, column) =>
          cell.formula === undefined
            ? cell
            : { ...cell, value: calculation.valueAt({ sheet: sheet.sheet, row, column }).value },
        ),
      ),
    })),
  );
}
