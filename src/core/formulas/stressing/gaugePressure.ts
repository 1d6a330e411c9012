import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { forceLimit, jack, jackNotes, ratingCaution, share } from "./jack.ts";

export const gaugePressure = formula({
  id: "GAUGE_PRESSURE",
  family: "stressing",
  summary: "Pressure on the gauge for a force in the tendon behind the anchorage, or for a stage of it",
  notes: ["A row of a stressing table: the same share goes into ELONGATION_STAGE.", ...jackNotes, cautions.stressing],
  source: mechanics,
  params: {
    ...jack,
    P: as(q.prestressForce, { text: "force wanted in the tendon behind the anchorage, at the last stage" }),
    P_i: as(share, { default: 1 }),
  },
  limits: forceLimit,
  cautions: ratingCaution,
  result: q.gaugePressure,
  equation: "P_i * P / (A_ram * (1 - eta_j) * (1 - eta_a))",
  compute: ({ P_i, P, A_ram, eta_j, eta_a }) => (P_i * P) / (A_ram * (1 - eta_j) * (1 - eta_a)),
});
