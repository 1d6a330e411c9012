import type { GridRuntime } from "./runtime.ts";

/**
 * The grid notes the values of cells that are compared and answers the next comparison from its notes, in which 0 is
 * the same as an empty text: `H9=""` is right the first time and wrong the second. Here it notes nothing and compares.
 */
export function compareCells({ formula }: Pick<GridRuntime, "formula">): void {
  const notes = formula.CELL_INVERTED_INDEX_CACHE;
  notes.canUseCache = () => ({ rowsInCache: [], rowsNotInCache: [] });
  notes.set = () => undefined;
  notes.setContinueBuildingCache = () => undefined;
}
