import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { construction } from "../en1992/choices.ts";
import { factorNote, upperFactors, meanForce } from "./prestressFactors.ts";

/** Upper characteristic prestress in service. */
export const characteristicPrestressUpperEn1992 = stepwise({
  id: "CHARACTERISTIC_PRESTRESS_EN1992_2004",
  family: "limits",
  summary: "Upper characteristic prestress force in service from the mean force",
  notes: [factorNote],
  source: { key: "EN1992-1-1:2004", clause: "5.10.9(1) (5.47)", basis: "seen", readIn: "CE:2021" },
  params: {
    P_mt: meanForce,
    construction,
    r: as(q.prestressFactor, {
      symbol: "r_sup",
      text: "factor from mean to upper characteristic prestress; blank or 0: the recommended value",
      default: 0,
    }),
  },
  result: as(q.prestressForce, {
    symbol: "P_k,sup",
    text: "upper characteristic prestressing force",
    sort: "characteristic prestress",
  }),
  steps: {
    r_recommended: {
      symbol: "r_sup,rec",
      unit: "–",
      text: "recommended factor",
      clause: "5.10.9(1)",
      lookup: { of: "construction", values: upperFactors },
    },
    P_ksup: { symbol: "P_k,sup", unit: "kN", clause: "(5.47)", equation: "(r > 0 ? r : r_recommended) * P_mt" },
  },
  compute: (v) => {
    const r_recommended = valueFor(upperFactors, v.construction);
    return { r_recommended, P_ksup: (v.r > 0 ? v.r : r_recommended) * v.P_mt };
  },
});
