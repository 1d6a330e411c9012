import { cellAt, type Snapshot } from "../../cells/index.ts";
import { plannedHeadings, type Plan } from "../../sheet/index.ts";

/** The row of the sheet whose texts are most of the column headings, with the column of each: the first of several blocks. */
function headingsNow(
  snapshot: Snapshot,
  headings: readonly { readonly column: number; readonly text: string }[],
): ReadonlyMap<number, number> {
  let best: ReadonlyMap<number, number> = new Map();
  for (let row = 0; row < snapshot.rows && best.size < headings.length; row++) {
    const found = new Map<number, number>();
    let from = 0;
    for (const { column, text } of headings) {
      for (let now = from; now < snapshot.columns; now++) {
        if (cellAt(snapshot, row, now).value !== text) continue;
        found.set(column, now);
        from = now + 1;
        break;
      }
    }
    if (found.size > best.size) best = found;
  }
  return best;
}

/**
 * Where each column of the plan stands now; undefined for one that is gone. By the headings, then by the sheet's own
 * names, then by counting on.
 */
export function columnsNow(snapshot: Snapshot, plan: Plan): readonly (number | undefined)[] {
  const headed = headingsNow(snapshot, plannedHeadings);
  const votes = new Map<number, Map<number, number>>();
  const vote = (planned: number, now: number, weight: number): void => {
    const of = votes.get(planned) ?? new Map<number, number>();
    votes.set(planned, of.set(now, (of.get(now) ?? 0) + weight));
  };
  for (const [planned, now] of headed) vote(planned, now, 1000);
  for (const { name, column } of plan.names) {
    const area = snapshot.names.get(name.toLowerCase());
    if (area) vote(column, area.column, 1);
  }
  const known = Array.from(
    { length: plan.columns },
    (_, planned) => [...(votes.get(planned) ?? [])].sort((a, b) => b[1] - a[1])[0]?.[0],
  );
  let shift = 0;
  return known.map((now, planned) => {
    if (now !== undefined) {
      shift = now - planned;
      return now;
    }
    // Between two that are known a column without a sign is there only where there is room for it.
    const next = known.findIndex((n, i) => i > planned && n !== undefined);
    const guess = planned + shift;
    return next >= 0 && guess >= known[next]! ? undefined : guess;
  });
}
