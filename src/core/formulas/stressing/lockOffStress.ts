import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { lockOffNotes, nonePublished, straightTendon, takeUp } from "./lockOff.ts";

export const lockOffStress = formula({
  id: "LOCK_OFF",
  family: "stressing",
  summary: "Stress of a straight tendon without friction after lock-off, from the jacking stress and the take-up",
  notes: [
    ...lockOffNotes,
    "A stress below 0 means that the take-up is more than the elongation: the tendon is slack.",
    cautions.stressing,
  ],
  source: mechanics,
  params: { ...straightTendon, sigma: q.jackingStress, slip: takeUp },
  cautions: ({ sigma, slip, E_p, L }) =>
    sigma * L <= slip * E_p ? ["the take-up at lock-off takes all the elongation: the tendon is slack"] : [],
  result: { ...q.tendonStress, min: -1e9 },
  equation: "sigma - slip * E_p / L",
  compute: ({ sigma, slip, E_p, L }) => sigma - (slip * E_p) / L,
  unpublished: nonePublished,
});
