import { choosing } from "../../choosing.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { concreteMeanStrengthAtAgeEn1992 } from "./concreteMeanStrengthAtAgeEn1992.ts";
import { concreteStrengthAtAgeEn1992 } from "./concreteStrengthAtAgeEn1992.ts";
import { concreteTensileStrengthAtAgeEn1992 } from "./concreteTensileStrengthAtAgeEn1992.ts";

/** A strength of 28 days at another age. */
export const strengthAtAge = choosing({
  id: "CONCRETE_STRENGTH_AT_AGE_EN1992_2004",
  family: "materials",
  summary: "Characteristic, mean or tensile strength of concrete at an age, at 20 °C, from that at 28 days",
  notes: [
    "The modulus at an age follows from two strengths, not from an age: CONCRETE_MODULUS_AT_AGE_EN1992_2004 stands by itself.",
  ],
  by: {
    strength: choice({
      key: "strengthWanted",
      symbol: "strength",
      text: "strength that is given at 28 days and wanted at the age",
      values: [
        { value: "CHARACTERISTIC", text: "characteristic cylinder strength f_ck" },
        { value: "MEAN", text: "mean cylinder strength f_cm" },
        { value: "TENSILE", text: "mean tensile strength f_ctm" },
      ],
    }),
  },
  as: {
    CHARACTERISTIC: concreteStrengthAtAgeEn1992,
    MEAN: concreteMeanStrengthAtAgeEn1992,
    TENSILE: concreteTensileStrengthAtAgeEn1992,
  },
  order: ["f", "cement", "t", "strength"],
  joint: { f: q.strengthOf, t: as(q.concreteAge, { above: 0 }) },
  result: q.strengthAtAge,
});
