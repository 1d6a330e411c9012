import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

export const elongationAtJack = formula({
  id: "ELONGATION_AT_JACK",
  family: "stressing",
  summary:
    "Elongation to be read at the jack: tendon, length in the jack, pull-in at the dead end, less the draw-in after lock-off",
  notes: [
    "Measured where the jack grips the tendon. Slack comes on top and is taken out by two readings.",
    "After lock-off the length in the jack has lost its elongation: L_j = 0 then.",
    cautions.stressing,
  ],
  source: mechanics,
  params: {
    L_j: as(q.tendonLength, {
      symbol: "L_j",
      text: "length of tendon from the anchorage to the grip of the jack",
      min: 0,
      max: 10,
      typical: [0, 2],
      smallest: 0.05,
    }),
    E_p: q.tendonModulus,
    elongation: as(q.elongation, { text: "elongation of the tendon between the anchorages before lock-off", min: 0 }),
    sigma0: q.jackingStress,
    slip_d: as(q.drawIn, { symbol: "Δ_d", text: "pull-in of the dead-end anchorage while stressing" }),
    slip: as(q.drawIn, { text: "draw-in at lock-off, for the elongation after it; 0 before", default: 0 }),
  },
  result: { ...q.elongation, max: 1e9 },
  equation: "elongation + sigma0 * L_j / E_p + slip_d - slip",
  compute: ({ elongation, sigma0, L_j, E_p, slip_d, slip }) => elongation + (sigma0 * L_j) / E_p + slip_d - slip,
  unpublished: "Hooke's law and a straight line through two readings; no published number found.",
});
