import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { controlPoints } from "./controlPoints.ts";
import { breaks, eccentricityAt, profile, right, slopeAt, within } from "./profile.ts";

export const tendonSlope = stepwise({
  id: "TENDON_SLOPE",
  family: "tendon",
  summary: "Slope of a tendon at x, positive where it goes down to the right",
  notes: [
    "Between control points the tendon is straight or a parabola e(x) whose slope changes linearly.",
    "Eccentricity positive below the centroid.",
    "At a kink the slope to the right of it.",
  ],
  source: mechanics,
  params: { points: controlPoints, x: as(q.controlX, { text: "distance from the left end of the tendon" }) },
  result: q.tendonSlope,
  steps: {
    slope: {
      symbol: "e'(x)",
      unit: "–",
      governing: "e'(x) = e'_i + (e'_{i+1} - e'_i)\\,\\frac{x - x_i}{x_{i+1} - x_i}",
    },
  },
  compute: ({ points, x: at }) => {
    const p = profile(points);
    return { slope: slopeAt(p, within(p, at)) };
  },
  /** Derivative of the parabola through three points of the segment. */
  proof: ({ points, x: at }, { slope }) => {
    const p = profile(points);
    const a = within(p, at);
    const to = breaks(p).find((b) => b > a) ?? right(p);
    const from = breaks(p)
      .filter((b) => b < to)
      .at(-1)!;
    const u = (a - from) / (to - from);
    const [e_0, e_m, e_1] = [from, (from + to) / 2, to].map((place) => eccentricityAt(p, place)) as [
      number,
      number,
      number,
    ];
    const derivative = (e_0 * (4 * u - 3) + e_m * (4 - 8 * u) + e_1 * (4 * u - 1)) / (to - from);
    return (slope - derivative) / (1 + Math.abs(derivative));
  },
  unpublished: "Derivative of the eccentricity, which is checked.",
});
