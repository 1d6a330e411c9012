import { stepwise } from "../../formula.ts";
import type { Quantity } from "../../parameters.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

const { min: _, ...unbounded } = q.stressGradient;
/** Without friction there is no affected length. */
const gradient: Quantity = { ...unbounded, above: 0 };
const params = { slip: q.drawIn, E_p: q.tendonModulus, p: q.stressGradient, L: q.tendonLength };
const free = {
  symbol: "l_0",
  unit: "m",
  text: "length affected in an endless tendon",
  equation: "sqrt(slip * E_p / p)",
} as const;

function affected({
  slip,
  E_p,
  p,
  L,
}: {
  readonly slip: number;
  readonly E_p: number;
  readonly p: number;
  readonly L: number;
}): { readonly l_0: number; readonly l_a: number } {
  const l_0 = Math.sqrt((slip * E_p) / p);
  return { l_0, l_a: Math.min(l_0, L) };
}

export const drawInLengthUniform = stepwise({
  id: "DRAW_IN_LENGTH_UNIFORM",
  family: "drawIn",
  summary: "Length of tendon affected by the draw-in of the anchorage where friction takes a uniform stress per metre",
  notes: ["At most the length of the tendon: beyond it the draw-in reaches the dead end."],
  source: mechanics,
  params: { ...params, p: gradient },
  result: q.controlX,
  steps: { l_0: free, l_a: { symbol: "l_a", unit: "m", equation: "min(l_0, L)" } },
  compute: affected,
});

export const drawInLossUniform = stepwise({
  id: "DRAW_IN_LOSS_UNIFORM",
  family: "drawIn",
  summary:
    "Loss of tendon stress at the anchorage by its draw-in where friction takes a uniform stress per metre; loss positive",
  notes: [
    "Where the draw-in reaches the dead end the whole tendon loses besides what friction gives back.",
    "p = 0: a straight tendon without friction; the loss is the same everywhere.",
  ],
  source: mechanics,
  params,
  result: as(q.elasticLoss, { symbol: "Δσ_sl", text: "loss of tendon stress by draw-in, loss positive" }),
  steps: {
    reach: {
      symbol: "l_0 > L",
      unit: "–",
      text: "1 where the draw-in reaches the dead end",
      equation: "slip * E_p > p * L^2 ? 1 : 0",
    },
    loss: { symbol: "Δσ_sl", unit: "MPa", equation: "reach == 1 ? slip * E_p / L + p * L : 2 * sqrt(p * slip * E_p)" },
  },
  compute: ({ slip, E_p, p, L }) => {
    const reach = slip * E_p > p * L * L ? 1 : 0;
    return { reach, loss: reach === 1 ? (slip * E_p) / L + p * L : 2 * Math.sqrt(p * slip * E_p) };
  },
});
