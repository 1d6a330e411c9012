import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { as, format } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { lockOffNotes, nonePublished, straightTendon, takeUp } from "./lockOff.ts";

/** An overstress beyond this part of the wanted stress is told; the part is ours. */
const notable = 0.1;

export const lockOffJackingStress = formula({
  id: "LOCK_OFF",
  family: "stressing",
  summary: "Jacking stress that leaves a wanted stress in a straight tendon without friction after lock-off",
  notes: [
    ...lockOffNotes,
    "The overstress is temporary, but every limit of the jacking stress holds for it. Where it passes the " +
      "limit, stress again: a second seating takes up less.",
    cautions.stressing,
  ],
  source: mechanics,
  params: {
    ...straightTendon,
    sigma: as(q.tendonStress, { symbol: "σ_p,w", text: "stress wanted after lock-off" }),
    slip: takeUp,
  },
  cautions: ({ sigma, slip, E_p, L }) => {
    const added = (slip * E_p) / L;
    return added > notable * sigma
      ? [
          `the jack must pull ${format(added)} MPa more than the ${format(sigma)} MPa wanted after lock-off: ` +
            "compare with the limit of the stress at the jack before anyone stresses",
        ]
      : [];
  },
  result: { ...q.tendonStress, symbol: "σ_p0", text: "tendon stress at the jack", max: 1e9 },
  equation: "sigma + slip * E_p / L",
  compute: ({ sigma, slip, E_p, L }) => sigma + (slip * E_p) / L,
  unpublished: nonePublished,
});
