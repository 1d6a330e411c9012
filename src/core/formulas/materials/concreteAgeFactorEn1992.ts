import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { cementClass } from "../en1992/choices.ts";
import { ageFactor, ageFactorSteps, classesReadIn, daysCounted, strengthGain } from "../en1992/strengthGain.ts";

/** Mean strength at age t over mean strength at 28 days. */
export const concreteAgeFactorEn1992 = stepwise({
  id: "CONCRETE_AGE_FACTOR_EN1992_2004",
  family: "materials",
  summary: "Mean strength at age t over mean strength at 28 days, at 20 °C",
  notes: [
    "For a mean temperature of 20 °C and curing to EN 12390; with heat curing t is the " +
      "temperature-adjusted age and the factor at most 1 (10.3.1.1(3)).",
    classesReadIn,
  ],
  source: { key: "EN1992-1-1:2004", clause: "3.1.2(6) (3.2)", basis: "seen", readIn: "CE:2021" },
  params: { cement: cementClass, t: as(q.concreteAge, { above: 0 }) },
  result: q.ageFactor,
  steps: ageFactorSteps,
  compute: ({ t, cement }) => {
    const s = valueFor(strengthGain, cement);
    return { s, beta_cc: ageFactor(s, t) };
  },
  empirical: daysCounted,
  unpublished: "no published result was found; at 28 days the factor is 1 for every class, which the tests check",
});
