import { a1, type Address, type Area, type CellContent, type CellValue, type Place } from "../../cells/index.ts";
import {
  sheetNameTakenText,
  type Logo,
  type Plan,
  type PlannedCell,
  type Role,
  type Validation,
} from "../../sheet/index.ts";

export type { CellContent, CellValue, Place };

/** What is selected; as a place, its upper left cell. */
export interface Selection extends Place, Area {}

/** A cell for a sheet of the user's own; without a role it takes the look of the cell it goes into. */
export interface InsertedCell extends Omit<PlannedCell, "role"> {
  readonly role?: Role;
}

export interface ApplyOptions {
  readonly sheetName: string;
  /** Called between batches: how many of how many cells, and what is being done. */
  readonly progress: (done: number, of: number, what: string) => void;
  readonly signal?: AbortSignal;
}

/** A name already in use on the workbook. */
export class SheetNameTaken extends Error {
  override readonly name = "SheetNameTaken";
  constructor(
    readonly sheetName: string,
    readonly free: string,
  ) {
    super(sheetNameTakenText(sheetName, free));
  }
}

/** Somebody deleted the sheet before it was whole. */
export class SheetDeleted extends Error {
  override readonly name = "SheetDeleted";
  constructor(sheetName: string) {
    super(`“${sheetName}” was deleted while it was being built. Build it again if it is wanted.`);
  }
}

/** A sheet that could neither be completed nor removed: the message says which. */
export class SheetLeft extends AggregateError {
  override readonly name = "SheetLeft";
}

/** The picture on a sheet is none that another sheet can have as its logo: the message says why. */
export class LogoNotTaken extends Error {
  override readonly name = "LogoNotTaken";
}

/** Cells that should have been empty: nothing was written. */
export class CellsNotEmpty extends Error {
  override readonly name = "CellsNotEmpty";
  constructor(
    readonly sheet: string,
    readonly filled: readonly Address[],
  ) {
    const some = filled
      .slice(0, 5)
      .map((at) => a1(at))
      .join(", ");
    const more = filled.length > 5 ? ` and ${filled.length - 5} more` : "";
    const are =
      filled.length === 1 ? `The cell ${some} of “${sheet}” is` : `The cells ${some}${more} of “${sheet}” are`;
    super(`${are} not empty; nothing was written.`);
  }
}

/** Rows, columns and letters no larger than this, in pixels or points, show nothing that could be read. */
export const unseen = 4;

/** What hides or changes how cells of an area look; rows and columns counted on the sheet. */
export interface Looks {
  /** Number formats of the spreadsheet program by row and column of the area, such as `0.00` or `General`. */
  readonly formats: readonly (readonly string[])[];
  /** Rows and columns that are hidden, or drawn too low or too narrow to be seen. */
  readonly hiddenRows: readonly number[];
  readonly hiddenColumns: readonly number[];
  /** Cells with content whose letters have the colour of their ground, or nearly. */
  readonly sameColour: readonly Address[];
  /** Cells with content whose letters are too small to be read. */
  readonly tooSmall: readonly Address[];
}

/** What may be typed into a cell, as the sheet has it now. */
export interface EntryRule {
  /** `other` where it is no rule that a plan could have set. */
  readonly rule: Validation["rule"] | "other";
  /** Whether an entry that does not fit is refused, not only remarked on. */
  readonly refuses: boolean;
}

/** Colours that cells take by what they hold. */
export interface ColourRule {
  readonly areas: readonly Area[];
  /** The text that the cell is, or begins with; undefined where the condition is another. */
  readonly text?: string;
  readonly begins?: true;
  /** Of letters and ground, as `#RRGGBB`; undefined where the rule leaves them as they are. */
  readonly color?: string;
  readonly background?: string;
  /** A number format that comes with the colours. */
  readonly format?: string;
}

/** The rules of a sheet: what its cells refuse, and how they colour what they hold. */
export interface SheetRules {
  /** By row and column of the area: whether the cell refuses whatever is typed. */
  readonly locked: readonly (readonly boolean[])[];
  /** For each place asked about; undefined where anything may be typed. */
  readonly entries: readonly (EntryRule | undefined)[];
  readonly colours: readonly ColourRule[];
}

/** A name of one sheet, with the cells it stands for; none where it lost them (`#REF!`) or means something else than cells. */
export interface SheetName {
  readonly name: string;
  readonly area?: Area & { readonly sheet: string };
}

/** A place where plans are applied and cells read: the spreadsheet program or the embedded grid. */
export interface Host {
  readonly name: string;
  /** Whether the user's own undo takes an insertion back, in one step. */
  readonly undoesInsertion: boolean;
  /**
   * Builds the plan on a new sheet, all or nothing: whatever fails, no half-built sheet stays. Rejects with
   * SheetNameTaken, or an AbortError when cancelled.
   */
  apply(plan: Plan, options: ApplyOptions): Promise<{ readonly sheet: string }>;
  sheetNames(): Promise<readonly string[]>;
  /** From the sheet's first cell to the last that holds something; no rows where the sheet is empty. */
  used(sheet: string): Promise<Area>;
  /** The names that belong to the sheet alone, hidden ones of the host's own left out. */
  namesOn(sheet: string): Promise<readonly SheetName[]>;
  looks(sheet: string, area: Area): Promise<Looks>;
  /** Protection of the area, what may be typed into some of its cells, and the sheet's colours by content. */
  rules(sheet: string, area: Area, places: readonly Address[]): Promise<SheetRules>;
  /** Computes everything anew, and resolves when it is computed. */
  recalculate(): Promise<void>;
  /** The cells whose formulas refer to this one directly; undefined where the host cannot tell. */
  dependants(place: Place): Promise<readonly Place[] | undefined>;
  /**
   * Writes into cells that may be typed in, over what they hold: all or nothing. Texts stay texts. Rejects where one of them is protected.
   * Their look stays.
   */
  enterAll(sheet: string, cells: readonly Pick<InsertedCell, "row" | "column" | "value" | "formula">[]): Promise<void>;
  read(sheet: string, area: Area): Promise<readonly (readonly CellContent[])[]>;
  /**
   * Puts cells onto a sheet of the user's own, counted from its upper left cell as in a plan: all or nothing, and one
   * step to undo where the host can. Rejects with CellsNotEmpty where one of them is filled, and where one of them is
   * protected.
   */
  insert(sheet: string, cells: readonly InsertedCell[]): Promise<void>;
  /** Takes off the protection of a sheet, in a host that has no command for it; others leave that to the program. */
  unprotect?(sheet: string): Promise<void>;
  /** The sign of the office on a sheet. Rejects with LogoNotTaken where its picture is none that another sheet can have. */
  logo(sheet: string): Promise<Logo | undefined>;
  /** Whether a logo is seen on its sheets; where it is not, they keep it for files, reports and copies. */
  readonly showsLogos: boolean;
  selection(): Promise<Selection | undefined>;
  /** Puts the selection on a cell and shows it. */
  select(place: Place): Promise<void>;
  /** Reference text of a name visible on the sheet, such as `Beam!$D$12`; undefined where there is none. */
  resolveName(name: string, sheet: string): Promise<string | undefined>;
  /** Evaluates an expression as a cell of that sheet would, without touching any cell of the user's. */
  evaluate(formula: string, sheet: string): Promise<readonly (readonly CellContent[])[]>;
  /** Both return a function that ends the subscription. */
  onSelection(listener: (selection: Selection) => void): () => void;
  onCalculated(listener: () => void): () => void;
}
