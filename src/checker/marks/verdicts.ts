import { cellAt } from "../../cells/index.ts";
import { columns } from "../../sheet/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import type { Part } from "./parts.ts";

/** Verdicts and statuses that say that something does not hold or cannot be said. */
const doubtful: ReadonlySet<unknown> = new Set([
  "FAIL",
  "OUT OF RANGE",
  "UNUSUAL",
  "CONFLICT",
  "MISSING",
  "LIMIT MISSING",
  "INPUT MISSING",
  "OPEN",
  "INCOMPLETE",
  "WARNINGS",
  "REBUILD",
  "CHANGED",
]);

/** The verdicts and statuses of a part that are none of the good ones, with how often each stands there. */
export function doubtsIn(part: Part, { snapshot, rowNow, columnNow }: Recognised): ReadonlyMap<string, number> {
  const out = new Map<string, number>();
  const column = columnNow(columns.verdict);
  for (let planned = part.first; planned <= part.last; planned++) {
    const row = rowNow(planned);
    const value = row === undefined || column === undefined ? undefined : cellAt(snapshot, row, column).value;
    if (typeof value === "string" && doubtful.has(value)) out.set(value, (out.get(value) ?? 0) + 1);
  }
  return out;
}
