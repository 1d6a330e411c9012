import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import {
  modulusNote,
  partNote,
  relaxationStep,
  restraint,
  restraintStep,
  sectionParams,
  source,
  unpublished,
} from "./interaction.ts";

/** What relaxation contributes to the combined loss. */
export const timeDependentLossRelaxationEn1992 = stepwise({
  id: "TIME_DEPENDENT_LOSS_EN1992_2004",
  family: "timeDependent",
  summary: "Part of the combined time-dependent loss of tendon stress that comes from relaxation, positive",
  notes: ["Δσ_pr is at constant strain: the factor 0.8 is in here.", partNote, modulusNote],
  source,
  params: { dsigma_pr: q.relaxationLoss, ...sectionParams },
  result: as(q.timeDependentLoss, { symbol: "Δσ_p,r", text: "loss of tendon stress from relaxation, positive" }),
  steps: {
    relaxationPart: relaxationStep,
    D: restraintStep,
    loss: { symbol: "Δσ_p,r", unit: "MPa", text: "loss of stress", clause: "(5.46)", equation: "relaxationPart / D" },
  },
  compute: (v) => {
    const relaxationPart = 0.8 * v.dsigma_pr;
    const D = restraint(v);
    return { relaxationPart, D, loss: relaxationPart / D };
  },
  unpublished,
});
