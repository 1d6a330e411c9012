import { formula } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { megapascalsAdded } from "../en1992/strengthGain.ts";

/** Mean strength that goes with the characteristic strength proved, or required, at an age. */
export const concreteMeanStrengthFromTestEn1992 = formula({
  id: "CONCRETE_MEAN_STRENGTH_EN1992_2004",
  family: "materials",
  summary: "Mean cylinder strength at an age from the characteristic strength proved or required at that age",
  notes: ["3.1.2(5) read the other way round: f_ck(t) = f_cm(t) − 8 MPa."],
  source: { key: "EN1992-1-1:2004", clause: "3.1.2(5)", basis: "seen", readIn: "CE:2021" },
  params: { f: q.concreteStrengthAtAge },
  result: q.concreteMeanStrengthAtAge,
  equation: "f + 8",
  compute: ({ f }) => f + 8,
  empirical: megapascalsAdded,
  unpublished: "the same 8 MPa as at 28 days, which is checked",
});
