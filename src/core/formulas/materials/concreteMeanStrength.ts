import { choosing } from "../../choosing.ts";
import { choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { concreteMeanStrengthEn1992 } from "./concreteMeanStrengthEn1992.ts";
import { concreteMeanStrengthFromTestEn1992 } from "./concreteMeanStrengthFromTestEn1992.ts";

/** From characteristic to mean. */
export const concreteMeanStrength = choosing({
  id: "CONCRETE_MEAN_STRENGTH_EN1992_2004",
  family: "materials",
  summary: "Mean cylinder strength from the characteristic one, at 28 days or at the age of the test",
  by: {
    age: choice({
      key: "strengthGivenAt",
      symbol: "age",
      text: "age of the strength given",
      default: "28_DAYS",
      values: [
        { value: "28_DAYS", text: "28 days: f_ck" },
        { value: "AT_AGE", text: "the age at which it was proved or is required: f_ck(t)" },
      ],
    }),
  },
  as: { "28_DAYS": concreteMeanStrengthEn1992, AT_AGE: concreteMeanStrengthFromTestEn1992 },
  order: ["f", "age"],
  joint: { f: q.characteristicStrength },
  result: q.meanStrength,
});
