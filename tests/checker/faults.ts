import type { Address, Area } from "../../src/cells/index.ts";
import type { Entry, Host, Place } from "../../src/hosts/index.ts";

/** A number, a text that stays text, a truth value or a formula; null empties the cell. */
export type FaultyEntry = number | string | boolean | null | { readonly formula: string };

/** A host of tests: what is typed cell by cell, and an end. */
export interface TestHost extends Host {
  enter(place: Place, entry: Entry): Promise<void>;
  dispose(): void;
}

export interface Copied {
  readonly host: TestHost;
  readonly sheet: string;
}

export interface OwnColours {
  readonly color: string;
  readonly background?: string;
  readonly format?: string;
}

/** What people do to a sheet that was built. Each resolves when what follows is computed. */
export interface Faults {
  readonly host: TestHost;
  /** Takes the protection away; what was protected can be typed over then. */
  unprotected(sheet: string): Promise<void>;
  /** Protects the used part of a sheet again, but for one cell. */
  protectedBut(sheet: string, at: Address): Promise<void>;
  typeOver(sheet: string, at: Address, entry: FaultyEntry): Promise<void>;
  insertRows(sheet: string, before: number, count: number): Promise<void>;
  deleteRows(sheet: string, first: number, count: number): Promise<void>;
  hideRow(sheet: string, row: number): void;
  hideColumn(sheet: string, column: number): void;
  setFormat(sheet: string, at: Address, pattern: string): void;
  /** Of the letters, such as `#FFFFFF`. */
  setColour(sheet: string, at: Address, rgb: string): void;
  setSize(sheet: string, at: Address, points: number): void;
  /** Colours what is at least so great, on a condition of its own. */
  addColours(sheet: string, area: Area, least: number, style: OwnColours): void;
  /** Takes the colours away that cells take where they hold this text; all colours without one. */
  clearColours(sheet: string, text?: string): void;
  /** Gives those cells the colours of cells that hold another text. */
  swapColours(sheet: string, text: string, as: string): void;
  /** The numbers an input takes; without them it takes whatever is typed. */
  setEntryRule(sheet: string, at: Address, between?: readonly [number, number]): void;
  rename(sheet: string, name: string): Promise<void>;
  /** The name of the copy. */
  duplicate(sheet: string): Promise<string>;
  remove(sheet: string): Promise<void>;
  /** Cells with values, formulas, formats and rules, as a file keeps them, in another book that knows nothing of how they were built. */
  copyToAnotherBook(sheet: string, name?: string): Promise<Copied>;
  /** Makes a name of the sheet stand for other cells. */
  changeName(sheet: string, name: string, area: Area): Promise<void>;
}
