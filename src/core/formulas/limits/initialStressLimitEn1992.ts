import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Greatest tendon stress after transfer or anchoring. */
export const initialStressLimitEn1992 = formula({
  id: "TENDON_STRESS_LIMIT_EN1992_2004",
  family: "limits",
  summary: "Greatest tendon stress immediately after tensioning and anchoring, or after transfer",
  notes: [
    "k_7 and k_8 are nationally determined; the defaults are the recommended values.",
    "The national text that was read sets 0.70 and 0.80, or 0.75 and 0.85 with a quality mark.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "5.10.3(2) (5.43)", basis: "seen", readIn: "CE:2021" },
  params: {
    f_pk: q.tendonTensileStrength,
    f_p01k: q.tendonProofStress,
    k_pk: as(q.nationalFactor, {
      symbol: "k_7",
      text: "factor on f_pk; nationally determined, 5.10.3(2) recommends 0.75",
      default: 0.75,
    }),
    k_p01k: as(q.nationalFactor, {
      symbol: "k_8",
      text: "factor on f_p0.1k; nationally determined, 5.10.3(2) recommends 0.85",
      default: 0.85,
    }),
  },
  result: as(q.tendonStressLimit, { symbol: "σ_pm0,max", text: "greatest allowed tendon stress after transfer" }),
  equation: "min(k_pk * f_pk, k_p01k * f_p01k)",
  compute: ({ f_pk, f_p01k, k_pk, k_p01k }) => Math.min(k_pk * f_pk, k_p01k * f_p01k),
  unpublished: "the lesser of two products; no published result was found",
});
