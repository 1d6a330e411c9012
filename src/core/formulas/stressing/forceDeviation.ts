import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

export const forceDeviation = formula({
  id: "FORCE_DEVIATION",
  family: "stressing",
  summary: "Force reached at lock-off against the calculated one, in per cent; positive where more was reached",
  notes: [
    "The force reached is that of the last reading, by the calibration of the jack.",
    "The elongation is compared at the force reached: correct the calculated one in the same ratio first.",
    cautions.stressing,
  ],
  source: mechanics,
  params: {
    P_m: as(q.prestressForce, { symbol: "P_m", text: "force reached, by the gauge", min: 0 }),
    P_c: as(q.prestressForce, { symbol: "P_c", text: "calculated force", above: 0 }),
  },
  result: q.forceDeviation,
  equation: "100 * (P_m / P_c - 1)",
  compute: ({ P_m, P_c }) => 100 * (P_m / P_c - 1),
  unpublished: "A ratio; no published number found.",
});
