import { choosing } from "../../choosing.ts";
import { stepwise } from "../../formula.ts";
import { choice, type ValueOf } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { checkedHalfPlanes, conditionNotes, conditions } from "./conditions.ts";
import { slack } from "./halfPlane.ts";
import { inequality, unpublishedSearch } from "./shared.ts";

interface Given {
  readonly P: number;
  readonly e: number;
  readonly conditions: ValueOf<typeof conditions>;
}

/** The limit that is closest, and how far it is, in MPa. */
function closest({ P, e, conditions: rows }: Given): { readonly i: number; readonly margin: number } {
  return checkedHalfPlanes(rows).reduce(
    (best, plane) => {
      const margin = P * slack(plane, { u: 1 / P, e });
      return margin < best.margin ? { i: plane.condition, margin } : best;
    },
    { i: 0, margin: Infinity },
  );
}

/** The second way: the load moves the force by M/P; the stress follows from where it then stands. */
function closestOf({ P, e, conditions: rows }: Given, i: number): number {
  const row = rows[i - 1];
  if (!row) return Infinity;
  const { M, r, f_c, f_t, A, I, y_b, h } = row;
  const place = e + y_b - rows[0]!.y_b - M / (r * P);
  const stress = (y: number): number => ((r * P) / A) * (1 + (place * y * A) / I);
  const stresses = [
    ...(row.fibre === "TOP" ? [] : [stress(y_b)]),
    ...(row.fibre === "BOTTOM" ? [] : [stress(y_b - h)]),
  ];
  return Math.min(...stresses.map((s) => Math.min(s - f_t, f_c - s)));
}
const sizes = ({ P, e, conditions: rows }: Given): number =>
  rows.reduce(
    (sum, { M, r, f_c, f_t, A, I, h }) =>
      sum + (r * P) / A + ((r * P * (Math.abs(e) + h) + Math.abs(M)) * h) / I + f_c + Math.abs(f_t),
    0,
  );
const least = (v: Given): number => Math.min(...v.conditions.map((_, i) => closestOf(v, i + 1)));

const shared = {
  family: "region",
  source: mechanics,
  params: { conditions, P: q.regionForce, e: q.regionEccentricity },
  unpublished: unpublishedSearch,
} as const;
const margin = {
  symbol: "Δσ",
  unit: "MPa",
  text: "distance of the closest limit",
  governing:
    "\\Delta\\sigma = \\min_i \\min(\\sigma_i - f_{t,i},\\ f_{c,i} - \\sigma_i),\\quad \\sigma_i = " +
    "\\frac{r_i P}{A_i} + \\frac{r_i P\\,(e+\\delta_i)\\,y}{I_i} - \\frac{M_i\\,y}{I_i}",
} as const;
const i = {
  symbol: "i",
  unit: "–",
  text: "condition of the closest limit",
  governing: `i:\\quad ${inequality}\\ \\text{with the least distance}`,
} as const;

/** Does a design stand inside the region, and how far? */
const distance = stepwise({
  ...shared,
  id: "REGION_MARGIN",
  summary:
    "Distance of a design's closest stress limit, over all conditions and fibres, in MPa: negative where a limit is passed",
  notes: ["Zero on the edge of the region, positive inside."],
  result: q.stressMargin,
  steps: { i, margin },
  compute: closest,
  proof: (v, found) => (found.margin - least(v)) / sizes(v),
});

const governing = stepwise({
  ...shared,
  id: "REGION_MARGIN",
  summary: "Number of the condition whose limit is closest to a design's stress, or passed the most",
  notes: ["Of several equally close the first is given."],
  result: q.conditionNumber,
  steps: { margin, i },
  compute: (v) => {
    const found = closest(v);
    return { margin: found.margin, i: found.i };
  },
  proof: (v, found) => found.i - Math.round(found.i) + (closestOf(v, Math.round(found.i)) - least(v)) / sizes(v),
});

export const regionMargin = choosing({
  id: "REGION_MARGIN",
  family: "region",
  summary:
    "Distance of a design's closest stress limit in MPa, negative where one is passed, or the number of its condition",
  notes: conditionNotes,
  by: {
    result: choice({
      key: "marginResultName",
      symbol: "result",
      text: "what is wanted",
      values: [
        { value: "MARGIN", text: "distance of the closest limit in MPa" },
        { value: "CONDITION", text: "number of the condition with the closest limit" },
      ],
    }),
  },
  as: { MARGIN: distance, CONDITION: governing },
  order: ["conditions", "P", "e", "result"],
  result: q.marginResult,
});
