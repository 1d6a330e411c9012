import { stepwise } from "../../formula.ts";
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
      rise > 0 ? Math.exp(rise * Math.log(1.14)) * history.reduce((s, { T, dt }) => s + dt * ((T - 20) / rise), 0) : 0;
    return again === 0 ? t_eq : t_eq / again - 1;
  },
  empirical: "a fit to tests, with temperatures in °C and hours",
  unpublished: "no published result was found; recomputed by hand in the tests",
});
