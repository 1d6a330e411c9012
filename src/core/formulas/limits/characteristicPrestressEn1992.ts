import { choosing } from "../../choosing.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { characteristicPrestressLowerEn1992 } from "./characteristicPrestressLowerEn1992.ts";
import { characteristicPrestressUpperEn1992 } from "./characteristicPrestressUpperEn1992.ts";
import { characteristicBound } from "./prestressFactors.ts";

/** Characteristic values of prestress in service. */
export const characteristicPrestressEn1992 = choosing({
  id: "CHARACTERISTIC_PRESTRESS_EN1992_2004",
  family: "limits",
  summary: "Upper or lower characteristic prestress force in service from the mean force",
  by: { bound: characteristicBound },
  as: { UPPER: characteristicPrestressUpperEn1992, LOWER: characteristicPrestressLowerEn1992 },
  order: ["P_mt", "construction", "bound", "r"],
  joint: {
    r: as(q.prestressFactor, { text: "r_sup or r_inf; blank or 0: the recommended value", default: 0 }),
  },
  result: as(q.prestressForce, {
    symbol: "P_k",
    text: "characteristic prestressing force",
    sort: "characteristic prestress",
  }),
});
