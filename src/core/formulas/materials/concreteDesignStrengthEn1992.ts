import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Design compressive strength. */
export const concreteDesignStrengthEn1992 = formula({
  id: "CONCRETE_DESIGN_STRENGTH_EN1992_2004",
  family: "materials",
  summary: "Design compressive strength from the characteristic cylinder strength",
  notes: [
    "α_cc and γ_C are nationally determined; the defaults are the recommended values.",
    "Strength fixed at more than 28 days: reduce α_cc by k_t, recommended 0.85 (3.1.2(4)).",
  ],
  source: { key: "EN1992-1-1:2004", clause: "3.1.6(1) (3.15), 2.4.2.4(1)", basis: "seen", readIn: "CE:2021" },
  params: {
    f: q.concreteStrength,
    alpha: as(q.longTermFactor, {
      text: "coefficient for long-term effects; nationally determined, 3.1.6(1) recommends 1.0",
      default: 1,
      valid: { range: [0.8, 1], where: "EN 1992-1-1 3.1.6(1)" },
    }),
    gamma_C: as(q.concretePartialFactor, {
      text: "partial factor for concrete; nationally determined, 2.4.2.4(1) recommends 1.5",
      default: 1.5,
    }),
  },
  result: q.concreteDesignStrength,
  equation: "alpha * f / gamma_C",
  compute: ({ f, alpha, gamma_C }) => (alpha * f) / gamma_C,
  unpublished: "one product and one quotient; no published result was found",
});
