import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import {
  creepNotes,
  creepStep,
  freeCreep,
  lossMiss,
  modulusNote,
  partNote,
  restraint,
  restraintStep,
  sectionParams,
  source,
  stressChanges,
  unpublished,
} from "./interaction.ts";

/** What creep contributes to the combined loss. */
export const timeDependentLossCreepEn1992 = stepwise({
  id: "TIME_DEPENDENT_LOSS_EN1992_2004",
  family: "timeDependent",
  summary:
    "Part of the combined time-dependent loss of tendon stress that comes from creep, positive where the " +
    "concrete at the tendon is compressed",
  notes: [...creepNotes, partNote, modulusNote],
  source,
  params: { changes: stressChanges, ...sectionParams },
  result: as(q.timeDependentLoss, { symbol: "Δσ_p,c", text: "loss of tendon stress from creep, positive" }),
  steps: {
    creepPart: creepStep,
    D: restraintStep,
    loss: { symbol: "Δσ_p,c", unit: "MPa", text: "loss of stress", clause: "(5.46)", equation: "creepPart / D" },
  },
  compute: (v) => {
    const creepPart = freeCreep(v);
    const D = restraint(v);
    return { creepPart, D, loss: creepPart / D };
  },
  proof: (v, found) => lossMiss(v, [], found),
  unpublished,
});
