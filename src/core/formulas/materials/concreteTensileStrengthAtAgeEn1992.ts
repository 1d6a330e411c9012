import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { cementClass } from "../en1992/choices.ts";
import { ageFactor, ageFactorSteps, classesReadIn, daysCounted, strengthGain } from "../en1992/strengthGain.ts";

/** Mean axial tensile strength at age t. */
export const concreteTensileStrengthAtAgeEn1992 = stepwise({
  id: "CONCRETE_STRENGTH_AT_AGE_EN1992_2004",
  family: "materials",
  summary: "Mean axial tensile strength at age t, at 20 °C",
  notes: ["An estimate: curing, drying and the size of the member govern early tensile strength.", classesReadIn],
  source: { key: "EN1992-1-1:2004", clause: "3.1.2(9) (3.4)", basis: "seen", readIn: "CE:2021" },
  params: { f: q.concreteTensileStrength, t: as(q.concreteAge, { above: 0 }), cement: cementClass },
  result: q.concreteTensileStrengthAtAge,
  steps: {
    ...ageFactorSteps,
    alpha: {
      symbol: "α",
      unit: "–",
      text: "exponent: 1 before 28 days, 2/3 from then on",
      clause: "(3.4)",
      equation: "t < 28 ? 1 : 2/3",
    },
    f_ctmt: { symbol: "f_ctm,t", unit: "MPa", clause: "(3.4)", equation: "beta_cc^alpha * f" },
  },
  compute: ({ f, t, cement }) => {
    const s = valueFor(strengthGain, cement);
    const beta_cc = ageFactor(s, t);
    const alpha = t < 28 ? 1 : 2 / 3;
    return { s, beta_cc, alpha, f_ctmt: beta_cc ** alpha * f };
  },
  empirical: daysCounted,
  unpublished: "no published result was found; at 28 days it equals f_ctm, which the tests check",
});
