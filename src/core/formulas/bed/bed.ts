import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

/** Draw-in spread over the whole line: no friction holds it back. */
export const bedDrawInLoss = formula({
  id: "BED_DRAW_IN_LOSS",
  family: "bed",
  summary: "Loss of tendon stress by draw-in at the anchorages of a pre-tensioning bed, positive",
  notes: ["Both ends together. Without friction along the bed the whole length takes it."],
  source: mechanics,
  params: {
    slip: as(q.drawIn, { text: "draw-in at the anchorages of the bed, both ends together" }),
    L_bed: q.bedLength,
    E_p: q.tendonModulus,
  },
  result: q.bedLoss,
  equation: "slip * E_p / L_bed",
  compute: ({ slip, L_bed, E_p }) => (slip * E_p) / L_bed,
  unpublished: "Hooke's law; the same arithmetic has published results under DRAW_IN_LOSS_UNIFORM",
});

/** What the jack must pull out. */
export const bedElongation = formula({
  id: "BED_ELONGATION",
  family: "bed",
  summary: "Elongation of straight tendons on a pre-tensioning bed under the stress at the jack, before draw-in",
  notes: ["From slack taken up. The length of tendon in the jack is not counted.", cautions.stressing],
  source: mechanics,
  params: { sigma_p0: q.jackingStress, L_bed: q.bedLength, E_p: q.tendonModulus },
  result: q.elongation,
  equation: "sigma_p0 * L_bed / E_p",
  compute: ({ sigma_p0, L_bed, E_p }) => (sigma_p0 * L_bed) / E_p,
  unpublished: "Hooke's law; no published result was found",
});

/** What a deviator must hold down. */
export const deflectionForce = formula({
  id: "DEFLECTION_FORCE",
  family: "bed",
  summary: "Vertical force at a deviator that holds down a strand row rising to the member's end",
  notes: [
    "Friction at the deviator is not counted. On a line of several members the strands of both sides pull at the deviators of a gap too.",
    cautions.stressing,
  ],
  source: mechanics,
  params: {
    P: q.prestressForce,
    e_end: as(q.eccentricity, { symbol: "e_end", text: "eccentricity at the member's end" }),
    e_mid: as(q.eccentricity, { symbol: "e_mid", text: "eccentricity between the deviators" }),
    x_dev: q.deviatorDistance,
  },
  result: q.deviationForce,
  equation: "P * abs(e_mid - e_end) / sqrt(x_dev^2 + (e_mid - e_end)^2)",
  compute: ({ P, e_end, e_mid, x_dev }) => (P * Math.abs(e_mid - e_end)) / Math.hypot(x_dev, e_mid - e_end),
  unpublished: "statics of a bend; no published result was found",
});
