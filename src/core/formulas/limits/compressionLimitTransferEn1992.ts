import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Greatest compression of the concrete at transfer. */
export const compressionLimitTransferEn1992 = formula({
  id: "COMPRESSION_LIMIT_EN1992_2004",
  family: "limits",
  summary: "Greatest concrete compression at transfer from the strength at that age, compression positive",
  notes: [
    "Pre-tensioned members may go to k_6, recommended 0.7, where tests or experience show that no cracks along the tendon arise.",
    "A stress above 0.45 f_ck(t) that stays makes creep non-linear.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "5.10.2.2(5) (5.42)", basis: "seen", readIn: "CE:2021" },
  params: {
    f: q.concreteStrengthAtAge,
    k: as(q.nationalFactor, {
      text: "factor on the strength: 0.6; k_6 for pre-tensioned members, 5.10.2.2(5)",
      default: 0.6,
    }),
  },
  result: q.compressionLimit,
  equation: "k * f",
  compute: ({ f, k }) => k * f,
  unpublished: "one product; no published result was found",
});
