import { formula } from "../../formula.ts";
import { q } from "../../quantities/index.ts";

/** 5 % fractile of the axial tensile strength. */
export const concreteTensileStrengthLowerEn1992 = formula({
  id: "CONCRETE_TENSILE_STRENGTH_FROM_MEAN_EN1992_2004",
  family: "materials",
  summary: "Axial tensile strength, 5 % fractile, from the mean",
  source: { key: "EN1992-1-1:2004", clause: "Table 3.1", basis: "seen", readIn: "CE:2021" },
  params: { f_ctm: q.concreteTensileStrength },
  result: q.concreteTensileStrengthLower,
  equation: "0.7 * f_ctm",
  compute: ({ f_ctm }) => 0.7 * f_ctm,
});
