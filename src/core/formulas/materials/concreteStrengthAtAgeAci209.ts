import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { cementType, curing } from "../models/choices.ts";

/** a in days and b of the strength gain, by curing, for cement of type I and of type III. */
const daysOrdinary = { MOIST: 4, STEAM: 1 };
const daysEarly = { MOIST: 2.3, STEAM: 0.7 };
const shareOrdinary = { MOIST: 0.85, STEAM: 0.95 };
const shareEarly = { MOIST: 0.92, STEAM: 0.98 };
const isEarly = { I: 0, III: 1 };

/** Strength of concrete against age by ACI 209R-92. */
export const concreteStrengthAtAgeAci209 = stepwise({
  id: "CONCRETE_STRENGTH_AT_AGE_ACI209R_1992",
  family: "materials",
  summary: "Mean cylinder strength at age t from the mean strength at 28 days, by ACI 209R-92",
  notes: [
    "From 1 day on; an estimate: before stressing or release, tests prove the strength.",
    "Beyond 28 days it goes on rising, to at most 1/b of the strength at 28 days.",
  ],
  source: { key: "ACI209R-92", clause: "2.2.1 (2-1), Table 2.2.1", basis: "memory-high" },
  params: {
    f_c28: as(q.concreteMeanStrength, { symbol: "f_cm,28" }),
    curing,
    cement: cementType,
    t: as(q.concreteAge, { min: 1 }),
  },
  result: q.concreteMeanStrengthAtAge,
  steps: {
    early: {
      symbol: "early",
      unit: "–",
      text: "1 for cement of high early strength",
      lookup: { of: "cement", values: isEarly },
    },
    a_I: {
      symbol: "a_I",
      unit: "days",
      text: "a for type I",
      clause: "Table 2.2.1",
      lookup: { of: "curing", values: daysOrdinary },
    },
    a_III: {
      symbol: "a_III",
      unit: "days",
      text: "a for type III",
      clause: "Table 2.2.1",
      lookup: { of: "curing", values: daysEarly },
    },
    b_I: {
      symbol: "b_I",
      unit: "–",
      text: "b for type I",
      clause: "Table 2.2.1",
      lookup: { of: "curing", values: shareOrdinary },
    },
    b_III: {
      symbol: "b_III",
      unit: "–",
      text: "b for type III",
      clause: "Table 2.2.1",
      lookup: { of: "curing", values: shareEarly },
    },
    a: { symbol: "a", unit: "days", equation: "early == 1 ? a_III : a_I" },
    b: { symbol: "b", unit: "–", equation: "early == 1 ? b_III : b_I" },
    f_ct: { symbol: "f_cm(t)", unit: "MPa", clause: "(2-1)", equation: "f_c28 * t / (a + b * t)" },
  },
  compute: (v) => {
    const early = valueFor(isEarly, v.cement);
    const a_I = valueFor(daysOrdinary, v.curing),
      a_III = valueFor(daysEarly, v.curing),
      b_I = valueFor(shareOrdinary, v.curing),
      b_III = valueFor(shareEarly, v.curing);
    const a = early === 1 ? a_III : a_I,
      b = early === 1 ? b_III : b_I;
    return { early, a_I, a_III, b_I, b_III, a, b, f_ct: (v.f_c28 * v.t) / (a + b * v.t) };
  },
  empirical: "a fit to tests, with the age in days",
  unpublished: "its table of ratios is recalled, not read",
});
