import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Strength gain after heat curing, from the strength proved at release. */
export const heatCuredStrengthEn1992 = stepwise({
  id: "HEAT_CURED_STRENGTH_EN1992_2004",
  family: "bed",
  summary: "Mean strength of heat-cured concrete at an age before 28 days, from the mean strength at release",
  notes: ["No more than the mean strength at 28 days."],
  source: { key: "EN1992-1-1:2004", clause: "10.3.1.1(3) (10.1)", basis: "seen", readIn: "CE:2021" },
  params: {
    f_cmp: as(q.concreteMeanStrengthAtAge, { symbol: "f_cmp", text: "mean strength proved at release" }),
    f_cm: q.concreteMeanStrength,
    t: as(q.concreteAge, { max: 28 }),
    t_p: as(q.concreteAge, { symbol: "t_p", text: "age at release", max: 27.9 }),
  },
  limits: ({ t, f_cm }) => ({
    t_p: { max: t, because: "the age considered" },
    f_cmp: { max: f_cm, because: "the mean strength at 28 days" },
  }),
  result: q.concreteMeanStrengthAtAge,
  steps: {
    part: {
      symbol: "λ",
      unit: "–",
      text: "part of the gain still to come that is reached",
      equation: "log(t - t_p + 1) / log(28 - t_p + 1)",
    },
    f_cmt: { symbol: "f_cm(t)", unit: "MPa", clause: "(10.1)", equation: "f_cmp + (f_cm - f_cmp) * part" },
  },
  compute: ({ f_cmp, f_cm, t, t_p }) => {
    const part = Math.log(t - t_p + 1) / Math.log(28 - t_p + 1);
    return { part, f_cmt: f_cmp + (f_cm - f_cmp) * part };
  },
  empirical: "a fit to tests, with ages in days",
  unpublished: "no published result was found; the ends t_p and 28 days are tested",
});
