import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

export const elongationDeviationUtilisation = formula({
  id: "ELONGATION_DEVIATION_UTILISATION",
  family: "stressing",
  summary: "How much of the tolerance a deviation of elongation uses; above 1 stressing must stop",
  notes: [
    "Tolerances differ between specifications; take that of the work. Recalled, not read, and so without " +
      "a default: EN 13670 about 15 % for one tendon and 5 % for the mean of a section; Indian practice 5 " +
      "%; American specifications 5 to 7 %.",
    cautions.stressing,
  ],
  source: mechanics,
  params: { delta: q.elongationDeviation, tolerance: q.elongationTolerance },
  cautions: ({ delta, tolerance }) =>
    Math.abs(delta) > tolerance
      ? ["elongation and pressure disagree beyond tolerance: stop stressing and find the cause"]
      : [],
  result: q.utilisation,
  equation: "abs(delta) / tolerance",
  compute: ({ delta, tolerance }) => Math.abs(delta) / tolerance,
  unpublished: "A ratio; the tolerance is the user's.",
});
