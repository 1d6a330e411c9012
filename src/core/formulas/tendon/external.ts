import { InputError } from "../../errors.ts";
import { as, format, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import type { Segment } from "./segments.ts";

/** A deviator of an external tendon: its distance from the left end and the angles by which it turns the tendon. */
export interface Deviator {
  readonly x: number;
  readonly theta_v: number;
  readonly theta_h: number;
}

export const deviatorsTable = table({
  key: "deviators",
  symbol: "deviators",
  text: "deviators from left to right, with the angles by which they turn the tendon",
  columns: {
    x: as(q.controlX, { symbol: "x_i", text: "distance of the deviator from the left end of the tendon" }),
    theta_v: as(q.segmentAngleElevation, { symbol: "θ_v", text: "angle in elevation, without sign" }),
    theta_h: as(q.segmentAnglePlan, { symbol: "θ_h", text: "angle in plan, without sign" }),
  },
  minRows: 1,
});

const metres = (mm: number): string => `${format(mm / 1000)} m`;

/** Refuses deviators out of order or outside the tendon. */
export function checkDeviators(deviators: readonly Deviator[], L: number): void {
  deviators.forEach(({ x }, i) => {
    const before = i === 0 ? 0 : deviators[i - 1]!.x;
    if (x <= before)
      throw new InputError(
        "deviators",
        `deviator ${i + 1} at x = ${metres(x)} does not lie to the right of ${i === 0 ? "the left end" : `deviator ${i}`} at x = ${metres(before)}; x must increase from deviator to deviator`,
      );
    if (x >= L)
      throw new InputError(
        "deviators",
        `deviator ${i + 1} at x = ${metres(x)} lies outside the tendon; allowed: above 0 and below ${metres(L)}`,
      );
  });
}

/** Straight lines and the deviators between them, from left to right. */
export function segmentsBetween(deviators: readonly Deviator[], L: number): readonly Segment[] {
  const line = (l: number): Segment => ({ l, alpha_v: 0, alpha_h: 0, mu: 0, k: 0 });
  const rows = deviators.flatMap(({ x, theta_v, theta_h }, i): readonly Segment[] => [
    line(x - (deviators[i - 1]?.x ?? 0)),
    { l: 0, alpha_v: theta_v, alpha_h: theta_h, mu: 0, k: 0 },
  ]);
  return [...rows, line(L - deviators.at(-1)!.x)];
}
