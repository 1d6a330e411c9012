import { choosing } from "../../choosing.ts";
import { stepwise } from "../../formula.ts";
import { as, type Label } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { valueFor } from "../../lookup.ts";
import { mechanics } from "../mechanics.ts";
import { fibre } from "./conditions.ts";
import { feasibleBound } from "./shared.ts";

const params = {
  P: q.regionForce,
  M: q.moment,
  f_c: as(q.compressionLimit, { symbol: "f_c", min: 0, max: 200 }),
  f_t: as(q.tensionLimit, {
    symbol: "f_t",
    text: "least allowed concrete stress, negative where tension is allowed",
    min: -200,
    max: 200,
  }),
  A: q.area,
  I: q.secondMoment,
  y_b: as(q.centroidHeight, { above: 0 }),
  h: q.sectionHeight,
  r: as(q.forceFactor, { default: 1 }),
  fibre,
};

/** Which fibres count. */
const topCounts = { BOTH: 1, TOP: 1, BOTTOM: 0 };
const bottomCounts = { BOTH: 1, TOP: 0, BOTTOM: 1 };
const which = {
  top: { symbol: "top", unit: "–", text: "1 where the top fibre counts", lookup: { of: "fibre", values: topCounts } },
  bottom: {
    symbol: "bottom",
    unit: "–",
    text: "1 where the bottom fibre counts",
    lookup: { of: "fibre", values: bottomCounts },
  },
} as const;
const counting = (label: Label) => ({ top: valueFor(topCounts, label), bottom: valueFor(bottomCounts, label) });
const picked = (both: string, top: string, bottom: string): string =>
  `top * bottom == 1 ? ${both} : (top == 1 ? ${top} : ${bottom})`;
interface Given {
  readonly P: number;
  readonly M: number;
  readonly f_c: number;
  readonly f_t: number;
  readonly A: number;
  readonly I: number;
  readonly y_b: number;
  readonly h: number;
  readonly r: number;
  readonly fibre: Label;
}

/** Eccentricity at which the fibre at y takes the stress σ. */
const place = (y: string, stress: string): string => `(${stress} - r * P / A + M * ${y} / I) * I / (r * P * ${y})`;
const at = ({ P, M, A, I, r }: Given, y: number, stress: number): number =>
  ((stress - (r * P) / A + (M * y) / I) * I) / (r * P * y);

/** The four places at which a limit is just reached. */
const places = (v: Given): { readonly ct: number; readonly cb: number; readonly tt: number; readonly tb: number } => ({
  ct: at(v, v.y_b - v.h, v.f_c),
  cb: at(v, v.y_b, v.f_c),
  tt: at(v, v.y_b - v.h, v.f_t),
  tb: at(v, v.y_b, v.f_t),
});
const empty = (v: Given): readonly string[] => {
  if (v.fibre !== "BOTH") return [];
  const { ct, cb, tt, tb } = places(v);
  return Math.max(ct, tb) > Math.min(cb, tt)
    ? ["no eccentricity keeps the limits of this stage at this force: the least is above the greatest"]
    : [];
};
const limits = ({ f_c, h }: Given) => ({
  f_t: { max: f_c, because: "the compression limit" },
  y_b: { max: 0.999 * h, because: "a centroid inside the height" },
});
const notes = [
  "One stage at one station; with several stages the zone runs from the greatest of the least " +
    "eccentricities to the least of the greatest (MAX, MIN over the stages).",
  "r is the factor of the force in the stage: what is left of P, or its characteristic value over it. " +
    "With one fibre alone, a moment that belongs to that fibre can be given. Limits of tension are " +
    "negative, compression positive.",
];

/** The upper edge of the zone of the cable: no higher. */
const upperEdge = stepwise({
  id: "CABLE_ZONE",
  family: "region",
  summary:
    "Least eccentricity of the cable at a station that keeps the limits of one stage, positive below the " +
    "centroid: the upper edge of the cable zone",
  source: mechanics,
  params,
  limits,
  cautions: empty,
  result: as(q.regionEccentricity, { symbol: "e_low", text: "least eccentricity of the cable" }),
  steps: {
    ...which,
    tb: {
      symbol: "e_t,b",
      unit: "mm",
      text: "tension limit at the bottom just reached",
      equation: place("y_b", "f_t"),
    },
    ct: {
      symbol: "e_c,t",
      unit: "mm",
      text: "compression limit at the top just reached",
      equation: place("(y_b - h)", "f_c"),
    },
    e: { symbol: "e_low", unit: "mm", equation: picked("max(tb, ct)", "ct", "tb") },
  },
  compute: (v) => {
    const { tb, ct } = places(v);
    const { top, bottom } = counting(v.fibre);
    return { top, bottom, tb, ct, e: top * bottom === 1 ? Math.max(tb, ct) : top === 1 ? ct : tb };
  },
});

/** The lower edge of the zone of the cable: no lower. */
const lowerEdge = stepwise({
  id: "CABLE_ZONE",
  family: "region",
  summary:
    "Greatest eccentricity of the cable at a station that keeps the limits of one stage, positive below " +
    "the centroid: the lower edge of the cable zone",
  source: mechanics,
  params,
  limits,
  cautions: empty,
  result: as(q.regionEccentricity, { symbol: "e_high", text: "greatest eccentricity of the cable" }),
  steps: {
    ...which,
    tt: {
      symbol: "e_t,t",
      unit: "mm",
      text: "tension limit at the top just reached",
      equation: place("(y_b - h)", "f_t"),
    },
    cb: {
      symbol: "e_c,b",
      unit: "mm",
      text: "compression limit at the bottom just reached",
      equation: place("y_b", "f_c"),
    },
    e: { symbol: "e_high", unit: "mm", equation: picked("min(tt, cb)", "tt", "cb") },
  },
  compute: (v) => {
    const { tt, cb } = places(v);
    const { top, bottom } = counting(v.fibre);
    return { top, bottom, tt, cb, e: top * bottom === 1 ? Math.min(tt, cb) : top === 1 ? tt : cb };
  },
  unpublished: "Solved from FIBRE_STRESS; tests put its result back there.",
});

export const cableZone = choosing({
  id: "CABLE_ZONE",
  family: "region",
  summary: "Min. or max. eccentricity of the cable at a station for one stage: the edges of the cable zone",
  notes,
  by: { bound: feasibleBound },
  as: { MIN: upperEdge, MAX: lowerEdge },
  order: ["A", "I", "y_b", "h", "f_c", "f_t", "P", "M", "bound", "r", "fibre"],
  result: q.regionEccentricity,
});
