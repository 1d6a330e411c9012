import { formula } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { megapascalsAdded } from "../en1992/strengthGain.ts";

/** Mean cylinder strength at 28 days. */
export const concreteMeanStrengthEn1992 = formula({
  id: "CONCRETE_MEAN_STRENGTH_EN1992_2004",
  family: "materials",
  summary: "Mean cylinder strength at 28 days from the characteristic strength",
  source: { key: "EN1992-1-1:2004", clause: "Table 3.1", basis: "seen", readIn: "CE:2021" },
  params: { f: q.concreteStrength },
  result: q.concreteMeanStrength,
  equation: "f + 8",
  compute: ({ f }) => f + 8,
  empirical: megapascalsAdded,
});
