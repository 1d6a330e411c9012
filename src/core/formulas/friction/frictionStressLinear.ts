import { byChoice, stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { conventions, exponentOf, wobble } from "./wobble.ts";

/** First-order form of the exponential law, for small losses. */
export const frictionStressLinear = stepwise({
  id: "FRICTION_STRESS_LINEAR",
  family: "friction",
  summary: "Tendon stress left at x after friction, first-order form for small losses",
  notes: [
    "It overstates the loss by about half the square of the exponent. A function of its own, because it " +
      "is an approximation and says so where the exponent is too large for it.",
    conventions,
  ],
  source: mechanics,
  params: {
    alpha: q.angleChange,
    mu: q.frictionCoefficient,
    k: q.wobbleCoefficient,
    wobble,
    sigma0: q.jackingStress,
    x: q.distanceFromJack,
  },
  cautions: ({ alpha, mu, k, wobble: convention, x }) => {
    const lambda = exponentOf(convention, mu, alpha, k, x);
    const written = convention === "1/m" ? "μα + kx" : "μ(α + kx)";
    return lambda > 0.3 ? [`${written} = ${lambda.toFixed(2)} is above 0.3: use the exponential form`] : [];
  },
  result: { ...q.tendonStress, min: -2500 },
  steps: {
    result: {
      symbol: "σ_p",
      unit: "MPa",
      ...byChoice("wobble", {
        "1/m": "sigma0 * (1 - mu * alpha - k * x)",
        "rad/m": "sigma0 * (1 - mu * (alpha + k * x))",
      }),
    },
  },
  compute: ({ alpha, mu, k, wobble: convention, sigma0, x }) => ({
    result: sigma0 * (1 - exponentOf(convention, mu, alpha, k, x)),
  }),
  unpublished: "The results found in this form are recalled, not read; they are compared as such.",
});
