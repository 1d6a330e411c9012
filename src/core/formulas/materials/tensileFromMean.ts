import { choosing } from "../../choosing.ts";
import { choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { concreteFlexuralTensileStrengthEn1992 } from "./concreteFlexuralTensileStrengthEn1992.ts";
import { concreteTensileStrengthLowerEn1992 } from "./concreteTensileStrengthLowerEn1992.ts";
import { concreteTensileStrengthUpperEn1992 } from "./concreteTensileStrengthUpperEn1992.ts";

/** What goes with a mean tensile strength, at 28 days or earlier. */
export const tensileFromMean = choosing({
  id: "CONCRETE_TENSILE_STRENGTH_FROM_MEAN_EN1992_2004",
  family: "materials",
  summary: "Lower or upper characteristic, or mean flexural tensile strength, from the mean axial tensile strength",
  by: {
    value: choice({
      key: "tensileWanted",
      symbol: "value",
      text: "tensile strength that is wanted",
      values: [
        { value: "LOWER", text: "5 % fractile f_ctk,0.05" },
        { value: "UPPER", text: "95 % fractile f_ctk,0.95" },
        { value: "FLEXURAL", text: "mean flexural strength f_ctm,fl of a member of depth h" },
      ],
    }),
  },
  as: {
    LOWER: concreteTensileStrengthLowerEn1992,
    UPPER: concreteTensileStrengthUpperEn1992,
    FLEXURAL: concreteFlexuralTensileStrengthEn1992,
  },
  order: ["f_ctm", "value", "h"],
  result: q.tensileFromMean,
});
