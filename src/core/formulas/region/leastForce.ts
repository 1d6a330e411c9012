import { choosing } from "../../choosing.ts";
import { stepwise } from "../../formula.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { conditionNotes } from "./conditions.ts";
import { cornersAgain, cornersOf, inequality, leastForceIsBound, regionLimits, regionParams } from "./shared.ts";

const notes = [
  ...conditionNotes,
  "Since the limits are linear in 1/P and e, the least force stands at a vertex of the region. e_max is " +
    "the greatest eccentricity that cover and spacing leave room for: it often decides.",
  "Where the least force considered, P_min, is reached already, the greatest eccentricity that goes with it is given.",
];
const governing = `\\min P:\\quad ${inequality},\\quad e_{min} \\le e \\le e_{max},\\ P_{min} \\le P \\le P_{max}`;
const shared = {
  family: "region",
  source: mechanics,
  params: regionParams,
  limits: regionLimits,
  cautions: leastForceIsBound,
} as const;

/** Of all eccentricities the one that needs the least force. */
const force = stepwise({
  ...shared,
  id: "REGION_MIN_FORCE",
  summary:
    "Least prestressing force of all that keeps the limits of all conditions, at the eccentricity that allows it",
  result: as(q.regionForce, { symbol: "P_low", text: "least prestressing force of all" }),
  steps: {
    e: {
      symbol: "e",
      unit: "mm",
      text: "eccentricity that goes with it",
      governing: "\\text{the vertex of the least force}",
    },
    P: { symbol: "P_low", unit: "kN", governing },
  },
  compute: (v) => {
    const { u, e } = cornersOf(v)[0]!;
    return { e, P: 1 / u };
  },
  proof: (v, { P }) => P * Math.max(...cornersAgain(v).map(({ u }) => u)) - 1,
});

const eccentricity = stepwise({
  ...shared,
  id: "REGION_MIN_FORCE",
  summary:
    "Eccentricity at which the least prestressing force of all keeps the limits of all conditions, positive below the centroid",
  result: as(q.regionEccentricity, { symbol: "e", text: "eccentricity of the least force" }),
  steps: {
    P: { symbol: "P_low", unit: "kN", text: "least force", governing },
    e: { symbol: "e", unit: "mm", governing: "\\text{the vertex of the least force}" },
  },
  compute: (v) => {
    const { u, e } = cornersOf(v)[0]!;
    return { P: 1 / u, e };
  },
  proof: (v, { e }) => {
    const again = cornersAgain(v);
    const top = Math.max(...again.map(({ u }) => u));
    const there = Math.max(...again.filter(({ u }) => u >= top * (1 - 1e-11)).map((corner) => corner.e));
    return (e - there) / (1 + Math.abs(there));
  },
});

export const regionMinForce = choosing({
  id: "REGION_MIN_FORCE",
  family: "region",
  summary:
    "Min. prestressing force of all that keeps the limits of all conditions, or the eccentricity that goes with it",
  notes,
  by: {
    result: choice({
      key: "minForceResultName",
      symbol: "result",
      text: "what is wanted",
      values: [
        { value: "FORCE", text: "min. force in kN" },
        { value: "ECCENTRICITY", text: "eccentricity of that force in mm" },
      ],
    }),
  },
  as: { FORCE: force, ECCENTRICITY: eccentricity },
  order: ["conditions", "e_min", "e_max", "result", "P_min", "P_max"],
  result: q.minForceResult,
});
