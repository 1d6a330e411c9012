import { choosing } from "../../choosing.ts";
import { stepwise } from "../../formula.ts";
import { as, type ValueOf } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { checkedHalfPlanes, conditionNotes, conditions, halfPlanes } from "./conditions.ts";
import { forceBounds, relativeSlack, type HalfPlane } from "./halfPlane.ts";
import { alongReciprocal, offEdge, required, type End, type Interval } from "./interval.ts";
import { boundDecides, feasibleBound, forceLimits, forces, inequality, unpublishedSearch } from "./shared.ts";

interface Given {
  readonly e: number;
  readonly conditions: ValueOf<typeof conditions>;
  readonly P_min: number;
  readonly P_max: number;
}

const params = { e: q.regionEccentricity, conditions, ...forces };
const withBounds = (planes: readonly HalfPlane[], v: Given): readonly HalfPlane[] => [
  ...planes,
  ...forceBounds(v.P_min, v.P_max),
];
const interval = (v: Given): Interval =>
  required(
    alongReciprocal(withBounds(checkedHalfPlanes(v.conditions), v), v.e),
    "no force keeps the limits of the conditions at this eccentricity",
  );
const off = (v: Given, P: number, ends: (plane: HalfPlane) => boolean): number =>
  offEdge(withBounds(checkedHalfPlanes(v.conditions), v), { u: 1 / P, e: v.e }, ends, relativeSlack);
const caution = (v: Given, end: (i: Interval) => End): readonly string[] => {
  const { by } = end(alongReciprocal(withBounds(halfPlanes(v.conditions), v), v.e));
  return by.condition === 0 ? [boundDecides(by.name)] : [];
};
const noResult =
  "No result where no force between P_min and P_max keeps all limits; the message names those that " +
  "exclude it. Whether the tendon finds room at e is another question.";
const governs = (which: string) =>
  ({
    symbol: "i",
    unit: "–",
    text: "condition that governs; 0: the bound given",
    governing: `\\text{${which} of all limits}`,
  }) as const;

const minForce = stepwise({
  id: "FEASIBLE_FORCE",
  family: "region",
  summary: "Least prestressing force that keeps the limits of all conditions at a given eccentricity",
  source: mechanics,
  params,
  limits: forceLimits,
  cautions: (v) => caution(v, ({ high }) => high),
  result: as(q.regionForce, { symbol: "P_low", text: "least prestressing force" }),
  steps: {
    i: governs("the greatest lower bound"),
    P: { symbol: "P_low", unit: "kN", governing: `\\min P:\\quad ${inequality},\\quad P_{min} \\le P \\le P_{max}` },
  },
  compute: (v) => {
    const { high } = interval(v);
    return { i: high.by.condition, P: 1 / high.at };
  },
  proof: (v, { P }) => off(v, P, ({ a }) => a < 0),
});

const maxForce = stepwise({
  id: "FEASIBLE_FORCE",
  family: "region",
  summary: "Greatest prestressing force that keeps the limits of all conditions at a given eccentricity",
  source: mechanics,
  params,
  limits: forceLimits,
  cautions: (v) => caution(v, ({ low }) => low),
  result: as(q.regionForce, { symbol: "P_high", text: "greatest prestressing force" }),
  steps: {
    i: governs("the least upper bound"),
    P: { symbol: "P_high", unit: "kN", governing: `\\max P:\\quad ${inequality},\\quad P_{min} \\le P \\le P_{max}` },
  },
  compute: (v) => {
    const { low } = interval(v);
    return { i: low.by.condition, P: 1 / low.at };
  },
  proof: (v, { P }) => off(v, P, ({ a }) => a > 0),
  unpublished: unpublishedSearch,
});

/** How much force there may be. */
export const feasibleForce = choosing({
  id: "FEASIBLE_FORCE",
  family: "region",
  summary: "Min. or max. prestressing force that keeps the limits of all conditions at a given eccentricity",
  notes: [...conditionNotes, noResult],
  by: { bound: feasibleBound },
  as: { MIN: minForce, MAX: maxForce },
  order: ["conditions", "e", "bound", "P_min", "P_max"],
  result: q.regionForce,
});
