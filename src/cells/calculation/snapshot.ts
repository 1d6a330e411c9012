import type { PlacedArea } from "../address/place.ts";
import type { CellContent } from "../values/content.ts";

/** A sheet as it stands, read in one go. */
export interface Snapshot {
  readonly sheet: string;
  readonly rows: number;
  readonly columns: number;
  /** By row and column from the sheet's first cell. */
  readonly cells: readonly (readonly CellContent[])[];
  /** The sheet's own names in small letters, with the cells they stand for; undefined where a name lost its cells. */
  readonly names: ReadonlyMap<string, PlacedArea | undefined>;
}

const empty: CellContent = { value: null, text: "" };

/** What stands in a cell; empty beyond the used part. */
export function cellAt(snapshot: Snapshot, row: number, column: number): CellContent {
  return snapshot.cells[row]?.[column] ?? empty;
}
