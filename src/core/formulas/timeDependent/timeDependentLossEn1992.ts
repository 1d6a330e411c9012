import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import {
  creepNotes,
  creepStep,
  freeCreep,
  lossMiss,
  modulusNote,
  relaxationStep,
  restraint,
  restraintStep,
  sectionParams,
  shrinkageStep,
  source,
  stressChanges,
  unpublished,
} from "./interaction.ts";

/** Loss of stress by creep, shrinkage and relaxation as they act on each other. */
export const timeDependentLossEn1992 = stepwise({
  id: "TIME_DEPENDENT_LOSS_EN1992_2004",
  family: "timeDependent",
  summary: "Loss of tendon stress by creep, shrinkage and relaxation together, positive",
  notes: [
    "Δσ_pr is taken for the stress under permanent actions, initial prestress and ψ_2 Q, at constant strain: the factor 0.8 is in here.",
    ...creepNotes,
    modulusNote,
    "Bonded tendons: stresses of the section; unbonded tendons: mean stresses along the tendon.",
    "Times A_p it is the loss of force.",
  ],
  source,
  params: {
    eps_cs: q.shrinkageStrain,
    dsigma_pr: q.relaxationLoss,
    changes: stressChanges,
    ...sectionParams,
  },
  result: q.timeDependentLoss,
  steps: {
    shrinkagePart: shrinkageStep,
    relaxationPart: relaxationStep,
    creepPart: creepStep,
    D: restraintStep,
    loss: {
      symbol: "Δσ_p,c+s+r",
      unit: "MPa",
      text: "loss of stress",
      clause: "(5.46)",
      equation: "(shrinkagePart + relaxationPart + creepPart) / D",
    },
  },
  compute: (v) => {
    const shrinkagePart = v.eps_cs * v.E_p;
    const relaxationPart = 0.8 * v.dsigma_pr;
    const creepPart = freeCreep(v);
    const D = restraint(v);
    return { shrinkagePart, relaxationPart, creepPart, D, loss: (shrinkagePart + relaxationPart + creepPart) / D };
  },
  proof: (v, found) => lossMiss(v, [v.E_p * v.eps_cs, 0.8 * v.dsigma_pr], found),
  unpublished,
});
