import { choosing } from "../../choosing.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { initialStressLimitEn1992 } from "./initialStressLimitEn1992.ts";
import { jackingStressLimitEn1992 } from "./jackingStressLimitEn1992.ts";
import { overstressLimitEn1992 } from "./stressingStepsEn1992.ts";
import { tendonStressLimitServiceEn1992 } from "./tendonStressLimitServiceEn1992.ts";

/** How far a tendon may be stressed. */
export const tendonStressLimitEn1992 = choosing({
  id: "TENDON_STRESS_LIMIT_EN1992_2004",
  family: "limits",
  summary: "Max. tendon stress: at the jack, while overstressing, after transfer or anchoring, in service",
  by: {
    situation: choice({
      key: "tendonStressSituation",
      symbol: "situation",
      text: "when the limit holds",
      values: [
        { value: "JACKING", text: "at the jack during stressing" },
        { value: "OVERSTRESSING", text: "at the jack while overstressing" },
        { value: "INITIAL", text: "after transfer or anchoring" },
        { value: "SERVICE", text: "in service, characteristic combination" },
      ],
    }),
  },
  as: {
    JACKING: jackingStressLimitEn1992,
    OVERSTRESSING: overstressLimitEn1992,
    INITIAL: initialStressLimitEn1992,
    SERVICE: tendonStressLimitServiceEn1992,
  },
  order: ["f_pk", "f_p01k", "situation", "k_pk", "k_p01k"],
  joint: {
    k_pk: as(q.nationalFactor, { symbol: "k", text: "factor on f_pk, nationally determined: k_1, k_7 or k_5" }),
    k_p01k: as(q.nationalFactor, { symbol: "k", text: "factor on f_p0.1k, nationally determined: k_2, k_3 or k_8" }),
  },
  result: q.tendonStressLimit,
});
