import { choosing } from "../../choosing.ts";
import { stepwise, type Formula } from "../../formula.ts";
import { as, choice, type Quantity } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { conditionNotes } from "./conditions.ts";
import { relativeSlack, type Point } from "./halfPlane.ts";
import {
  allPlanes,
  cornersAgain,
  cornersOf,
  inequality,
  regionLimits,
  regionParams,
  unpublishedSearch,
  type RegionValues,
} from "./shared.ts";

const shared = { family: "region", source: mechanics, limits: regionLimits, unpublished: unpublishedSearch } as const;
const area =
  "The limits are straight lines in 1/P and e, so the region is a convex polygon. No result where " +
  "nothing of it is left, or no more than a line or a point; the message names limits that exclude each " +
  "other.";
const closed = "\\{(1/P,\\ e)\\}:\\quad " + inequality;

/** 0 where two different edges pass through the point and none leaves it outside. */
function offCorner(v: RegionValues, point: Point): number {
  const all = allPlanes(v)
    .map((plane) => relativeSlack(plane, point))
    .sort((one, other) => one - other);
  return Math.abs(all[0]!) + Math.abs(all[1]!);
}

const kinds: readonly {
  readonly name: string;
  readonly text: string;
  readonly pick: "u" | "e" | "P";
  readonly result: Quantity;
}[] = [
  {
    name: "FORCE",
    text: "Force",
    pick: "P",
    result: as(q.regionForce, { symbol: "P_k", text: "force at the vertex" }),
  },
  {
    name: "ECCENTRICITY",
    text: "Eccentricity",
    pick: "e",
    result: as(q.regionEccentricity, { symbol: "e_k", text: "eccentricity of the vertex" }),
  },
  {
    name: "RECIPROCAL",
    text: "Reciprocal of the force",
    pick: "u",
    result: as(q.reciprocalForce, { symbol: "u_k", text: "reciprocal of the force at the vertex" }),
  },
];

const coordinate = ({ text, pick, result }: (typeof kinds)[number]): Formula => {
  const steps = {
    n: { symbol: "n", unit: "–", text: "number of vertices", governing: closed },
    u: { symbol: "u_k", unit: "1/MN", text: "reciprocal of the force", governing: "u_k = 1/P_k" },
    e: { symbol: "e_k", unit: "mm", text: "eccentricity", governing: "\\text{where two limits meet}" },
    P: { symbol: "P_k", unit: "kN", text: "force", governing: "P_k = 1/u_k" },
  } as const;
  const order = [...(["n", "u", "e", "P"] as const).filter((name) => name !== pick), pick];
  return stepwise({
    ...shared,
    id: "REGION_VERTEX",
    summary: `${text} at the k-th vertex of the region of force and eccentricity that keeps the limits of all conditions`,
    notes: [
      "The first vertex is that of the least force (of several, the one of the greatest eccentricity); from " +
        "there against the clock, with e to the right and 1/P upward.",
      "Where k exceeds the number of vertices the first vertex is given again: a table of n + 1 or more rows closes the outline.",
    ],
    params: { k: q.vertexNumber, ...regionParams },
    result,
    steps: Object.fromEntries(order.map((name) => [name, steps[name]])),
    compute: (v) => {
      const corners = cornersOf(v);
      const { u, e } = corners[v.k <= corners.length ? v.k - 1 : 0]!;
      const all = { n: corners.length, u, e, P: 1 / u };
      return Object.fromEntries(order.map((name) => [name, all[name]]));
    },
    proof: (v, found) => offCorner(v, { u: pick === "P" ? 1 / found["P"]! : found["u"]!, e: found["e"]! }),
  });
};

const byName = Object.fromEntries(kinds.map((kind) => [kind.name, coordinate(kind)]));

const vertexCount = stepwise({
  ...shared,
  id: "REGION_VERTEX",
  summary: "Number of vertices of the region of force and eccentricity that keeps the limits of all conditions",
  params: regionParams,
  result: q.vertexCount,
  steps: { n: { symbol: "n", unit: "–", governing: closed } },
  compute: (v) => ({ n: cornersOf(v).length }),
  proof: (v, { n }) => cornersAgain(v).length - n,
});

/** The outline point by point, as a table of rows for a chart. */
export const regionVertex = choosing({
  id: "REGION_VERTEX",
  family: "region",
  summary:
    "Force, eccentricity or reciprocal of the force at a vertex of the region that keeps all limits, or their number",
  notes: [...conditionNotes, area],
  by: {
    result: choice({
      key: "vertexResultName",
      symbol: "result",
      text: "what is wanted",
      values: [
        { value: "FORCE", text: "force in kN" },
        { value: "ECCENTRICITY", text: "eccentricity in mm" },
        { value: "RECIPROCAL", text: "reciprocal of the force in 1/MN, for a chart" },
        { value: "COUNT", text: "number of vertices" },
      ],
    }),
  },
  ignored: "so that one call serves every figure of a vertex and their number",
  as: { ...byName, COUNT: vertexCount },
  order: ["conditions", "e_min", "e_max", "k", "result", "P_min", "P_max"],
  result: q.vertexResult,
});
