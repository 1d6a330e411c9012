import { a1, columnLetters, rewritten } from "../../cells/index.ts";
import type { Plan } from "../../sheet/index.ts";
import type { Recognised } from "../recognise/recognised.ts";

const keysOf = new WeakMap<Plan, readonly string[]>();

/**
 * What each row of a plan is called where its number must not count, so that a seal outlives rows inserted above and
 * newer versions of the template:
 * by the first row or column with an id there, or by how far above the next one it stands.
 */
function rowKeys(plan: Plan): readonly string[] {
  const known = keysOf.get(plan);
  if (known) return known;
  const keys: (string | undefined)[] = Array.from({ length: plan.rows }, () => undefined);
  for (const { id, at } of plan.meanings) for (let i = 0; i < at.rows; i++) keys[at.row + i] ??= `${id}+${i}`;
  let next = "end";
  let distance = 0;
  for (let row = plan.rows - 1; row >= 0; row--) {
    const own = keys[row];
    if (own !== undefined) [next, distance] = [own, 0];
    else keys[row] = `${next}-${++distance}`;
  }
  keysOf.set(plan, keys as readonly string[]);
  return keys as readonly string[];
}

/** A cell of the sheet by what it is called in the plan; "?" for one that was inserted. */
export function cellKey(
  { plan, rowPlanned, columnPlanned }: Recognised,
  at: { readonly row: number; readonly column: number },
): string {
  const row = rowPlanned(at.row);
  const c = columnPlanned(at.column);
  return row === undefined || c === undefined ? "?" : `{${rowKeys(plan)[row]!} ${columnLetters(c)}}`;
}

/** A formula of the sheet, written so that it does not depend on where rows stand now. */
export function placeless(formula: string, recognised: Recognised): string {
  return rewritten(formula, recognised.snapshot.sheet, ({ sheet, from, to }) => {
    const ends = [from, ...(to ? [to] : [])];
    return ends.map((at) => (sheet === undefined ? cellKey(recognised, at) : a1(at))).join(":");
  });
}
