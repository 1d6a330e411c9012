import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Compression under the characteristic combination above which cracks along the member are to be expected. */
export const compressionLimitCharacteristicEn1992 = formula({
  id: "COMPRESSION_LIMIT_EN1992_2004",
  family: "limits",
  summary: "Greatest concrete compression under the characteristic combination, compression positive",
  notes: [
    "For exposure classes XD, XF and XS, unless the cover of the compressed zone is increased or it is confined.",
    "k_1 is nationally determined; the default is the recommended value.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "7.2(2)", basis: "seen", readIn: "CE:2021" },
  params: {
    f: q.concreteStrength,
    k: as(q.nationalFactor, {
      symbol: "k_1",
      text: "factor on f_ck; nationally determined, 7.2(2) recommends 0.6",
      default: 0.6,
    }),
  },
  result: q.compressionLimit,
  equation: "k * f",
  compute: ({ f, k }) => k * f,
  unpublished: "one product; no published result was found",
});
