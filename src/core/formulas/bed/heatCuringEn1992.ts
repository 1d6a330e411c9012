import { formula, stepwise } from "../../formula.ts";
import { as, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Heat speeds relaxation: the hours it is worth. */
export const equivalentTimeHeatCuringEn1992 = stepwise({
  id: "EQUIVALENT_TIME_HEAT_CURING_EN1992_2004",
  family: "bed",
  summary: "Hours that heat curing adds to the time after tensioning, for the relaxation",
  notes: ["Steps at 20 °C add nothing; steps below 20 °C are refused, since the sum would take time away."],
  source: { key: "EN1992-1-1:2004", clause: "10.3.2.1(2) (10.2)", basis: "seen", readIn: "CE:2021" },
  params: {
    history: table({
      key: "curingHistory",
      symbol: "T, Δt",
      text: "temperature steps while the strands are under stress",
      columns: { T: as(q.curingTemperature, { min: 20, max: 80 }), dt: q.curingHours },
      minRows: 1,
    }),
  },
  result: q.equivalentHours,
  steps: {
    T_max: { symbol: "T_max", unit: "°C", text: "highest temperature", governing: "T_{max} = \\max T_i" },
    t_eq: {
      symbol: "t_eq",
      unit: "h",
      reads: "h",
      clause: "(10.2)",
      governing: "t_{eq} = \\frac{1.14^{T_{max}-20}}{T_{max}-20} \\sum_i (T_i - 20)\\, \\Delta t_i",
    },
  },
  compute: ({ history }) => {
    const T_max = Math.max(...history.map(({ T }) => T));
    const sum = history.reduce((s, { T, dt }) => s + (T - 20) * dt, 0);
    return { T_max, t_eq: T_max > 20 ? (1.14 ** (T_max - 20) / (T_max - 20)) * sum : 0 };
  },
  // The same with each step's share of the greatest rise, by logarithms.
  proof: ({ history }, { T_max, t_eq }) => {
    const rise = T_max - 20;
    const again =
      rise > 0
        ? Math.exp(rise * Math.log(1.14)) * history.reduceRight((s, { T, dt }) => s + dt * ((T - 20) / rise), 0)
        : 0;
    return again === 0 ? t_eq : t_eq / again - 1;
  },
  empirical: "a fit to tests, with temperatures in °C and hours",
  unpublished: "no published result was found; recomputed by hand in the tests",
});

/** Strands held at their length while the concrete warms them. */
export const thermalLossEn1992 = formula({
  id: "THERMAL_LOSS_EN1992_2004",
  family: "bed",
  summary: "Loss of tendon stress by heat curing of a pre-tensioned member, positive",
  notes: [
    "(10.3) gives the force, ΔP_θ = 0.5 A_p E_p α_c (T_max − T_0); this is its stress.",
    "T_max − T_0 is the difference between the greatest and the initial temperature of the concrete near the tendons; it is not the temperature at which the tendons were tensioned.",
    "Negligible where the tendons are heated before they are bonded, or the bed's length follows.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "10.5.2(1) (10.3)", basis: "seen", readIn: "CE:2021" },
  params: {
    E_p: q.tendonModulus,
    T_max: q.greatestCuringTemperature,
    T_0: q.initialConcreteTemperature,
    alpha_c: as(q.expansionCoefficient, { default: 1e-5 }),
  },
  limits: ({ T_max }) => ({ T_0: { max: T_max, because: "the highest temperature of the concrete" } }),
  result: q.bedLoss,
  equation: "0.5 * E_p * alpha_c * (T_max - T_0)",
  compute: ({ E_p, T_max, T_0, alpha_c }) => 0.5 * E_p * alpha_c * (T_max - T_0),
  unpublished: "one product; no published result was found",
});

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
