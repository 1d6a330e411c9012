import type { Address } from "../../../src/cells/index.ts";
import {
  progressOf,
  readMarks,
  readRevisions,
  type BlockProgress,
  type Mark,
  type Recognised,
  type RevisionTable,
} from "../../../src/checker/index.ts";
import type { Host } from "../../../src/hosts/index.ts";

/** What is known of a sheet and its marks. */
export interface Marked {
  readonly recognised: Recognised;
  readonly marks: readonly Mark[];
  readonly progress: readonly BlockProgress[];
  readonly revisions: RevisionTable | undefined;
}

export function markedOf(recognised: Recognised): Marked {
  const marks = readMarks(recognised);
  return { recognised, marks, progress: progressOf(recognised, marks), revisions: readRevisions(recognised) };
}

/** The sheet with some cells as they stand now, the others as they were read: much quicker than to read all anew. */
export async function withCellsNow(
  host: Pick<Host, "read">,
  recognised: Recognised,
  cells: readonly Address[],
): Promise<Recognised> {
  const { snapshot } = recognised;
  const now = snapshot.cells.map((row) => [...row]);
  for (const { row, column } of cells)
    now[row]![column] = (await host.read(snapshot.sheet, { row, column, rows: 1, columns: 1 }))[0]![0]!;
  return { ...recognised, snapshot: { ...snapshot, cells: now } };
}
