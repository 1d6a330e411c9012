import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { construction } from "../en1992/choices.ts";
import { factorNote, lowerFactors, meanForce } from "./prestressFactors.ts";

/** Lower characteristic prestress in service. */
export const characteristicPrestressLowerEn1992 = stepwise({
  id: "CHARACTERISTIC_PRESTRESS_EN1992_2004",
  family: "limits",
  summary: "Lower characteristic prestress force in service from the mean force",
  notes: [factorNote],
  source: { key: "EN1992-1-1:2004", clause: "5.10.9(1) (5.48)", basis: "seen", readIn: "CE:2021" },
  params: {
    P_mt: meanForce,
    construction,
    r: as(q.prestressFactor, {
      symbol: "r_inf",
      text: "factor from mean to lower characteristic prestress; blank or 0: the recommended value",
      default: 0,
    }),
  },
  result: as(q.prestressForce, {
    symbol: "P_k,inf",
    text: "lower characteristic prestressing force",
    sort: "characteristic prestress",
  }),
  steps: {
    r_recommended: {
      symbol: "r_inf,rec",
      unit: "–",
      text: "recommended factor",
      clause: "5.10.9(1)",
      lookup: { of: "construction", values: lowerFactors },
    },
    P_kinf: { symbol: "P_k,inf", unit: "kN", clause: "(5.48)", equation: "(r > 0 ? r : r_recommended) * P_mt" },
  },
  compute: (v) => {
    const r_recommended = valueFor(lowerFactors, v.construction);
    return { r_recommended, P_kinf: (v.r > 0 ? v.r : r_recommended) * v.P_mt };
  },
});
