import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { cementClass } from "../en1992/choices.ts";
import {
  autogenous,
  autogenousSteps,
  drying,
  dryingSteps,
  humidityNote,
  nominal,
  nominalSteps,
  printedHumidity,
  sizeNote,
  thinSection,
} from "./laws.ts";

/** Total shrinkage with every step of 3.1.4(6) and Annex B.2. */
export const shrinkageStrainEn1992 = stepwise({
  id: "SHRINKAGE_STRAIN_EN1992_2004",
  family: "shrinkage",
  summary: "Total shrinkage strain at age t, drying and autogenous, shortening positive",
  notes: [
    "Drying counts from the end of curing, autogenous shrinkage from casting; what happened before " +
      "stressing is to be taken off for losses.",
    "Mean value: the coefficient of variation of drying shrinkage is about 30 %.",
    humidityNote,
    sizeNote,
  ],
  source: {
    key: "EN1992-1-1:2004",
    clause: "3.1.4(6) (3.8–3.13), Table 3.3, Annex B.2",
    basis: "seen",
    readIn: "CE:2021",
  },
  params: {
    h_0: q.notionalSize,
    f_ck: q.concreteStrength,
    cement: cementClass,
    RH: as(q.relativeHumidity, { valid: printedHumidity }),
    t_s: q.ageAtEndOfCuring,
    t: as(q.concreteAge, { text: "age of concrete at which shrinkage is wanted" }),
  },
  limits: ({ t_s }) => ({ t: { min: t_s, because: "the end of curing" } }),
  cautions: thinSection,
  result: q.shrinkageStrain,
  steps: {
    f_cm: { symbol: "f_cm", unit: "MPa", text: "mean cylinder strength", clause: "Table 3.1", equation: "f_ck + 8" },
    ...nominalSteps,
    ...dryingSteps,
    ...autogenousSteps,
    eps_cs: { symbol: "ε_cs", unit: "–", text: "total shrinkage", clause: "(3.8)", equation: "eps_cd + eps_ca" },
  },
  compute: ({ f_ck, RH, h_0, t_s, t, cement }) => {
    const f_cm = f_ck + 8;
    const free = nominal(f_cm, RH, cement);
    const dry = drying(free.eps_cd0, h_0, t_s, t);
    const own = autogenous(f_ck, t);
    return { f_cm, ...free, ...dry, ...own, eps_cs: dry.eps_cd + own.eps_ca };
  },
  empirical: "a fit to tests, with strengths in MPa, ages in days, sizes in mm and humidity in per cent",
  unpublished: "no published total was found; its drying and autogenous parts are checked each by itself",
});
