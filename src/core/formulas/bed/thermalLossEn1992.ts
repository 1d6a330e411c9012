import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Strands held at their length while the concrete warms them. */
export const thermalLossEn1992 = formula({
  id: "THERMAL_LOSS_EN1992_2004",
  family: "bed",
  summary: "Loss of tendon stress by heat curing of a pre-tensioned member, positive",
  notes: [
    "(10.3) gives the force, ΔP_θ = 0.5 A_p E_p α_c (T_max − T_0); this is its stress.",
    "T_max − T_0 is the difference between the greatest and the initial temperature of the concrete near " +
      "the tendons; it is not the temperature at which the tendons were tensioned.",
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
