import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { courseFrom, distanceTo } from "./course.ts";
import { jackingEnd, otherEnd } from "./ends.ts";
import { path, pathNotes } from "./pathRange.ts";

export const distanceFromJack = stepwise({
  id: "DISTANCE_FROM_JACK",
  family: "tendon",
  summary: "Distance from the jack of a tendon to x, as friction takes it",
  notes: ["Along the span for control points, along the tendon for segments and deviators.", ...pathNotes],
  source: mechanics,
  params: { path, jack: jackingEnd, x: as(q.controlX, { text: "distance from the left end of the tendon" }) },
  result: q.distanceFromJack,
  steps: { s: { symbol: "s", unit: "m", governing: "s = x - x_{left}\\ \\text{or}\\ x_{right} - x" } },
  compute: ({ path: rows, jack, x }) => ({ s: distanceTo(rows, x, jack) }),
  proof: ({ path: rows, jack, x }, { s }) =>
    (s + distanceTo(rows, x, otherEnd(jack))) / courseFrom(rows, jack).length - 1,
  unpublished: "A difference of coordinates.",
});
