import { choosing } from "../../choosing.ts";
import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { bondConditionFactors, bondConditions, tendonSurface } from "../en1992/bondChoices.ts";
import { designTensileStrength, designTensileStrengthStep, tensileFactors } from "../en1992/designTensileStrength.ts";

const atRelease = { STRAND: 3.2, INDENTED_WIRE: 2.7 };
const inTheEnd = { STRAND: 1.2, INDENTED_WIRE: 1.4 };

const eta1 = {
  symbol: "η_1",
  unit: "–",
  text: "factor of the bond conditions",
  clause: "8.10.2.2(1)",
  lookup: { of: "bond", values: bondConditionFactors },
} as const;

/** Bond that transmits the prestress at release. */
const atTransmission = stepwise({
  id: "BOND_STRENGTH_EN1992_2004",
  family: "transmission",
  summary: "Bond strength at release, from the mean tensile strength at that age",
  notes: [
    "The design tensile strength at release is α_ct 0.7 f_ctm(t)/γ_C.",
    "η_p1 and η_1 were read in the French transcription of the standard only.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "8.10.2.2(1) (8.15)", basis: "seen", readIn: "CE:2021" },
  params: {
    f: q.concreteTensileStrengthAtAge,
    tendon: tendonSurface,
    bond: bondConditions,
    gamma_C: tensileFactors.gamma_C,
    alpha: tensileFactors.alpha,
  },
  result: as(q.bondStrength, { symbol: "f_bpt" }),
  steps: {
    f_ctdt: designTensileStrengthStep,
    eta_p1: {
      symbol: "η_p1",
      unit: "–",
      text: "factor of the kind of tendon",
      clause: "8.10.2.2(1)",
      lookup: { of: "tendon", values: atRelease },
    },
    eta_1: eta1,
    f_bpt: { symbol: "f_bpt", unit: "MPa", clause: "(8.15)", equation: "eta_p1 * eta_1 * f_ctdt" },
  },
  compute: (v) => {
    const f_ctdt = designTensileStrength(v);
    const eta_p1 = valueFor(atRelease, v.tendon);
    const eta_1 = valueFor(bondConditionFactors, v.bond);
    return { f_ctdt, eta_p1, eta_1, f_bpt: eta_p1 * eta_1 * f_ctdt };
  },
  unpublished: "products of table factors; no published result was found",
});

/** Bond that anchors the tendon in the ultimate state. */
const atAnchorage = stepwise({
  id: "BOND_STRENGTH_EN1992_2004",
  family: "transmission",
  summary: "Bond strength for anchorage in the ultimate limit state, from the lower tensile strength",
  notes: [
    "The tensile strength is taken no higher than that of C60/75 unless tests show more bond (8.10.2.3(2)); the cap is on the argument.",
    "η_p2 and η_1 were read in the French transcription only; whether 1.2 holds for strands of three wires too was not verified.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "8.10.2.3(2) (8.20)", basis: "seen", readIn: "CE:2021" },
  params: {
    f: as(q.concreteTensileStrengthLower, { above: 0 }),
    tendon: tendonSurface,
    bond: bondConditions,
    gamma_C: tensileFactors.gamma_C,
    alpha: tensileFactors.alpha,
  },
  cautions: ({ f }) => (f > 3.1 ? ["fctk,0.05 is above that of C60/75, 3.1 MPa, to which 8.10.2.3(2) limits it"] : []),
  result: as(q.bondStrength, { symbol: "f_bpd" }),
  steps: {
    f_ctd: {
      symbol: "f_ctd",
      unit: "MPa",
      text: "design tensile strength",
      clause: "3.1.6(2) (3.16)",
      equation: "alpha * f / gamma_C",
    },
    eta_p2: {
      symbol: "η_p2",
      unit: "–",
      text: "factor of the kind of tendon",
      clause: "8.10.2.3(2)",
      lookup: { of: "tendon", values: inTheEnd },
    },
    eta_1: eta1,
    f_bpd: { symbol: "f_bpd", unit: "MPa", clause: "(8.20)", equation: "eta_p2 * eta_1 * f_ctd" },
  },
  compute: (v) => {
    const f_ctd = (v.alpha * v.f) / v.gamma_C;
    const eta_p2 = valueFor(inTheEnd, v.tendon);
    const eta_1 = valueFor(bondConditionFactors, v.bond);
    return { f_ctd, eta_p2, eta_1, f_bpd: eta_p2 * eta_1 * f_ctd };
  },
  unpublished: "products of table factors; no published result was found",
});

/** How much bond there is. */
export const bondStrengthEn1992 = choosing({
  id: "BOND_STRENGTH_EN1992_2004",
  family: "transmission",
  summary: "Bond strength at release, or for anchorage in the ultimate limit state",
  by: {
    situation: choice({
      key: "bondSituation",
      symbol: "situation",
      text: "what the bond is wanted for",
      values: [
        { value: "TRANSMISSION", text: "transmission at release, from f_ctm(t)" },
        { value: "ANCHORAGE", text: "anchorage in the ultimate state, from f_ctk,0.05" },
      ],
    }),
  },
  as: { TRANSMISSION: atTransmission, ANCHORAGE: atAnchorage },
  order: ["f", "tendon", "situation", "bond", "gamma_C", "alpha"],
  joint: { f: q.bondedStrength },
  result: as(q.bondStrength, { symbol: "f_bp" }),
});
