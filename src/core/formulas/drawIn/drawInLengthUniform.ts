import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { closedForm, fallAboveZero } from "./uniformFall.ts";

export const drawInLengthUniform = stepwise({
  id: "DRAW_IN_UNIFORM",
  family: "drawIn",
  summary: "Length of tendon affected by the draw-in of the anchorage where friction takes a uniform stress per metre",
  notes: ["At most the length of the tendon: beyond it the draw-in reaches the dead end.", closedForm],
  source: mechanics,
  params: { L: q.tendonLength, E_p: q.tendonModulus, p: fallAboveZero, slip: q.drawIn },
  result: q.controlX,
  steps: {
    l_0: { symbol: "l_0", unit: "m", text: "length affected in an endless tendon", equation: "sqrt(slip * E_p / p)" },
    l_a: { symbol: "l_a", unit: "m", equation: "min(l_0, L)" },
  },
  compute: ({ L, E_p, p, slip }) => {
    const l_0 = Math.sqrt((slip * E_p) / p);
    return { l_0, l_a: Math.min(l_0, L) };
  },
});
