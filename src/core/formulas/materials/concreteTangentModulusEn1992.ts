import { formula } from "../../formula.ts";
import { q } from "../../quantities/index.ts";

/** Tangent modulus, to which the creep coefficient refers. */
export const concreteTangentModulusEn1992 = formula({
  id: "CONCRETE_TANGENT_MODULUS_EN1992_2004",
  family: "materials",
  summary: "Tangent modulus of concrete at 28 days: the modulus that the creep coefficient goes with",
  source: { key: "EN1992-1-1:2004", clause: "3.1.4(2)", basis: "seen", readIn: "CE:2021" },
  params: { E_cm: q.concreteModulus },
  result: q.concreteTangentModulus,
  equation: "1.05 * E_cm",
  compute: ({ E_cm }) => 1.05 * E_cm,
  unpublished: "a fixed factor; no published result was found",
});
