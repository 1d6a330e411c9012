import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { as, format } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

const notes = [
  "A straight bar without friction: the loss is the same over the whole length. The free length between the anchorages counts; the shorter the bar, the more a given take-up costs.",
];
const bar = {
  slip: q.nutTakeUp,
  E_p: q.tendonModulus,
  L: as(q.tendonLength, { text: "free length of the bar between the anchorages", typical: [1, 30] }),
};
const none =
  "Hooke's law; the published slip without friction stands at DRAW_IN_LOSS_UNIFORM, with which tests compare it.";

export const barLossNut = formula({
  id: "BAR_LOSS_NUT",
  family: "stressing",
  summary: "Loss of stress of a straight bar by the take-up of its nut when the jack lets go; loss positive",
  notes: [...notes, cautions.stressing],
  source: mechanics,
  params: bar,
  result: as(q.elasticLoss, { symbol: "Δσ_n", text: "loss of tendon stress by the take-up of the nut, loss positive" }),
  equation: "slip * E_p / L",
  compute: ({ slip, E_p, L }) => (slip * E_p) / L,
  unpublished: none,
});

export const barStressLocked = formula({
  id: "BAR_STRESS_LOCKED",
  family: "stressing",
  summary: "Stress of a straight bar after lock-off, from the stress at the jack and the take-up of the nut",
  notes: [
    ...notes,
    "A stress below 0 means that the take-up is more than the elongation: the bar is slack.",
    cautions.stressing,
  ],
  source: mechanics,
  params: { sigma0: q.jackingStress, ...bar },
  cautions: ({ sigma0, slip, E_p, L }) =>
    sigma0 * L <= slip * E_p ? ["the take-up of the nut takes all the elongation: the bar is slack"] : [],
  result: { ...q.tendonStress, min: -1e9 },
  equation: "sigma0 - slip * E_p / L",
  compute: ({ sigma0, slip, E_p, L }) => sigma0 - (slip * E_p) / L,
  unpublished: none,
});

/** An overstress beyond this part of the wanted stress is told; the part is ours. */
const notable = 0.1;

export const barJackingStress = formula({
  id: "BAR_JACKING_STRESS",
  family: "stressing",
  summary: "Stress at the jack that leaves a wanted stress in a straight bar after the take-up of its nut",
  notes: [
    ...notes,
    "The overstress is temporary, but every limit of the jacking stress holds for it. Where it passes the limit, stress again: a second seating takes up less.",
    cautions.stressing,
  ],
  source: mechanics,
  params: { sigma: as(q.tendonStress, { symbol: "σ_p,w", text: "stress wanted after lock-off" }), ...bar },
  cautions: ({ sigma, slip, E_p, L }) => {
    const added = (slip * E_p) / L;
    return added > notable * sigma
      ? [
          `the jack must pull ${format(added)} MPa more than the ${format(sigma)} MPa wanted after lock-off: compare with the limit of the stress at the jack before anyone stresses`,
        ]
      : [];
  },
  result: { ...q.tendonStress, symbol: "σ_p0", text: "tendon stress at the jack", max: 1e9 },
  equation: "sigma + slip * E_p / L",
  compute: ({ sigma, slip, E_p, L }) => sigma + (slip * E_p) / L,
  unpublished: none,
});

export const barFormulas = [barLossNut, barStressLocked, barJackingStress];
