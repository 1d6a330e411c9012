import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

/** What a deviator must hold down. */
export const holdDownForce = formula({
  id: "HOLD_DOWN_FORCE",
  family: "bed",
  summary: "Hold-down force of a strand row at a deviator, from which it rises to the member's end; vertical",
  notes: [
    "Friction at the deviator is not counted. On a line of several members the strands of both sides pull at the deviators of a gap too.",
    cautions.stressing,
  ],
  source: mechanics,
  params: {
    e_end: as(q.eccentricity, { symbol: "e_end", text: "eccentricity at the member's end" }),
    e_mid: as(q.eccentricity, { symbol: "e_mid", text: "eccentricity between the deviators" }),
    x_dev: q.deviatorDistance,
    P: q.prestressForce,
  },
  result: q.holdDownForce,
  equation: "P * abs(e_mid - e_end) / sqrt(x_dev^2 + (e_mid - e_end)^2)",
  compute: ({ P, e_end, e_mid, x_dev }) => (P * Math.abs(e_mid - e_end)) / Math.hypot(x_dev, e_mid - e_end),
  unpublished: "statics of a bend; no published result was found",
});
