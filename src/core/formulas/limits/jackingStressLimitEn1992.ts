import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Greatest tendon stress during stressing. */
export const jackingStressLimitEn1992 = formula({
  id: "TENDON_STRESS_LIMIT_EN1992_2004",
  family: "limits",
  summary: "Greatest tendon stress at the jack during stressing",
  notes: ["k_1 and k_2 are nationally determined; the defaults are the recommended values."],
  source: { key: "EN1992-1-1:2004", clause: "5.10.2.1(1) (5.41)", basis: "seen", readIn: "CE:2021" },
  params: {
    f_pk: q.tendonTensileStrength,
    f_p01k: q.tendonProofStress,
    k_pk: as(q.nationalFactor, {
      symbol: "k_1",
      text: "factor on f_pk; nationally determined, 5.10.2.1(1) recommends 0.8",
      default: 0.8,
    }),
    k_p01k: as(q.nationalFactor, {
      symbol: "k_2",
      text: "factor on f_p0.1k; nationally determined, 5.10.2.1(1) recommends 0.9",
      default: 0.9,
    }),
  },
  result: q.tendonStressLimit,
  equation: "min(k_pk * f_pk, k_p01k * f_p01k)",
  compute: ({ f_pk, f_p01k, k_pk, k_p01k }) => Math.min(k_pk * f_pk, k_p01k * f_p01k),
  unpublished: "the lesser of two products; no published result was found",
});
