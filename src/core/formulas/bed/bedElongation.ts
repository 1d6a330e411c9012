import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

/** What the jack must pull out. */
export const bedElongation = formula({
  id: "BED_ELONGATION",
  family: "bed",
  summary: "Elongation of straight tendons on a pre-tensioning bed under the stress at the jack, before draw-in",
  notes: [
    "From slack taken up. The length of tendon in the jack is not counted.",
    "A function of its own beside TENDON_ELONGATION: on a bed there is neither curvature nor friction to state.",
    cautions.stressing,
  ],
  source: mechanics,
  params: { L_bed: q.bedLength, E_p: q.tendonModulus, sigma_p0: q.jackingStress },
  result: q.elongation,
  equation: "sigma_p0 * L_bed / E_p",
  compute: ({ sigma_p0, L_bed, E_p }) => (sigma_p0 * L_bed) / E_p,
  unpublished: "Hooke's law; no published result was found",
});
