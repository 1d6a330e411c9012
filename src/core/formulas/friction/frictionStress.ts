import { byChoice, stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { conventions, exponentOf, frictionClause, wobble } from "./wobble.ts";

/** Friction along a post-tensioned tendon: exponential decay with angle and length. */
export const frictionStress = stepwise({
  id: "FRICTION_STRESS",
  family: "friction",
  summary: "Tendon stress left at x after curvature and wobble friction",
  notes: [conventions],
  source: mechanics,
  sourceFollows: frictionClause,
  params: {
    alpha: q.angleChange,
    mu: q.frictionCoefficient,
    k: q.wobbleCoefficient,
    wobble,
    sigma0: q.jackingStress,
    x: q.distanceFromJack,
  },
  result: q.tendonStress,
  steps: {
    result: {
      symbol: "σ_p",
      unit: "MPa",
      ...byChoice("wobble", {
        "1/m": "sigma0 * exp(-(mu * alpha + k * x))",
        "rad/m": "sigma0 * exp(-mu * (alpha + k * x))",
      }),
    },
  },
  compute: ({ alpha, mu, k, wobble: convention, sigma0, x }) => ({
    result: sigma0 * Math.exp(-exponentOf(convention, mu, alpha, k, x)),
  }),
});
