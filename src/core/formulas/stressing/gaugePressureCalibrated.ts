import { cautions } from "../../cautions.ts";
import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { between, calibrationNotes, calibrationPoints } from "./calibration.ts";

export const gaugePressureCalibrated = stepwise({
  id: "GAUGE_PRESSURE_CALIBRATED",
  family: "stressing",
  summary: "Pressure on the gauge for a force in the tendon, from the calibration table of the jack",
  notes: [...calibrationNotes, cautions.stressing],
  source: mechanics,
  params: {
    points: calibrationPoints,
    P: as(q.prestressForce, { text: "force wanted in the tendon", min: 0 }),
  },
  result: q.gaugePressure,
  steps: {
    p: {
      symbol: "p",
      unit: "bar",
      governing: "p = p_i + (P - P_i)\\,\\frac{p_{i+1} - p_i}{P_{i+1} - P_i},\\quad P_i \\le P \\le P_{i+1}",
    },
  },
  compute: ({ points, P }) => {
    const { from, to, part } = between(points, "P", P, "P");
    return { p: from.p + part * (to.p - from.p) };
  },
  /** The force at that pressure is the one wanted. */
  proof: ({ points, P }, { p }) => {
    const { from, to, part } = between(points, "p", Math.min(Math.max(p, points[0]!.p), points.at(-1)!.p), "p");
    return (from.P + part * (to.P - from.P) - P) / points.at(-1)!.P;
  },
  unpublished: "A straight line between two points of the certificate; no published number found.",
});
