import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { cementClass } from "../en1992/choices.ts";
import { humidityNote, nominal, nominalSteps, printedHumidity } from "./laws.ts";

/** Nominal drying shrinkage of concrete free to shrink. */
export const dryingShrinkageNominalEn1992 = stepwise({
  id: "DRYING_SHRINKAGE_NOMINAL_EN1992_2004",
  family: "shrinkage",
  summary: "Nominal unrestrained drying shrinkage strain, shortening positive",
  notes: ["Mean value: the coefficient of variation is about 30 %.", humidityNote],
  source: { key: "EN1992-1-1:2004", clause: "Annex B.2 (B.11, B.12)", basis: "seen", readIn: "CE:2021" },
  params: { f_cm: q.concreteMeanStrength, cement: cementClass, RH: as(q.relativeHumidity, { valid: printedHumidity }) },
  result: q.dryingShrinkageNominal,
  steps: nominalSteps,
  compute: ({ f_cm, RH, cement }) => nominal(f_cm, RH, cement),
  empirical: "a fit to tests, with the strength in MPa and humidity in per cent",
});
