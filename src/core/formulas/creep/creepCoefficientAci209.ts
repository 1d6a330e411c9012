import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { aciFit, aciHumidity, aciMix, aciReadIn, creepDevelopment, earliestLoading } from "../models/aci209.ts";
import { curing } from "../models/choices.ts";

const ageFactors = { MOIST: 1.25, STEAM: 1.13 };
const ageExponents = { MOIST: 0.118, STEAM: 0.094 };

/** Creep coefficient by ACI 209R-92 with every factor. */
export const creepCoefficientAci209 = stepwise({
  id: "CREEP_COEFFICIENT_ACI209R_1992",
  family: "creep",
  summary: "Creep coefficient at age t of concrete loaded at age t_0, by ACI 209R-92",
  notes: [
    "Creep strain is φ times the elastic strain at loading: it goes with the modulus at the age t_0.",
    aciMix,
    aciHumidity,
    "Moist-cured concrete loaded before 7 days and steam-cured concrete loaded before 1 day are refused.",
    "Size by volume over surface; the report's other factor, by average thickness, is not used.",
    aciReadIn,
  ],
  source: { key: "ACI209R-92", clause: "2.4, 2.5 (ACI 209.2R-08 A.1.2)", basis: "second-hand", readIn: "ACI209.2R-08" },
  params: {
    VS: q.volumeSurface,
    curing,
    RH: as(q.relativeHumidity, { min: 40 }),
    t_0: q.ageAtLoading,
    t: as(q.concreteAge, { text: "age of concrete at which creep is wanted" }),
    s: as(q.slump, { default: 70 }),
    psi: as(q.finesShare, { default: 50 }),
    a: as(q.airContent, { default: 6 }),
  },
  limits: (v) => ({
    t_0: {
      min: valueFor(earliestLoading, v.curing),
      because: "the earliest age of loading that the report covers for this curing",
    },
    t: { min: v.t_0, because: "the age at loading" },
  }),
  result: q.creepCoefficient,
  steps: {
    a_t: {
      symbol: "a",
      unit: "–",
      text: "factor by curing",
      clause: "(A-22), (A-23)",
      lookup: { of: "curing", values: ageFactors },
    },
    b_t: {
      symbol: "b",
      unit: "–",
      text: "exponent by curing",
      clause: "(A-22), (A-23)",
      lookup: { of: "curing", values: ageExponents },
    },
    gamma_t0: {
      symbol: "γ_c,t0",
      unit: "–",
      text: "age at loading",
      clause: "(A-22), (A-23)",
      equation: "a_t * t_0^(-b_t)",
    },
    gamma_RH: { symbol: "γ_c,RH", unit: "–", text: "humidity", clause: "(A-24)", equation: "1.27 - 0.0067 * RH" },
    gamma_VS: {
      symbol: "γ_c,vs",
      unit: "–",
      text: "size",
      clause: "(A-25)",
      equation: "2 / 3 * (1 + 1.13 * exp(-0.0213 * VS))",
    },
    gamma_s: { symbol: "γ_c,s", unit: "–", text: "slump", clause: "(A-28)", equation: "0.82 + 0.00264 * s" },
    gamma_psi: {
      symbol: "γ_c,ψ",
      unit: "–",
      text: "fine aggregate",
      clause: "(A-29)",
      equation: "0.88 + 0.0024 * psi",
    },
    gamma_a: { symbol: "γ_c,α", unit: "–", text: "air content", clause: "(A-30)", equation: "max(0.46 + 0.09 * a, 1)" },
    gamma_c: {
      symbol: "γ_c",
      unit: "–",
      text: "all factors together",
      clause: "(A-21)",
      equation: "gamma_t0 * gamma_RH * gamma_VS * gamma_s * gamma_psi * gamma_a",
    },
    phi_u: {
      symbol: "φ_u",
      unit: "–",
      text: "final creep coefficient",
      clause: "(A-19), (A-20)",
      equation: "2.35 * gamma_c",
    },
    f_t: {
      symbol: "f(t−t_0)",
      unit: "–",
      text: "development with time",
      clause: "(A-18)",
      equation: "(t - t_0)^0.6 / (10 + (t - t_0)^0.6)",
    },
    phi: { symbol: "φ", unit: "–", text: "creep coefficient", clause: "(A-18)", equation: "f_t * phi_u" },
  },
  compute: (v) => {
    const a_t = valueFor(ageFactors, v.curing);
    const b_t = valueFor(ageExponents, v.curing);
    const gamma_t0 = a_t * v.t_0 ** -b_t;
    const gamma_RH = 1.27 - 0.0067 * v.RH;
    const gamma_VS = (2 / 3) * (1 + 1.13 * Math.exp(-0.0213 * v.VS));
    const gamma_s = 0.82 + 0.00264 * v.s;
    const gamma_psi = 0.88 + 0.0024 * v.psi;
    const gamma_a = Math.max(0.46 + 0.09 * v.a, 1);
    const gamma_c = gamma_t0 * gamma_RH * gamma_VS * gamma_s * gamma_psi * gamma_a;
    const phi_u = 2.35 * gamma_c;
    const f_t = creepDevelopment(v.t - v.t_0);
    return {
      a_t,
      b_t,
      gamma_t0,
      gamma_RH,
      gamma_VS,
      gamma_s,
      gamma_psi,
      gamma_a,
      gamma_c,
      phi_u,
      f_t,
      phi: f_t * phi_u,
    };
  },
  empirical: aciFit,
});
