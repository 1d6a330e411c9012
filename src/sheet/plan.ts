import type { Address, Area } from "../cells/index.ts";
import type { PlacedLogo } from "./logo.ts";
import type { Pages } from "./pageBreaks.ts";
import type { Letters } from "./subscripts.ts";
export type { Letters } from "./subscripts.ts";
import type { InputValue, SeriesKind } from "./template.ts";

/**
 * A plan: a check sheet as plain data, before it is on any host. Rows and columns count from 0.
 * Hosts apply plans; they decide nothing about engineering.
 */

/** What a cell is, for its look. Every host has one style a role. */
export type Role =
  | "title"
  | "subtitle"
  | "caution"
  | "block"
  | "note"
  | "heading"
  | "headingRight"
  | "headingIn"
  | "tableHeading"
  | "tableSymbol"
  | "tableWord"
  | "tableWordIn"
  | "tableUnit"
  | "item"
  | "description"
  | "wordIn"
  | "symbol"
  | "value"
  | "unit"
  | "equation"
  | "source"
  | "mark"
  | "bound"
  | "input"
  | "choice"
  | "textInput"
  | "record"
  | "linked"
  | "linkedText"
  | "shape"
  | "verdict"
  | "overall"
  | "warning"
  | "label"
  | "listed"
  | "titleRight"
  | "band"
  | "bandText"
  | "fieldLabel"
  | "field"
  | "checkValue"
  | "checkWhere"
  | "utilisation";

/** Roles of input cells: what stands in them is typed, none of the template's. */
export const inputRoles: ReadonlySet<Role> = new Set(["input", "choice", "textInput"]);

/** Roles of cells the plan leaves empty for what people write when they check or issue the sheet. */
export const peoplesRoles: ReadonlySet<Role> = new Set(["mark", "record"]);

export interface PlannedCell extends Address {
  /**
   * Either a value or a formula (with its leading `=`); neither for a styled empty cell.
   * A value that is a string is text and stays text, whatever it starts with: "=1+1", "5.10", "TRUE".
   */
  readonly value?: string | number | boolean;
  readonly formula?: string;
  readonly role: Role;
  /** Number format of the spreadsheet program, such as `0.00`. */
  readonly format?: string;
  /** Of a cell that shows one of the source's: the name there, and the cell's number under it. */
  readonly link?: { readonly name: string; readonly index: number };
  /** A text that runs on over the empty cells beside it and never wraps, whatever its role. */
  readonly runsOn?: true;
  /** Letters of a text that are subscripts: from the first of each run, up to the one behind its last. */
  readonly lowered?: readonly Letters[];
  /** On a copy that computes by itself: it does not follow the inputs. */
  readonly stays?: true;
}

/** A function of the workbook's own: a name that stands for a LAMBDA, which is written without `=`. */
export interface PlannedFunction {
  readonly name: string;
  readonly formula: string;
}

/** A sheet-scoped name. */
export interface PlannedName extends Area {
  readonly name: string;
}

/** The sheet that linked cells refer to, with the cells of its names that they rely on. */
export interface PlannedSource {
  readonly template: string;
  readonly sheet: string;
  readonly names: readonly PlannedName[];
}

export interface Validation extends Area {
  readonly rule:
    | {
        readonly kind: "number";
        readonly min?: number;
        readonly max?: number;
        readonly above?: number;
        readonly below?: number;
        readonly whole?: true;
      }
    | { readonly kind: "list"; readonly values: readonly string[] };
  readonly title: string;
  readonly message: string;
  readonly allowBlank?: true;
}

/** Colours a cell whose text is `text`, or begins with it. */
export interface Highlight extends Area {
  readonly text: string;
  readonly begins?: true;
  readonly tone: "good" | "bad" | "open";
}

export interface Series {
  readonly name: string;
  /** Contiguous column areas of equal length. */
  readonly x: Area;
  readonly y: Area;
  readonly kind: SeriesKind;
}

export interface PlannedChart {
  readonly id: string;
  readonly title: string;
  /** `log`: logarithmic to base 10, without the points at 0 and less. */
  readonly x: { readonly label: string; readonly unit: string; readonly log?: true };
  /** `down`: grows downward. */
  readonly y: { readonly label: string; readonly unit: string; readonly down?: true };
  /** In the order in which they are drawn: points last, so that they lie in front. */
  readonly series: readonly Series[];
  /** Where a host that draws charts on the sheet puts it. */
  readonly at: Area;
}

/**
 * What a cell means: for Trace, charts and comparison. One for each row's value and each table column; `_` in the
 * symbol starts a subscript.
 */
export interface Meaning {
  readonly id: string;
  readonly item: string;
  readonly description: string;
  readonly symbol: string;
  readonly unit: string;
  readonly quantity?: string;
  readonly at: Area;
  /** How it comes about, as the sheet itself puts it beside the row or above the table. */
  readonly equation?: string;
  readonly source?: string;
  /** Its formula holds the names of other rows, and changes with them. */
  readonly namesRows?: true;
}

/** A status cell that can say CONFLICT, and the cell that then says why. `of`: the inputs it judges, with their row in a table. */
export interface ConflictCells {
  readonly of: readonly { readonly id: string; readonly index: number }[];
  /** "tendon 2, control point 3"; empty outside tables. */
  readonly where: string;
  readonly status: Address;
  readonly message: Address;
}

/** A cell that has to be filled in, typed or linked, and the status cell that says MISSING while it is not. */
export interface JudgedCell {
  readonly id: string;
  /** Which place of the input's list, counted from 0 over all dimensions. */
  readonly index: number;
  /** "right end, tendon 2"; empty outside tables. */
  readonly where: string;
  readonly at: Address;
  readonly status: Address;
  /** It holds words; without it a number. */
  readonly words?: true;
  /** It may stay empty where another input says so. */
  readonly sometimes?: true;
}

/** Where the panel finds the result after building. */
export interface Summary {
  readonly overall: Address;
  /** One row a check. `aside`: it gathers the verdicts of the sheet, and is told where it does not pass. */
  readonly checks: readonly {
    readonly id: string;
    readonly description: string;
    readonly utilisation: Address;
    readonly where: Address;
    readonly verdict: Address;
    readonly aside?: true;
  }[];
  /** The cells of the warning texts; no rows where the template lists none. */
  readonly warnings: Area;
  /** The code of these warnings, and where whoever has answered them types it. */
  readonly answer?: { readonly code: Address; readonly typed: Address };
}

/** How a sheet is printed: A4, as wide as `pagesWide` pages (one where it is not said), those of the same rows one after another. */
export interface Print {
  readonly area: Area;
  readonly titleRows: readonly [number, number];
  readonly orientation: "landscape" | "portrait";
  /** `{page}` and `{pages}` stand for the page numbers, `{sheet}` for the sheet's name. */
  readonly footer: string;
  readonly pagesWide?: number;
  /** Per cent of its size on screen, in place of pages that it has to fit: a page then takes as many rows in every program. */
  readonly scale?: number;
  /** Rows that begin a page. */
  readonly breaks?: readonly number[];
  /** From which hosts that know what texts the formulas give find them anew. */
  readonly pages?: Pages;
  /** Letters of columns and numbers of rows are printed too. */
  readonly addresses?: true;
}

export interface Plan {
  readonly template: { readonly id: string; readonly version: string; readonly title: string };
  /**
   * Of everything the template and its shape inputs put on the sheet: texts, formulas, names, rules, charts, not what
   * stands in the other inputs. So it still tells what the sheet is after inputs were typed anew.
   */
  readonly hash: string;
  /** Of a linked sheet. */
  readonly source?: PlannedSource;
  /** Every input by id as built, shape inputs included; arrays nested by dimension for table inputs; null where left empty. */
  readonly inputs: Readonly<Record<string, InputValue>>;
  readonly rows: number;
  readonly columns: number;
  /** Column widths in characters. */
  readonly widths: readonly number[];
  /** Sentences that run over several cells of one row: hosts join these cells. Never in tables. */
  readonly spans: readonly Area[];
  /** How many lines a row takes where it is not one, by row number: parts of a line too, for rows with subscripts and empty low rows. */
  readonly lines: Readonly<Record<number, number>>;
  readonly cells: readonly PlannedCell[];
  readonly names: readonly PlannedName[];
  /** Functions of the workbook that its formulas call beside the add-in's. */
  readonly functions?: readonly PlannedFunction[];
  readonly validations: readonly Validation[];
  readonly highlights: readonly Highlight[];
  /** Rows that fold away, with the row above them left as their head; none is folded. */
  readonly groups?: readonly { readonly row: number; readonly rows: number }[];
  /** Cells a user may type in; everything else is protected, without a password. */
  readonly unlocked: readonly Area[];
  readonly freeze: { readonly rows: number; readonly columns: number };
  readonly print: Print;
  readonly charts: readonly PlannedChart[];
  /** The sign of the office, in the row of the verdict. */
  readonly logo?: PlacedLogo;
  readonly meanings: readonly Meaning[];
  /** What has to be filled in, in the order of the sheet. */
  readonly judged?: readonly JudgedCell[];
  /** In the order of the sheet. */
  readonly conflicts?: readonly ConflictCells[];
  readonly summary: Summary;
}
