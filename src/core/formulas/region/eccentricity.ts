import { choosing } from "../../choosing.ts";
import { stepwise } from "../../formula.ts";
import { as, type ValueOf } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { checkedHalfPlanes, conditionNotes, conditions, halfPlanes } from "./conditions.ts";
import { eccentricityBounds, relativeSlack, type HalfPlane } from "./halfPlane.ts";
import { alongEccentricity, offEdge, required, type End, type Interval } from "./interval.ts";
import { boundDecides, feasibleBound, inequality, room, roomLimits, unpublishedSearch } from "./shared.ts";

interface Given {
  readonly P: number;
  readonly conditions: ValueOf<typeof conditions>;
  readonly e_min: number;
  readonly e_max: number;
}

const params = { P: q.regionForce, conditions, ...room };
const withBounds = (planes: readonly HalfPlane[], v: Given): readonly HalfPlane[] => [
  ...planes,
  ...eccentricityBounds(v.e_min, v.e_max),
];
const interval = (v: Given): Interval =>
  required(
    alongEccentricity(withBounds(checkedHalfPlanes(v.conditions), v), 1 / v.P),
    "no eccentricity keeps the limits of the conditions at this force",
  );
const off = (v: Given, e: number, ends: (plane: HalfPlane) => boolean): number =>
  offEdge(withBounds(checkedHalfPlanes(v.conditions), v), { u: 1 / v.P, e }, ends, relativeSlack);
const caution = (v: Given, end: (i: Interval) => End): readonly string[] => {
  const { by } = end(alongEccentricity(withBounds(halfPlanes(v.conditions), v), 1 / v.P));
  return by.condition === 0 ? [boundDecides(by.name)] : [];
};
const noResult =
  "No result where no eccentricity between e_min and e_max keeps all limits; the message names the two that exclude each other.";
const governs = (which: string) =>
  ({
    symbol: "i",
    unit: "–",
    text: "condition that governs; 0: the room for the tendon",
    governing: `\\text{${which} of all limits}`,
  }) as const;

/** The highest place of the tendon. */
const minEccentricity = stepwise({
  id: "FEASIBLE_ECCENTRICITY",
  family: "region",
  summary: "Least eccentricity that keeps the limits of all conditions at a given force, positive below the centroid",
  source: mechanics,
  params,
  limits: roomLimits,
  cautions: (v) => caution(v, ({ low }) => low),
  result: as(q.regionEccentricity, { symbol: "e_low", text: "least eccentricity" }),
  steps: {
    i: governs("the greatest lower bound"),
    e: { symbol: "e_low", unit: "mm", governing: `\\min e:\\quad ${inequality},\\quad e_{min} \\le e \\le e_{max}` },
  },
  compute: (v) => {
    const { low } = interval(v);
    return { i: low.by.condition, e: low.at };
  },
  proof: (v, { e }) => off(v, e, ({ b }) => b > 0),
});

/** The lowest place of the tendon. */
const maxEccentricity = stepwise({
  id: "FEASIBLE_ECCENTRICITY",
  family: "region",
  summary:
    "Greatest eccentricity that keeps the limits of all conditions at a given force, positive below the centroid",
  source: mechanics,
  params,
  limits: roomLimits,
  cautions: (v) => caution(v, ({ high }) => high),
  result: as(q.regionEccentricity, { symbol: "e_high", text: "greatest eccentricity" }),
  steps: {
    i: governs("the least upper bound"),
    e: { symbol: "e_high", unit: "mm", governing: `\\max e:\\quad ${inequality},\\quad e_{min} \\le e \\le e_{max}` },
  },
  compute: (v) => {
    const { high } = interval(v);
    return { i: high.by.condition, e: high.at };
  },
  proof: (v, { e }) => off(v, e, ({ b }) => b < 0),
  unpublished: unpublishedSearch,
});

/** Where the tendon may lie. */
export const feasibleEccentricity = choosing({
  id: "FEASIBLE_ECCENTRICITY",
  family: "region",
  summary:
    "Min. or max. eccentricity that keeps the limits of all conditions at a given force, positive below the centroid",
  notes: [...conditionNotes, noResult],
  by: { bound: feasibleBound },
  as: { MIN: minEccentricity, MAX: maxEccentricity },
  order: ["conditions", "e_min", "e_max", "P", "bound"],
  result: q.regionEccentricity,
});
