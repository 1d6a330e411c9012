import { patternOf, type Place } from "../../cells/index.ts";

const mostThreads = 4;
/** Unlike formulas that are worth a thread: each has to make the library's rules first. */
const worthAThread = 60;

interface FormulaAt {
  readonly place: Place;
  readonly formula: string;
}

/**
 * Shares formulas out among threads. Those filled down stay together, since a pattern is searched once.
 */
export function sharedOut(formulas: readonly FormulaAt[], cores: number): readonly (readonly Place[])[] {
  const groups = new Map<string, Place[]>();
  for (const { place, formula } of formulas) {
    const pattern = patternOf(formula, place.row, place.column);
    const group = groups.get(pattern);
    if (group) group.push(place);
    else groups.set(pattern, [place]);
  }
  const wanted = Math.min(mostThreads, cores, Math.ceil(groups.size / worthAThread));
  const threads: Place[][] = Array.from({ length: Math.max(1, wanted) }, () => []);
  // By turns: what takes long often stands together.
  [...groups.values()].forEach((group, i) => threads[i % threads.length]!.push(...group));
  return threads;
}
