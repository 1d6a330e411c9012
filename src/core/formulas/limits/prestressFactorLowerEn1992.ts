import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { construction } from "../en1992/choices.ts";
import { factorNote, lowerFactors } from "./prestressFactors.ts";

/** Factor from mean to lower characteristic prestress. */
export const prestressFactorLowerEn1992 = stepwise({
  id: "PRESTRESS_FACTOR_EN1992_2004",
  family: "limits",
  summary: "Factor r_inf from mean to lower characteristic prestress in service",
  notes: [factorNote],
  source: { key: "EN1992-1-1:2004", clause: "5.10.9(1)", basis: "seen", readIn: "CE:2021" },
  params: { construction },
  result: as(q.prestressFactor, { symbol: "r_inf", text: "factor from mean to lower characteristic prestress" }),
  steps: {
    r_inf: { symbol: "r_inf", unit: "–", clause: "5.10.9(1)", lookup: { of: "construction", values: lowerFactors } },
  },
  compute: (v) => ({ r_inf: valueFor(lowerFactors, v.construction) }),
});
