import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Compression under the quasi-permanent combination up to which creep is linear. */
export const compressionLimitQuasiPermanentEn1992 = formula({
  id: "COMPRESSION_LIMIT_EN1992_2004",
  family: "limits",
  summary: "Greatest concrete compression under the quasi-permanent combination for linear creep, compression positive",
  notes: [
    "Above it creep is non-linear: no failure, but creep is to be computed by 3.1.4(4).",
    "k_2 is nationally determined; the default is the recommended value.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "7.2(3)", basis: "seen", readIn: "CE:2021" },
  params: {
    f: q.concreteStrength,
    k: as(q.nationalFactor, {
      symbol: "k_2",
      text: "factor on f_ck; nationally determined, 7.2(3) recommends 0.45",
      default: 0.45,
    }),
  },
  result: q.compressionLimit,
  equation: "k * f",
  compute: ({ f, k }) => k * f,
  unpublished: "one product; no published result was found",
});
