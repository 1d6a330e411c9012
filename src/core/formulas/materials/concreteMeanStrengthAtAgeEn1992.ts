import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { cementClass } from "../en1992/choices.ts";
import { ageFactor, ageFactorSteps, classesReadIn, daysCounted, strengthGain } from "../en1992/strengthGain.ts";

/** Mean cylinder strength at age t. */
export const concreteMeanStrengthAtAgeEn1992 = stepwise({
  id: "CONCRETE_STRENGTH_AT_AGE_EN1992_2004",
  family: "materials",
  summary: "Mean cylinder strength at age t, at 20 °C",
  notes: ["An estimate; not to be used to excuse concrete that failed its 28-day test (3.1.2(6)).", classesReadIn],
  source: { key: "EN1992-1-1:2004", clause: "3.1.2(6) (3.1)", basis: "seen", readIn: "CE:2021" },
  params: { f: q.concreteMeanStrength, t: as(q.concreteAge, { above: 0 }), cement: cementClass },
  result: q.concreteMeanStrengthAtAge,
  steps: {
    ...ageFactorSteps,
    f_cmt: { symbol: "f_cm,t", unit: "MPa", clause: "(3.1)", equation: "beta_cc * f" },
  },
  compute: ({ f, t, cement }) => {
    const s = valueFor(strengthGain, cement);
    const beta_cc = ageFactor(s, t);
    return { s, beta_cc, f_cmt: beta_cc * f };
  },
  empirical: daysCounted,
  unpublished: "no published result was found; at 28 days it equals f_cm, which the tests check",
});
