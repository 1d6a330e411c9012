import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { autogenous, autogenousSteps } from "./laws.ts";

/** Autogenous shrinkage at an age. */
export const autogenousShrinkageEn1992 = stepwise({
  id: "AUTOGENOUS_SHRINKAGE_EN1992_2004",
  family: "shrinkage",
  summary: "Autogenous shrinkage strain at age t, shortening positive",
  notes: ["Counted from casting.", "With heat curing it may be neglected (10.3.1.2)."],
  source: { key: "EN1992-1-1:2004", clause: "3.1.4(6) (3.11–3.13)", basis: "seen", readIn: "CE:2021" },
  params: { f_ck: q.concreteStrength, t: as(q.concreteAge, { text: "age of concrete at which shrinkage is wanted" }) },
  result: q.autogenousShrinkage,
  steps: autogenousSteps,
  compute: ({ f_ck, t }) => autogenous(f_ck, t),
  empirical: "a fit to tests, with the strength in MPa and the age in days",
});
