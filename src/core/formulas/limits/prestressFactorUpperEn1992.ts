import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { construction } from "../en1992/choices.ts";
import { factorNote, upperFactors } from "./prestressFactors.ts";

/** Factor from mean to upper characteristic prestress. */
export const prestressFactorUpperEn1992 = stepwise({
  id: "PRESTRESS_FACTOR_EN1992_2004",
  family: "limits",
  summary: "Factor r_sup from mean to upper characteristic prestress in service",
  notes: [factorNote],
  source: { key: "EN1992-1-1:2004", clause: "5.10.9(1)", basis: "seen", readIn: "CE:2021" },
  params: { construction },
  result: as(q.prestressFactor, { symbol: "r_sup", text: "factor from mean to upper characteristic prestress" }),
  steps: {
    r_sup: { symbol: "r_sup", unit: "–", clause: "5.10.9(1)", lookup: { of: "construction", values: upperFactors } },
  },
  compute: (v) => ({ r_sup: valueFor(upperFactors, v.construction) }),
});
