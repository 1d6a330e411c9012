import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { creepCoefficientModelCode1990 } from "../creep/creepCoefficientModelCode.ts";
import { development } from "../creep/laws.ts";
import { ageFactor } from "../en1992/strengthGain.ts";
import { cementModelCode } from "../models/choices.ts";
import { shrinkageStrainModelCode1990 } from "../shrinkage/shrinkageStrainModelCode.ts";
import { timeLaw } from "./law.ts";
import { relaxationBy, relaxationLimits, relaxationNote, steel, testedRelaxation } from "./relaxationEn1992.ts";

/** s of the strength gain, by group of cement. */
const strengthGain = { SL: 0.38, N_R: 0.25, RS: 0.2 };

/** Creep and shrinkage of CEB-FIP Model Code 1990, relaxation of EN 1992-1-1. */
export const lawModelCode1990 = timeLaw({
  name: "CEBFIP_1990",
  says: "with creep and shrinkage of CEB-FIP Model Code 1990 and relaxation of EN 1992-1-1",
  notes: [
    "A load applied at t′ strains by 1/E_ci(t′) + φ(t,t′)/E_ci; E_ci(t′) is E_ci times the square root of " +
      "the strength gained (from memory).",
    "Drying from t_s on; no autogenous shrinkage apart from it.",
    relaxationNote,
  ],
  source: { key: "CEB-FIP:1990", clause: "2.1.6.4", basis: "memory-high" },
  empirical: "the laws are fits to tests, with strengths in MPa, sizes in mm, ages in days and humidity in per cent",
  needed: {
    f_cm: as(q.concreteMeanStrength, { max: 90 }),
    E_ci: as(q.concreteTangentModulus, { symbol: "E_ci" }),
    RH: as(q.relativeHumidity, { min: 40 }),
    h_0: as(q.notionalSize, { symbol: "h" }),
    t_s: q.ageAtEndOfCuring,
    cement: cementModelCode,
    ...steel,
  },
  optional: testedRelaxation,
  limits: relaxationLimits,
  linearTo: (v, age) => ({
    stress: 0.4 * ageFactor(valueFor(strengthGain, v.cement), age) * v.f_cm,
    named: "0.4 f_cm(t) of 2.1.6.4.3",
  }),
  materials: (v) => {
    const s = valueFor(strengthGain, v.cement);
    const shrunk = (t: number): number =>
      shrinkageStrainModelCode1990.compute({ f_cm: v.f_cm, RH: v.RH, h: v.h_0, t_s: v.t_s, t, cement: v.cement });
    return {
      compliance: (loaded) => {
        const elastic = 1 / (v.E_ci * Math.sqrt(ageFactor(s, loaded)));
        const { phi_0, beta_H } = creepCoefficientModelCode1990.stepwise({
          f_cm: v.f_cm,
          RH: v.RH,
          h: v.h_0,
          t_0: loaded,
          t: loaded,
          cement: v.cement,
          t_0T: 0,
        }) as { phi_0: number; beta_H: number };
        return (now) => elastic + (phi_0 / v.E_ci) * development(beta_H, now, loaded);
      },
      shrinkage: (age) => shrunk(Math.max(age, v.t_s)),
      relaxation: relaxationBy(v),
    };
  },
});
