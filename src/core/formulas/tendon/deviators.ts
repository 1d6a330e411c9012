import { InputError } from "../../errors.ts";
import { as, format, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mostPathRows } from "./controlPoints.ts";
import type { Turn } from "./segments.ts";

/** A point of an external tendon: its place and the angles by which it turns the tendon there; none at the two ends. */
interface Deviator {
  readonly x: number;
  readonly theta_v: number;
  readonly theta_h: number;
}

export const deviatorsTable = table({
  key: "deviators",
  symbol: "deviators",
  text: "external tendon: its left end, the deviators and its right end, with the angles by which they turn it; 0 at both ends",
  columns: {
    x: as(q.controlX, { symbol: "x_i", text: "distance of the end or deviator from the left" }),
    theta_v: as(q.segmentAngleElevation, { symbol: "θ_v", text: "angle in elevation, without sign" }),
    theta_h: as(q.segmentAnglePlan, { symbol: "θ_h", text: "angle in plan, without sign" }),
  },
  minRows: 2,
  maxRows: mostPathRows,
});

const metres = (mm: number): string => `${format(mm / 1000)} m`;

/** Refuses rows out of order, and angles at the ends: there a row was left out. */
export function checkDeviators(rows: readonly Deviator[]): void {
  rows.forEach(({ x }, i) => {
    const before = rows[i - 1];
    if (before && x <= before.x)
      throw new InputError(
        "path",
        `row ${i + 1} of the deviators at x = ${metres(x)} does not lie to the right of row ${i} at x = ` +
          `${metres(before.x)}; x must increase from row to row`,
      );
  });
  for (const [row, name] of [
    [rows[0]!, "first"],
    [rows.at(-1)!, "last"],
  ] as const) {
    if (row.theta_v !== 0 || row.theta_h !== 0)
      throw new InputError(
        "path",
        `the ${name} row of the deviators is an end of the tendon, where nothing turns; its angles must be ` +
          `0, and the deviator at x = ${metres(row.x)} needs a row of its own`,
      );
  }
}

/** Straight lines and the deviators between them, from left to right. */
export function segmentsBetween(rows: readonly Deviator[]): readonly Turn[] {
  const line = (l: number): Turn => ({ l, alpha_v: 0, alpha_h: 0 });
  return rows.slice(1).flatMap(({ x, theta_v, theta_h }, i): readonly Turn[] => {
    const straight = line(x - rows[i]!.x);
    const isEnd = i === rows.length - 2;
    return isEnd ? [straight] : [straight, { l: 0, alpha_v: theta_v, alpha_h: theta_h }];
  });
}
