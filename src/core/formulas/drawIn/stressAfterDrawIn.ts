import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

export const stressAfterDrawIn = formula({
  id: "STRESS_AFTER_DRAW_IN",
  family: "drawIn",
  summary: "Tendon stress at a place after the draw-in of the anchorage",
  notes: [
    "Between the anchorage and the end of the draw-in the stress is mirrored about σ_a; beyond it nothing changes.",
  ],
  source: mechanics,
  params: {
    sigma: as(q.tendonStress, { symbol: "σ_p,μ", text: "stress after friction" }),
    sigma_a: as(q.tendonStress, { symbol: "σ_a", text: "stress at which the draw-in ends" }),
  },
  result: { ...q.tendonStress, min: -2500 },
  equation: "min(sigma, 2 * sigma_a - sigma)",
  compute: ({ sigma, sigma_a }) => Math.min(sigma, 2 * sigma_a - sigma),
});
