import { choosing } from "../../choosing.ts";
import { q } from "../../quantities/index.ts";
import { prestressFactorLowerEn1992 } from "./prestressFactorLowerEn1992.ts";
import { prestressFactorUpperEn1992 } from "./prestressFactorUpperEn1992.ts";
import { characteristicBound } from "./prestressFactors.ts";

/** r_sup and r_inf. */
export const prestressFactorEn1992 = choosing({
  id: "PRESTRESS_FACTOR_EN1992_2004",
  family: "limits",
  summary: "Factor from mean to upper or lower characteristic prestress in service: r_sup or r_inf",
  notes: ["CHARACTERISTIC_PRESTRESS_EN1992_2004 takes the factor to the force."],
  by: { bound: characteristicBound },
  as: { UPPER: prestressFactorUpperEn1992, LOWER: prestressFactorLowerEn1992 },
  order: ["construction", "bound"],
  result: q.prestressFactor,
});
