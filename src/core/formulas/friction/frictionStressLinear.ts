import { formula } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

/** First-order form of the exponential law, for small losses. */
export const frictionStressLinear = formula({
  id: "FRICTION_STRESS_LINEAR",
  family: "friction",
  summary: "Tendon stress left at x, first-order form for small losses; wobble k in 1/m, outside μ",
  notes: ["It overstates the loss by about half the square of μα + kx."],
  source: mechanics,
  params: {
    sigma0: q.jackingStress,
    mu: q.frictionCoefficient,
    alpha: q.angleChange,
    k: q.wobblePerLength,
    x: q.distanceFromJack,
  },
  cautions: ({ mu, alpha, k, x }) =>
    mu * alpha + k * x > 0.3
      ? [`μα + kx = ${(mu * alpha + k * x).toFixed(2)} is above 0.3: use the exponential form`]
      : [],
  result: { ...q.tendonStress, min: -2500 },
  equation: "sigma0 * (1 - mu * alpha - k * x)",
  compute: ({ sigma0, mu, alpha, k, x }) => sigma0 * (1 - mu * alpha - k * x),
  unpublished: "The results found in this form are recalled, not read; they are compared as such.",
});
