import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { designTensileStrength, designTensileStrengthStep, tensileFactors } from "../en1992/designTensileStrength.ts";

/** Design tensile strength that bond at release rests on. */
export const concreteDesignTensileStrengthAtReleaseEn1992 = stepwise({
  id: "CONCRETE_DESIGN_STRENGTH_EN1992_2004",
  family: "materials",
  summary: "Design tensile strength at release, from the mean tensile strength at that age",
  notes: ["BOND_STRENGTH_EN1992_2004 takes this step itself: give it the mean strength, not this one."],
  source: { key: "EN1992-1-1:2004", clause: "8.10.2.2(1), 3.1.6(2) (3.16)", basis: "seen", readIn: "CE:2021" },
  params: {
    f: q.concreteTensileStrengthAtAge,
    alpha: tensileFactors.alpha,
    gamma_C: tensileFactors.gamma_C,
  },
  result: q.concreteDesignTensileStrength,
  steps: { f_ctdt: designTensileStrengthStep },
  compute: (v) => ({ f_ctdt: designTensileStrength(v) }),
  unpublished: "products and one quotient; no published result was found",
});
