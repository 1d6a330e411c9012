import { formula } from "../../formula.ts";
import { q } from "../../quantities/index.ts";

/** Secant modulus at an age, from the mean strength at that age. */
export const concreteModulusAtAgeEn1992 = formula({
  id: "CONCRETE_MODULUS_AT_AGE_EN1992_2004",
  family: "materials",
  summary: "Secant modulus of concrete at an age, from the mean cylinder strengths at that age and at 28 days",
  source: { key: "EN1992-1-1:2004", clause: "3.1.3(3) (3.5)", basis: "seen", readIn: "CE:2021" },
  params: { E_cm: q.concreteModulus, f_cm: q.concreteMeanStrength, f_cmt: q.concreteMeanStrengthAtAge },
  result: q.concreteModulusAtAge,
  equation: "(f_cmt / f_cm)^0.3 * E_cm",
  compute: ({ E_cm, f_cm, f_cmt }) => (f_cmt / f_cm) ** 0.3 * E_cm,
  unpublished: "no published result was found; with equal strengths it equals E_cm, which the tests check",
});
