import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { cementClass } from "../en1992/choices.ts";
import { ageFactor, ageFactorSteps, classesReadIn, strengthGain } from "../en1992/strengthGain.ts";

/** Characteristic cylinder strength at age t, from 3 days on. */
export const concreteStrengthAtAgeEn1992 = stepwise({
  id: "CONCRETE_STRENGTH_AT_AGE_EN1992_2004",
  family: "materials",
  summary: "Characteristic cylinder strength at age t, at 20 °C; refused up to 3 days, where tests decide",
  notes: [
    "From 28 days on it stays f_ck.",
    "An estimate: before stressing or release, tests prove the strength.",
    classesReadIn,
  ],
  source: { key: "EN1992-1-1:2004", clause: "3.1.2(5), 3.1.2(6)", basis: "seen", readIn: "CE:2021" },
  params: {
    f: q.concreteStrength,
    t: as(q.concreteAge, { above: 3, text: "age of concrete; up to 3 days the strength is found by test" }),
    cement: cementClass,
  },
  result: q.concreteStrengthAtAge,
  steps: {
    ...ageFactorSteps,
    f_cm: { symbol: "f_cm", unit: "MPa", clause: "Table 3.1", equation: "f + 8" },
    f_ckt: { symbol: "f_ck,t", unit: "MPa", clause: "3.1.2(5)", equation: "t < 28 ? beta_cc * f_cm - 8 : f" },
  },
  compute: ({ f, t, cement }) => {
    const s = valueFor(strengthGain, cement);
    const beta_cc = ageFactor(s, t);
    const f_cm = f + 8;
    return { s, beta_cc, f_cm, f_ckt: t < 28 ? beta_cc * f_cm - 8 : f };
  },
  empirical: "8 stands for 8 MPa, 28 for 28 days",
  unpublished: "no published result was found; at 28 days both branches give f_ck, which the tests check",
});
