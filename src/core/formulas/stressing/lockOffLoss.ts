import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { lockOffNotes, nonePublished, straightTendon, takeUp } from "./lockOff.ts";

export const lockOffLoss = formula({
  id: "LOCK_OFF",
  family: "stressing",
  summary: "Loss of stress at lock-off of a straight tendon without friction: bar or strands on a bed; loss positive",
  notes: [...lockOffNotes, cautions.stressing],
  source: mechanics,
  params: { ...straightTendon, slip: takeUp },
  result: q.lockOffLoss,
  equation: "slip * E_p / L",
  compute: ({ slip, E_p, L }) => (slip * E_p) / L,
  unpublished: nonePublished,
});
