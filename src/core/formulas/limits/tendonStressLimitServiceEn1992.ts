import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Greatest mean tendon stress in service. */
export const tendonStressLimitServiceEn1992 = formula({
  id: "TENDON_STRESS_LIMIT_EN1992_2004",
  family: "limits",
  summary: "Greatest mean tendon stress under the characteristic combination",
  notes: ["k_5 is nationally determined; the default is the recommended value."],
  source: { key: "EN1992-1-1:2004", clause: "7.2(5)", basis: "seen", readIn: "CE:2021" },
  params: {
    f_pk: q.tendonTensileStrength,
    k_pk: as(q.nationalFactor, {
      symbol: "k_5",
      text: "factor on f_pk; nationally determined, 7.2(5) recommends 0.75",
      default: 0.75,
    }),
  },
  result: q.tendonStressLimit,
  equation: "k_pk * f_pk",
  compute: ({ f_pk, k_pk }) => k_pk * f_pk,
  unpublished: "one product; no published result was found",
});
