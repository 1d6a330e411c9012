import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Down to where no crack is expected, no steel is asked for it. */
export const tensionLimitNoReinforcementEn1992 = formula({
  id: "TENSION_LIMIT_EN1992_2004",
  family: "limits",
  summary:
    "Least concrete stress down to which a prestressed member needs no minimum reinforcement for cracks: " +
    "a negative number, compression positive",
  notes: [
    "To be compared with the stress under the characteristic combination of loads and the characteristic " +
      "value of prestress (r_sup or r_inf, whichever is unfavourable).",
    "σ_ct,p is nationally determined; recommended is f_ct,eff as in 7.3.2(2).",
  ],
  source: { key: "EN1992-1-1:2004", clause: "7.3.2(4)", basis: "seen", readIn: "CE:2021" },
  params: {
    f: as(q.effectiveTensileStrength, {
      symbol: "σ_ct,p",
      text: "tension allowed without minimum reinforcement, a positive number; nationally determined, 7.3.2(4) recommends f_ct,eff",
    }),
  },
  result: q.tensionLimit,
  equation: "-f",
  compute: ({ f }) => -f,
  unpublished: "a change of sign",
});
