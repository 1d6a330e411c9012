import { formula } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

export const shearUniform = formula({
  id: "SHEAR_UNIFORM",
  family: "loading",
  summary: "Shear force of a uniform load on a simply supported span, positive at the left support",
  notes: ["Negative right of midspan."],
  source: mechanics,
  params: { L: q.span, w: q.lineLoad, x: q.station },
  limits: ({ L }) => ({ x: { max: L, because: "the span" } }),
  result: q.shear,
  equation: "w * (L / 2 - x)",
  compute: ({ w, L, x }) => w * (L / 2 - x),
  unpublished: "Elementary statics; no published result was found.",
});
