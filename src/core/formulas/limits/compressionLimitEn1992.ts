import { choosing } from "../../choosing.ts";
import { as, choice, orBlank } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { compressionLimitCharacteristicEn1992 } from "./compressionLimitCharacteristicEn1992.ts";
import { compressionLimitQuasiPermanentEn1992 } from "./compressionLimitQuasiPermanentEn1992.ts";
import { compressionLimitTransferEn1992 } from "./compressionLimitTransferEn1992.ts";

/** How far the concrete may be compressed. */
export const compressionLimitEn1992 = choosing({
  id: "COMPRESSION_LIMIT_EN1992_2004",
  family: "limits",
  summary: "Max. concrete compression at transfer, or in service by combination, compression positive",
  by: {
    situation: choice({
      key: "compressionSituation",
      symbol: "situation",
      text: "when the limit holds",
      values: [
        { value: "TRANSFER", text: "at transfer, from f_ck(t)" },
        { value: "CHARACTERISTIC", text: "characteristic combination, from f_ck" },
        { value: "QUASI_PERMANENT", text: "quasi-permanent combination for linear creep, from f_ck" },
      ],
    }),
  },
  as: {
    TRANSFER: compressionLimitTransferEn1992,
    CHARACTERISTIC: compressionLimitCharacteristicEn1992,
    QUASI_PERMANENT: compressionLimitQuasiPermanentEn1992,
  },
  order: ["f", "situation", "k"],
  joint: {
    f: q.limitStrength,
    k: orBlank(as(q.nationalFactor, { text: "factor on the strength" }), "the recommended value"),
  },
});
