import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { lockOffNotes, nonePublished, straightTendon, takeUp } from "./lockOff.ts";

export const lockOffStress = formula({
  id: "LOCK_OFF_STRESS",
  family: "stressing",
  summary: "Stress of a straight tendon without friction after lock-off, from the jacking stress and the take-up",
  notes: [
    ...lockOffNotes,
    "A stress below 0 means that the take-up is more than the elongation: the tendon is slack.",
    cautions.stressing,
  ],
  source: mechanics,
  params: { ...straightTendon, sigma0: q.jackingStress, slip: takeUp },
  cautions: ({ sigma0, slip, E_p, L }) =>
    sigma0 * L <= slip * E_p ? ["the take-up at lock-off takes all the elongation: the tendon is slack"] : [],
  result: { ...q.tendonStress, min: -1e9 },
  equation: "sigma0 - slip * E_p / L",
  compute: ({ sigma0, slip, E_p, L }) => sigma0 - (slip * E_p) / L,
  unpublished: nonePublished,
});
