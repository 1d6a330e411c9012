import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

export const sectionModulus = formula({
  id: "SECTION_MODULUS",
  family: "section",
  summary: "Section modulus of a fibre",
  source: mechanics,
  params: { I: q.secondMoment, y: as(q.distance, { symbol: "y", text: "distance of the fibre from the centroid" }) },
  result: q.sectionModulus,
  equation: "I / y",
  compute: ({ I, y }) => I / y,
});

export const kernDistance = formula({
  id: "KERN_DISTANCE",
  family: "section",
  summary: "Distance from the centroid to the edge of the kern: a force there leaves the opposite fibre without stress",
  notes: ["The section modulus of the top fibre gives the lower kern point, that of the bottom fibre the upper one."],
  source: mechanics,
  params: { Z: q.sectionModulus, A: q.area },
  result: as(q.distance, { symbol: "k" }),
  equation: "Z / A",
  compute: ({ Z, A }) => Z / A,
});
