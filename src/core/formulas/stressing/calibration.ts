import { InputError } from "../../errors.ts";
import { as, format, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** The certificate of a jack with its gauge: readings and the forces they stand for. */
export const calibrationPoints = table({
  key: "jackCalibration",
  symbol: "points",
  text: "calibration of this jack with this gauge: pressure read and force in the tendon, both rising; no row between them blank",
  columns: {
    p: as(q.gaugePressure, { symbol: "p_i", text: "pressure on the gauge" }),
    P: as(q.prestressForce, { symbol: "P_i", text: "force at that pressure", min: 0 }),
  },
  minRows: 2,
});

interface CalibrationPoint {
  readonly p: number;
  readonly P: number;
}

export const calibrationNotes = [
  "A straight line from each point to the next; nothing is extrapolated. Two points give one line: slope and offset.",
  "Take the certificate of this jack with this gauge, read while the pressure rises. What is lost in the anchorage counts " +
    "only where the certificate has it.",
];

/** The two points between which a pressure or force lies, and its part of the way from the first to the second. */
export function between(
  points: readonly CalibrationPoint[],
  of: "p" | "P",
  value: number,
  name: string,
): { readonly from: CalibrationPoint; readonly to: CalibrationPoint; readonly part: number } {
  points.slice(1).forEach((point, i) => {
    const before = points[i]!;
    if (point.p <= before.p || point.P <= before.P)
      throw new InputError(
        "points",
        `point ${i + 2} does not lie above point ${i + 1}; pressure and force must both rise`,
      );
  });
  const [first, last] = [points[0]!, points.at(-1)!];
  if (value < first[of] || value > last[of]) {
    const unit = of === "p" ? "bar" : "kN";
    // Pressures are in MPa and forces in N inside.
    const shown = (inside: number): string => format(of === "p" ? inside * 10 : inside / 1000);
    throw new InputError(
      name,
      `${shown(value)} ${unit} lies outside the calibration, ${shown(first[of])} to ${shown(last[of])} ${unit}; ` +
        "calibrate over the range used",
    );
  }
  const at = Math.max(
    1,
    points.findIndex((point) => point[of] >= value),
  );
  const [from, to] = [points[at - 1]!, points[at]!];
  return { from, to, part: (value - from[of]) / (to[of] - from[of]) };
}
