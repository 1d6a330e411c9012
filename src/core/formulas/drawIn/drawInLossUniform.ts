import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { closedForm } from "./uniformFall.ts";

export const drawInLossUniform = stepwise({
  id: "DRAW_IN_UNIFORM",
  family: "drawIn",
  summary:
    "Loss of tendon stress at the anchorage by its draw-in where friction takes a uniform stress per metre; loss positive",
  notes: [
    "Where the draw-in reaches the dead end the whole tendon loses besides what friction gives back.",
    "p = 0: a straight tendon without friction; the loss is the same everywhere, as in LOCK_OFF.",
    closedForm,
  ],
  source: mechanics,
  params: { L: q.tendonLength, E_p: q.tendonModulus, p: q.stressGradient, slip: q.drawIn },
  result: q.lockOffLoss,
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
