import { formula } from "../../formula.ts";
import { q } from "../../quantities/index.ts";

/** Least concrete stress for which the section counts as uncracked. */
export const tensionLimitUncrackedEn1992 = formula({
  id: "TENSION_LIMIT_EN1992_2004",
  family: "limits",
  summary: "Least concrete stress of an uncracked section: a negative number, compression positive",
  notes: [
    "f_ct,eff is f_ctm or f_ctm,fl, provided that minimum reinforcement is found with the same value; at " +
      "transfer the strength at that age.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "7.1(2)", basis: "seen", readIn: "CE:2021" },
  params: { f: q.effectiveTensileStrength },
  result: q.tensionLimit,
  equation: "-f",
  compute: ({ f }) => -f,
  unpublished: "a change of sign",
});
