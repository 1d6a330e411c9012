import type { Address, Area } from "../../cells/index.ts";
import type { Letters, PlacedLogo, PlannedChart, Validation } from "../../sheet/index.ts";
import type { CellValue } from "../host/host.ts";

/**
 * A workbook as plain data, apart from any host: what a file holds of it, what the grid shows of it. A plan with its
 * values gives one, a grid with what people did to it gives one; one writer makes files of it, one reader reads it back.
 */
export interface Workbook {
  readonly sheets: readonly BookSheet[];
  /** Names of the whole workbook. */
  readonly names: readonly BookName[];
  readonly properties: BookProperties;
  /** The number of the sheet that is shown; the first where it is not said. */
  readonly shown?: number;
}

export interface BookProperties {
  readonly title?: string;
  readonly subject?: string;
  readonly creator?: string;
}

/** What a name stands for, as a formula writes it, without `=`. */
export interface BookName {
  readonly name: string;
  readonly reference: string;
  readonly hidden?: true;
}

/** A line at one side of a cell; its kind in the words of the file format: `thin`, `medium`, `dotted`, `double`. */
export interface Edge {
  readonly line: string;
  readonly color?: string;
}
export const sides = ["left", "right", "top", "bottom"] as const;
export type Side = (typeof sides)[number];

/** How a cell looks, as far as it is said. Colours are `#rrggbb`, in small letters. */
export interface BookLook {
  readonly font?: string;
  readonly size?: number;
  readonly bold?: true;
  readonly italic?: true;
  readonly underline?: true;
  readonly strike?: true;
  readonly color?: string;
  readonly background?: string;
  readonly edges?: Readonly<Partial<Record<Side, Edge>>>;
  readonly align?: string;
  /** Steps of about two letters between the text and the edge it stands at. */
  readonly indent?: number;
  readonly vertical?: string;
  readonly wrap?: true;
  /** What is too long for its cell is drawn smaller, where a program can. */
  readonly shrink?: true;
  readonly format?: string;
}

export interface BookCell extends Address {
  /** As kept; of a formula what it last gave. Null where there is nothing, or an error. */
  readonly value: CellValue;
  /** As typed, with `=`. */
  readonly formula?: string;
  readonly error?: string;
  /** The cells that the formula fills, its own first; only where it may fill several. */
  readonly fills?: { readonly rows: number; readonly columns: number };
  readonly look: BookLook;
  /** Letters of a text that are subscripts: from the first of each run, up to the one behind its last. */
  readonly lowered?: readonly Letters[];
  /** May be typed into although the sheet is protected. */
  readonly unlocked?: true;
}

/** What may be typed into some cells: a rule that a plan could have set, or another in the words of the file format. */
export interface BookEntryRule {
  readonly areas: readonly Area[];
  readonly rule:
    | Validation["rule"]
    | {
        readonly kind: "other";
        readonly type: string;
        readonly operator?: string;
        readonly formulas: readonly string[];
      };
  readonly allowBlank: boolean;
  /** What becomes of an entry that does not fit. */
  readonly otherwise: "refused" | "asked" | "told" | "taken";
  readonly title?: string;
  readonly message?: string;
  /** Shown while the cell is selected. */
  readonly prompt?: { readonly title: string; readonly message: string };
}

/** Colours that cells take by what they hold: by their text, by a comparison of numbers, or by a formula. */
export interface BookColourRule {
  readonly areas: readonly Area[];
  readonly when:
    | {
        readonly kind: "text";
        readonly operator: "equal" | "beginsWith" | "endsWith" | "contains" | "notContains";
        readonly text: string;
      }
    | { readonly kind: "number"; readonly operator: string; readonly formulas: readonly string[] }
    | { readonly kind: "formula"; readonly formula: string };
  readonly look: Pick<BookLook, "color" | "background" | "bold" | "italic" | "underline" | "strike">;
  readonly stop?: true;
}

/** How a sheet is printed, in the units and codes of the file format. */
export interface BookPrint {
  readonly areas: readonly Area[];
  readonly titleRows?: readonly [number, number];
  readonly titleColumns?: readonly [number, number];
  readonly orientation?: string;
  /** 9 is A4. */
  readonly paper?: number;
  /** 0 pages: as many as it takes. */
  readonly fit?: { readonly wide: number; readonly high: number };
  readonly scale?: number;
  readonly overThenDown?: true;
  readonly addresses?: true;
  readonly centred?: true;
  /** In inches. */
  readonly margins?: Readonly<Record<"left" | "right" | "top" | "bottom" | "header" | "footer", number>>;
  readonly header?: string;
  readonly footer?: string;
  /** Rows that begin a page. */
  readonly breaks?: readonly number[];
}

export interface Width {
  /** In characters, without the cell's inner margin. */
  readonly width: number;
  readonly hidden?: true;
}

export interface Rows {
  readonly row: number;
  readonly rows: number;
}

export interface BookSheet {
  readonly name: string;
  readonly hidden?: true;
  /** How far the sheet reaches where it is no larger than what it holds. */
  readonly rows: number;
  readonly columns: number;
  readonly cells: readonly BookCell[];
  readonly spans: readonly Area[];
  readonly widths: ReadonlyMap<number, Width>;
  /** In points. */
  readonly heights: ReadonlyMap<number, number>;
  readonly hiddenRows: readonly number[];
  /** Rows that fold away, with the row above them left as their head; none is folded. */
  readonly groups: readonly Rows[];
  readonly freeze: { readonly rows: number; readonly columns: number };
  readonly gridlines: boolean;
  /** Names that belong to this sheet. */
  readonly names: readonly BookName[];
  readonly entries: readonly BookEntryRule[];
  readonly colours: readonly BookColourRule[];
  readonly protected: boolean;
  readonly print?: BookPrint;
  readonly charts: readonly PlannedChart[];
  /** The sign of the office. */
  readonly logo?: PlacedLogo;
}

/** What every cell shows, by row and column, for what draws on a sheet's values. */
export function valuesOf({ cells }: Pick<BookSheet, "cells">): ReadonlyMap<string, CellValue> {
  return new Map(cells.map(({ row, column, value }) => [`${row} ${column}`, value]));
}
