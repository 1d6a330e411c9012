import { choosing } from "../../choosing.ts";
import { InputError } from "../../errors.ts";
import { stepwise } from "../../formula.ts";
import { as, choice, format, table, type ValueOf } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { cornersAgain, cornersOf, type RegionValues } from "../region/shared.ts";

/** Limits of the three conditions, in their order. */
const limits = table({
  key: "sizingLimits",
  symbol: "limits",
  text: "limits of stress at transfer, under characteristic and under quasi-permanent loads, one row each",
  minRows: 3,
  maxRows: 3,
  columns: {
    f_c: as(q.compressionLimit, { symbol: "f_c", text: "greatest stress", min: 0, max: 200 }),
    f_t: as(q.tensionLimit, { symbol: "f_t", text: "least stress, compression positive", min: -200, max: 200 }),
  },
});

const params = {
  A: q.area,
  I: q.secondMoment,
  y_b: as(q.centroidHeight, { above: 0 }),
  h: q.sectionHeight,
  limits,
  L: q.span,
  g: as(q.lineLoad, { symbol: "g", text: "self-weight", min: 0 }),
  g_s: as(q.lineLoad, { symbol: "g_s", text: "superimposed permanent load", min: 0 }),
  q_k: as(q.lineLoad, { symbol: "q", text: "variable load, characteristic", min: 0 }),
  psi_2: as(q.combinationFactor, { symbol: "ψ_2", text: "factor of its quasi-permanent value" }),
  c_e: q.lowestCentroid,
  rho: as(q.shareLeft, { default: 0.85 }),
  r_sup: as(q.upperFactor, { default: 1.1 }),
  r_inf: as(q.lowerFactor, { default: 0.9 }),
};

interface Given {
  readonly A: number;
  readonly I: number;
  readonly y_b: number;
  readonly h: number;
  readonly limits: ValueOf<typeof limits>;
  readonly L: number;
  readonly g: number;
  readonly g_s: number;
  readonly q_k: number;
  readonly psi_2: number;
  readonly c_e: number;
  readonly rho: number;
  readonly r_sup: number;
  readonly r_inf: number;
}

/** Midspan of a simply supported member under uniform loads, as conditions of the feasible domain. */
function regionOf(v: Given): RegionValues {
  const { A, I, y_b, h, L } = v;
  v.limits.forEach(({ f_c, f_t }, i) => {
    if (f_t >= f_c)
      throw new InputError(
        "limits",
        `row ${i + 1} of limits allows from ${format(f_t)} to ${format(f_c)} MPa; the tension limit must be below ` +
          "the compression limit, compression positive",
      );
  });
  const later = v.r_inf * v.rho;
  const loads = [v.g, v.g + v.g_s + v.q_k, v.g + v.g_s + v.psi_2 * v.q_k];
  const conditions = v.limits.map(({ f_c, f_t }, i) => ({
    M: (loads[i]! * L * L) / 8,
    r: i === 0 ? v.r_sup : later,
    f_c,
    f_t,
    A,
    I,
    y_b,
    h,
    fibre: "BOTH" as const,
  }));
  return { conditions, e_min: y_b - h + v.c_e, e_max: y_b - v.c_e, P_min: 1e3, P_max: 1e9 };
}

const notes = [
  "Three conditions at midspan: transfer with r_sup P and g; characteristic loads and quasi-permanent loads with " +
    "r_inf ρ P. The corner of the feasible domain with the least force, as REGION_MIN_FORCE finds it.",
  "P is the force after immediate losses, positive as tension; e is positive below the centroid. Gross section.",
  "For sizing: along the span, while lifting and between steps of stressing other conditions may govern.",
  "Compression is positive, so that limits of tension are negative.",
];

const shared = {
  id: "REQUIRED_PRESTRESS",
  family: "sizing",
  source: mechanics,
  params,
  limits: ({ h }: Given) => ({
    y_b: { max: h * (1 - 1e-9), because: "the height of the section" },
    c_e: { max: h / 2, because: "half the height of the section" },
  }),
  unpublished: "Geometry of linear inequalities; tests compare it with the stresses of FIBRE_STRESS.",
} as const;

const governing =
  "\\min P:\\quad f_{t,i} \\le \\frac{r_i P}{A} + \\frac{(r_i P\\,e - M_i)\\,y}{I} \\le f_{c,i},\\quad " +
  "M_i = \\frac{w_i L^2}{8},\\ r = \\left(r_{sup},\\ r_{inf}\\rho,\\ r_{inf}\\rho\\right)";

const force = stepwise({
  ...shared,
  summary: "Least force after immediate losses that keeps the limits at midspan",
  result: as(q.regionForce, { symbol: "P_0", text: "least force after immediate losses" }),
  steps: {
    e: {
      symbol: "e",
      unit: "mm",
      text: "eccentricity that goes with it",
      governing: "\\text{the vertex of the least force}",
    },
    P: { symbol: "P_0", unit: "kN", governing },
  },
  compute: (v) => {
    const { u, e } = cornersOf(regionOf(v))[0]!;
    return { e, P: 1 / u };
  },
  proof: (v, { P }) => P * Math.max(...cornersAgain(regionOf(v)).map(({ u }) => u)) - 1,
});

const eccentricity = stepwise({
  ...shared,
  summary: "Eccentricity at midspan that goes with the least force, positive below the centroid",
  result: as(q.regionEccentricity, { symbol: "e", text: "eccentricity of the least force" }),
  steps: {
    P: { symbol: "P_0", unit: "kN", text: "least force", governing },
    e: { symbol: "e", unit: "mm", governing: "\\text{the vertex of the least force}" },
  },
  compute: (v) => {
    const { u, e } = cornersOf(regionOf(v))[0]!;
    return { P: 1 / u, e };
  },
  proof: (v, { e }) => {
    const again = cornersAgain(regionOf(v));
    const top = Math.max(...again.map(({ u }) => u));
    const there = Math.max(...again.filter(({ u }) => u >= top * (1 - 1e-11)).map((corner) => corner.e));
    return (e - there) / (1 + Math.abs(there));
  },
});

/** Force and eccentricity to start from. */
export const requiredPrestress = choosing({
  id: shared.id,
  family: "sizing",
  summary: "Force or eccentricity that a simply supported member under uniform loads needs at midspan, for sizing",
  notes,
  by: {
    result: choice({
      key: "requiredPrestressResult",
      symbol: "result",
      text: "what is wanted",
      values: [
        { value: "FORCE", text: "least force after immediate losses, kN" },
        { value: "ECCENTRICITY", text: "eccentricity of that force, mm" },
      ],
    }),
  },
  as: { FORCE: force, ECCENTRICITY: eccentricity },
  order: [
    ...["A", "I", "y_b", "h", "limits", "L", "g", "g_s", "q_k", "psi_2", "c_e", "result", "rho", "r_sup", "r_inf"],
  ],
  result: q.requiredResult,
});
