import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { controlPoints } from "./controlPoints.ts";
import { integrate } from "./integrate.ts";
import { breaks, eccentricityAt, left, profile, slopeAt, within } from "./profile.ts";

export const tendonEccentricity = stepwise({
  id: "TENDON_ECCENTRICITY",
  family: "tendon",
  summary: "Eccentricity of a tendon at x, positive below the centroid",
  notes: [
    "Between control points the tendon is straight or a parabola e(x) whose slope changes linearly.",
    "Eccentricity positive below the centroid.",
  ],
  source: mechanics,
  params: { points: controlPoints, x: as(q.controlX, { text: "distance from the left end of the tendon" }) },
  result: q.eccentricity,
  steps: {
    e: {
      symbol: "e(x)",
      unit: "mm",
      governing: "e(x) = e_i + e'_i (x - x_i) + \\frac{e'_{i+1} - e'_i}{2\\,(x_{i+1} - x_i)} (x - x_i)^2",
    },
  },
  compute: ({ points, x: at }) => {
    const p = profile(points);
    return { e: eccentricityAt(p, within(p, at)) };
  },
  /** From the first point along the integral of the slope. */
  proof: ({ points, x: at }, { e }) => {
    const p = profile(points);
    const there = points[0]!.e + integrate((s) => slopeAt(p, s), left(p), within(p, at), breaks(p));
    return (e - there) / (1 + Math.max(...points.map((c) => Math.abs(c.e))));
  },
});
