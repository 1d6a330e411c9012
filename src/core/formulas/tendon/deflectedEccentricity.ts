import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

/** A strand row held down by two deviators, alike at both ends. */
export const deflectedEccentricity = stepwise({
  id: "DEFLECTED_ECCENTRICITY",
  family: "tendon",
  summary:
    "Eccentricity at x of a strand row level between two deviators and straight from them to the member's " +
    "ends, positive below the centroid",
  notes: ["A straight row has the same eccentricity at the ends and between the deviators."],
  source: mechanics,
  params: {
    e_end: as(q.eccentricity, { symbol: "e_end", text: "eccentricity at the member's ends" }),
    e_mid: as(q.eccentricity, { symbol: "e_mid", text: "eccentricity between the deviators" }),
    x_dev: q.deviatorDistance,
    L: as(q.span, { text: "length of the member" }),
    x: q.station,
  },
  limits: ({ L }) => ({
    x: { max: L, because: "the length of the member" },
    x_dev: { max: L / 2, because: "half the length of the member" },
  }),
  result: q.eccentricity,
  steps: {
    s: {
      symbol: "s",
      unit: "m",
      text: "distance to the nearer end, no more than the deviator's",
      equation: "min(x, L - x, x_dev)",
    },
    e: { symbol: "e", unit: "mm", equation: "e_end + (e_mid - e_end) * s / x_dev" },
  },
  compute: ({ e_end, e_mid, x_dev, L, x }) => {
    const s = Math.min(x, L - x, x_dev);
    return { s, e: e_end + ((e_mid - e_end) * s) / x_dev };
  },
  unpublished: "a straight line; tested against the general tendon of control points",
});
