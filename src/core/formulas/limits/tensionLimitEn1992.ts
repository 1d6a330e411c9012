import { choosing } from "../../choosing.ts";
import { choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { tensionLimitNoReinforcementEn1992 } from "./minimumReinforcementEn1992.ts";
import { tensionLimitUncrackedEn1992 } from "./tensionLimitUncrackedEn1992.ts";

/** How much tension may remain. */
export const tensionLimitEn1992 = choosing({
  id: "TENSION_LIMIT_EN1992_2004",
  family: "limits",
  summary: "Min. concrete stress of an uncracked section, or without min. reinforcement: a negative number",
  by: {
    rule: choice({
      key: "tensionRule",
      symbol: "rule",
      text: "what the limit is for",
      values: [
        { value: "UNCRACKED", text: "the section counts as uncracked: f_ct,eff" },
        { value: "NO_MIN_REINFORCEMENT", text: "no min. reinforcement for cracks is needed: σ_ct,p" },
      ],
    }),
  },
  as: { UNCRACKED: tensionLimitUncrackedEn1992, NO_MIN_REINFORCEMENT: tensionLimitNoReinforcementEn1992 },
  order: ["f", "rule"],
  joint: { f: q.tensionAllowed },
});
