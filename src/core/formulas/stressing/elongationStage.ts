import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { nonePublished, share } from "./jack.ts";

export const elongationStage = formula({
  id: "ELONGATION_STAGE",
  family: "stressing",
  summary: "Elongation expected between the first reading and a stage of the jacking force",
  notes: [
    "Friction takes the same part at every force, so the elongation grows with the force. The first " +
      "reading is taken once the slack is out; the share of force there is ψ_0.",
    "A value below 0 belongs to a stage before the first reading.",
    cautions.stressing,
  ],
  source: mechanics,
  params: {
    elongation: as(q.elongation, { symbol: "Δl", text: "elongation calculated for the whole jacking force", min: 0 }),
    P_i: share,
    psi_0: as(q.forceShare, { symbol: "ψ_0", text: "part of the jacking force at the first reading", min: 0 }),
  },
  result: { ...q.elongation, symbol: "Δl_i", min: -12000, max: 12000 },
  equation: "(P_i - psi_0) * elongation",
  compute: ({ P_i, psi_0, elongation }) => (P_i - psi_0) * elongation,
  unpublished: nonePublished,
});
