import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { aciFit, aciHumidity, aciMix, aciReadIn } from "../models/aci209.ts";
import { curing } from "../models/choices.ts";

const isSteam = { MOIST: 0, STEAM: 1 };
const halfTimes = { MOIST: 35, STEAM: 55 };
/** Longest curing that the report covers, in days. */
const longestCuring = { MOIST: 90, STEAM: 3 };

/** Shrinkage strain by ACI 209R-92 with every factor. */
export const shrinkageStrainAci209 = stepwise({
  id: "SHRINKAGE_STRAIN_ACI209R_1992",
  family: "shrinkage",
  summary: "Shrinkage strain at age t of concrete that dries from the age t_c, by ACI 209R-92, shortening positive",
  notes: [
    aciMix,
    aciHumidity,
    "Moist curing of 1 to 90 days, steam curing of 1 to 3 days; other durations are refused.",
    "The factor of moist curing is the logarithm that ACI 209.2R-08 fits to the report's table.",
    "At 80 % humidity the report's two straight lines do not quite meet.",
    "Size by volume over surface; the report's other factor, by average thickness, is not used.",
    aciReadIn,
  ],
  source: { key: "ACI209R-92", clause: "2.4, 2.5 (ACI 209.2R-08 A.1.1)", basis: "second-hand", readIn: "ACI209.2R-08" },
  params: {
    VS: q.volumeSurface,
    curing,
    RH: as(q.relativeHumidity, { min: 40 }),
    t_c: as(q.ageAtEndOfCuring, { symbol: "t_c", min: 1 }),
    t: as(q.concreteAge, { text: "age of concrete at which shrinkage is wanted" }),
    s: as(q.slump, { default: 70 }),
    psi: as(q.finesShare, { default: 50 }),
    c: as(q.cementContent, { default: 410 }),
    a: as(q.airContent, { default: 6 }),
  },
  limits: (v) => ({
    t_c: { max: valueFor(longestCuring, v.curing), because: "the longest curing that the report covers" },
    t: { min: v.t_c, because: "the end of curing" },
  }),
  cautions: ({ VS }) =>
    1.2 * Math.exp(-0.00472 * VS) < 0.2
      ? ["the factor of size is below 0.2, the least that ACI 209R-92 allows for all factors together (from memory)"]
      : [],
  result: q.shrinkageStrain,
  steps: {
    steam: { symbol: "steam", unit: "–", text: "1 for steam curing", lookup: { of: "curing", values: isSteam } },
    gamma_tc: {
      symbol: "γ_sh,tc",
      unit: "–",
      text: "moist curing",
      clause: "(A-6)",
      equation: "steam == 1 ? 1 : 1.202 - 0.2337 * log10(t_c)",
    },
    gamma_RH: {
      symbol: "γ_sh,RH",
      unit: "–",
      text: "humidity",
      clause: "(A-7)",
      equation: "RH <= 80 ? 1.40 - 0.0102 * RH : 3.00 - 0.03 * RH",
    },
    gamma_VS: { symbol: "γ_sh,vs", unit: "–", text: "size", clause: "(A-8)", equation: "1.2 * exp(-0.00472 * VS)" },
    gamma_s: { symbol: "γ_sh,s", unit: "–", text: "slump", clause: "(A-11)", equation: "0.89 + 0.00161 * s" },
    gamma_psi: {
      symbol: "γ_sh,ψ",
      unit: "–",
      text: "fine aggregate",
      clause: "(A-12)",
      equation: "psi <= 50 ? 0.30 + 0.014 * psi : 0.90 + 0.002 * psi",
    },
    gamma_c: { symbol: "γ_sh,c", unit: "–", text: "cement content", clause: "(A-13)", equation: "0.75 + 0.00061 * c" },
    gamma_a: {
      symbol: "γ_sh,α",
      unit: "–",
      text: "air content",
      clause: "(A-14)",
      equation: "max(0.95 + 0.008 * a, 1)",
    },
    gamma_sh: {
      symbol: "γ_sh",
      unit: "–",
      text: "all factors together",
      clause: "(A-5)",
      equation: "gamma_tc * gamma_RH * gamma_VS * gamma_s * gamma_psi * gamma_c * gamma_a",
    },
    eps_u: { symbol: "ε_shu", unit: "–", text: "final shrinkage", clause: "(A-4)", equation: "780e-6 * gamma_sh" },
    f: {
      symbol: "f",
      unit: "days",
      text: "time to half the final shrinkage, by curing",
      lookup: { of: "curing", values: halfTimes },
    },
    f_t: {
      symbol: "f(t,t_c)",
      unit: "–",
      text: "development with time",
      clause: "(A-1)",
      equation: "(t - t_c) / (f + (t - t_c))",
    },
    eps: { symbol: "ε_sh", unit: "–", text: "shrinkage strain", clause: "(A-1)", equation: "f_t * eps_u" },
  },
  compute: (v) => {
    const steam = valueFor(isSteam, v.curing);
    const gamma_tc = steam === 1 ? 1 : 1.202 - 0.2337 * Math.log10(v.t_c);
    const gamma_RH = v.RH <= 80 ? 1.4 - 0.0102 * v.RH : 3 - 0.03 * v.RH;
    const gamma_VS = 1.2 * Math.exp(-0.00472 * v.VS);
    const gamma_s = 0.89 + 0.00161 * v.s;
    const gamma_psi = v.psi <= 50 ? 0.3 + 0.014 * v.psi : 0.9 + 0.002 * v.psi;
    const gamma_c = 0.75 + 0.00061 * v.c;
    const gamma_a = Math.max(0.95 + 0.008 * v.a, 1);
    const gamma_sh = gamma_tc * gamma_RH * gamma_VS * gamma_s * gamma_psi * gamma_c * gamma_a;
    const eps_u = 780e-6 * gamma_sh;
    const f = valueFor(halfTimes, v.curing);
    const f_t = (v.t - v.t_c) / (f + (v.t - v.t_c));
    return {
      steam,
      gamma_tc,
      gamma_RH,
      gamma_VS,
      gamma_s,
      gamma_psi,
      gamma_c,
      gamma_a,
      gamma_sh,
      eps_u,
      f,
      f_t,
      eps: f_t * eps_u,
    };
  },
  empirical: aciFit,
});
