import { formula, stepwise } from "../../formula.ts";
import { valueBetween } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Shrinkage loss of the component method. */
export const shrinkageLossComponent = formula({
  id: "SHRINKAGE_LOSS_COMPONENT",
  family: "shrinkage",
  summary: "Final loss of tendon stress by shrinkage of the concrete, by the component method; positive",
  notes: [
    "K_sh is 1 for pre-tensioned members; for post-tensioned ones SHRINKAGE_FACTOR_COMPONENT gives it.",
    "The source counts volume over surface in inches: 0.06 per inch.",
  ],
  source: { key: "ZIA:1979", clause: "shrinkage of concrete (SH)", basis: "memory-high" },
  params: {
    VS: q.volumeSurface,
    E_s: as(q.tendonModulus, { symbol: "E_s" }),
    RH: q.relativeHumidity,
    K_sh: as(q.shrinkageLossFactor, { default: 1 }),
  },
  result: as(q.timeDependentLoss, { symbol: "SH", text: "loss by shrinkage, positive" }),
  equation: "8.2e-6 * K_sh * E_s * (1 - 0.06 * VS / 25.4) * (100 - RH)",
  compute: ({ E_s, VS, RH, K_sh }) => 8.2e-6 * K_sh * E_s * (1 - (0.06 * VS) / 25.4) * (100 - RH),
  empirical: "a fit to tests, with humidity in per cent and 0.06 per inch of volume over surface",
});

const points = [
  [1, 0.92],
  [3, 0.85],
  [5, 0.8],
  [7, 0.77],
  [10, 0.73],
  [20, 0.64],
  [30, 0.58],
  [60, 0.45],
] as const;

/** What of the shrinkage is still to come when a post-tensioned member is stressed. */
export const shrinkageFactorComponent = stepwise({
  id: "SHRINKAGE_FACTOR_COMPONENT",
  family: "shrinkage",
  summary:
    "Factor K_sh of the component method for post-tensioned members, from the days between the end of moist curing and stressing",
  notes: ["Linear between the table's points, which is practice. Less than 1 day and more than 60 days are refused."],
  source: { key: "ZIA:1979", clause: "shrinkage of concrete (SH), table of K_sh", basis: "memory-high" },
  params: { t_d: q.dryingTimeBeforeStressing },
  result: q.shrinkageLossFactor,
  steps: { K: { symbol: "K_sh", unit: "–", text: "from the table, linear between", lookup: { of: "t_d", points } } },
  compute: ({ t_d }) => ({ K: valueBetween(points, t_d) }),
  unpublished: "the table is from memory; no published result was found",
});
