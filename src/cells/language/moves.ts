/** Where a row or a column of the plan stands now; undefined for one that is gone. */
export interface Moves {
  readonly row: (planned: number) => number | undefined;
  readonly column: (planned: number) => number | undefined;
}

/**
 * Where the first planned row (or column) that is not gone stands now, from one end of a range towards the other;
 * undefined where all are gone.
 */
export function firstStanding(
  from: number,
  to: number,
  now: (planned: number) => number | undefined,
): number | undefined {
  const step = from <= to ? 1 : -1;
  for (let i = from; i !== to + step; i += step) {
    const found = now(i);
    if (found !== undefined) return found;
  }
  return undefined;
}
