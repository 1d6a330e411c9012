import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import {
  modulusNote,
  partNote,
  restraint,
  restraintStep,
  sectionParams,
  shrinkageStep,
  source,
  unpublished,
} from "./interaction.ts";

/** What shrinkage contributes to the combined loss. */
export const timeDependentLossShrinkageEn1992 = stepwise({
  id: "TIME_DEPENDENT_LOSS_EN1992_2004",
  family: "timeDependent",
  summary: "Part of the combined time-dependent loss of tendon stress that comes from shrinkage, positive",
  notes: [partNote, modulusNote],
  source,
  params: { eps_cs: q.shrinkageStrain, ...sectionParams },
  result: as(q.timeDependentLoss, { symbol: "Δσ_p,s", text: "loss of tendon stress from shrinkage, positive" }),
  steps: {
    shrinkagePart: shrinkageStep,
    D: restraintStep,
    loss: { symbol: "Δσ_p,s", unit: "MPa", text: "loss of stress", clause: "(5.46)", equation: "shrinkagePart / D" },
  },
  compute: (v) => {
    const shrinkagePart = v.eps_cs * v.E_p;
    const D = restraint(v);
    return { shrinkagePart, D, loss: shrinkagePart / D };
  },
  unpublished,
});
