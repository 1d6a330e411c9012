import { cautions } from "../../cautions.ts";
import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { between, calibrationNotes, calibrationPoints } from "./calibration.ts";

export const jackForceCalibrated = stepwise({
  id: "JACK_FORCE_CALIBRATED",
  family: "stressing",
  summary: "Force in the tendon from the pressure on the gauge, from the calibration table of the jack",
  notes: [...calibrationNotes, cautions.stressing],
  source: mechanics,
  params: { points: calibrationPoints, p: q.gaugePressure },
  result: q.prestressForce,
  steps: {
    P: {
      symbol: "P",
      unit: "kN",
      governing: "P = P_i + (p - p_i)\\,\\frac{P_{i+1} - P_i}{p_{i+1} - p_i},\\quad p_i \\le p \\le p_{i+1}",
    },
  },
  compute: ({ points, p }) => {
    const { from, to, part } = between(points, "p", p, "p");
    return { P: from.P + part * (to.P - from.P) };
  },
  /** The pressure for that force is the one read. */
  proof: ({ points, p }, { P }) => {
    const { from, to, part } = between(points, "P", Math.min(Math.max(P, points[0]!.P), points.at(-1)!.P), "P");
    return (from.p + part * (to.p - from.p) - p) / points.at(-1)!.p;
  },
  unpublished: "A straight line between two points of the certificate; no published number found.",
});
