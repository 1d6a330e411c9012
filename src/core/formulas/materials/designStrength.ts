import { choosing } from "../../choosing.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { concreteDesignStrengthEn1992 } from "./concreteDesignStrengthEn1992.ts";
import { concreteDesignTensileStrengthAtReleaseEn1992 } from "./concreteDesignTensileStrengthAtReleaseEn1992.ts";

/** Design strengths of concrete. */
export const designStrength = choosing({
  id: "CONCRETE_DESIGN_STRENGTH_EN1992_2004",
  family: "materials",
  summary: "Design compressive strength, or design tensile strength at release",
  by: {
    strength: choice({
      key: "designStrengthWanted",
      symbol: "strength",
      text: "design strength that is wanted",
      values: [
        { value: "COMPRESSION", text: "f_cd from the characteristic cylinder strength f_ck" },
        { value: "TENSION_AT_RELEASE", text: "f_ctd(t) from the mean tensile strength f_ctm(t) at release" },
      ],
    }),
  },
  as: { COMPRESSION: concreteDesignStrengthEn1992, TENSION_AT_RELEASE: concreteDesignTensileStrengthAtReleaseEn1992 },
  order: ["f", "strength", "alpha", "gamma_C"],
  joint: {
    f: q.designedStrength,
    alpha: as(q.longTermFactor, { text: "coefficient for long-term effects: α_cc or α_ct", default: 1 }),
    gamma_C: as(q.concretePartialFactor, { default: 1.5 }),
  },
  result: q.designStrength,
});
