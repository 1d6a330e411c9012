import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** α_ct and γ_C of EN 1992-1-1:2004 3.1.6(2), with the recommended values. */
export const tensileFactors = {
  alpha: as(q.longTermFactor, {
    symbol: "α_ct",
    text: "coefficient for long-term effects on tensile strength; nationally determined, 3.1.6(2) recommends 1.0",
    default: 1,
  }),
  gamma_C: as(q.concretePartialFactor, {
    text: "partial factor for concrete; nationally determined, 2.4.2.4(1) recommends 1.5",
    default: 1.5,
  }),
};

/** f_ctd(t) as formulas with the parameters `f`, `gamma_C` and `alpha` show it. */
export const designTensileStrengthStep = {
  symbol: "f_ctd(t)",
  unit: "MPa",
  text: "design tensile strength at release",
  clause: "3.1.6(2) (3.16)",
  equation: "alpha * 0.7 * f / gamma_C",
} as const;

/** Design tensile strength from the mean one: the 5 % fractile is 0.7 times the mean. */
export function designTensileStrength({
  f,
  gamma_C,
  alpha,
}: {
  readonly f: number;
  readonly gamma_C: number;
  readonly alpha: number;
}): number {
  return (alpha * 0.7 * f) / gamma_C;
}
