import { formula } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

/** Friction along a post-tensioned tendon: exponential decay with angle and length, wobble outside μ. */
export const frictionStress = formula({
  id: "FRICTION_STRESS",
  family: "friction",
  summary: "Tendon stress left at x after curvature and wobble friction; wobble k in 1/m, outside μ",
  source: mechanics,
  params: {
    sigma0: q.jackingStress,
    mu: q.frictionCoefficient,
    alpha: q.angleChange,
    k: q.wobblePerLength,
    x: q.distanceFromJack,
  },
  result: q.tendonStress,
  equation: "sigma0 * exp(-(mu * alpha + k * x))",
  compute: ({ sigma0, mu, alpha, k, x }) => sigma0 * Math.exp(-(mu * alpha + k * x)),
});
