import type { CellContent, Host } from "../hosts/index.ts";
import type { PlacedArea } from "../sheet/index.ts";

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

/** Reads a whole sheet. */
export async function takeSnapshot(host: Host, sheet: string): Promise<Snapshot> {
  const used = await host.used(sheet);
  const [cells, names] = await Promise.all([used.rows > 0 ? host.read(sheet, used) : [], host.namesOn(sheet)]);
  return {
    sheet,
    rows: used.rows,
    columns: used.columns,
    cells,
    names: new Map(names.map(({ name, area }) => [name.toLowerCase(), area])),
  };
}

/** What stands in a cell; empty beyond the used part. */
export function cellAt(snapshot: Snapshot, row: number, column: number): CellContent {
  return snapshot.cells[row]?.[column] ?? empty;
}
