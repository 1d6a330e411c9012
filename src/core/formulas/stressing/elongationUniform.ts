import { cautions } from "../../cautions.ts";
import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { conventions, exponentEquation, exponentOf, followsFriction, wobble } from "../friction/wobble.ts";
import { mechanics } from "../mechanics.ts";

export const elongationUniform = stepwise({
  id: "ELONGATION_UNIFORM",
  family: "stressing",
  summary: "Elongation at the jack of a tendon of uniform curvature, exact mean stress",
  notes: [
    "Before draw-in. Angle over the whole length.",
    "The closed form, for a check by hand; a function of its own beside TENDON_ELONGATION, because it takes no path.",
    conventions,
    cautions.stressing,
  ],
  source: mechanics,
  sourceFollows: followsFriction,
  params: {
    alpha: as(q.angleChange, { text: "angle change over the whole length" }),
    L: q.tendonLength,
    mu: q.frictionCoefficient,
    k: q.wobbleCoefficient,
    wobble,
    E_p: q.tendonModulus,
    sigma0: q.jackingStress,
  },
  result: q.elongation,
  steps: {
    lambda: {
      symbol: "λ",
      unit: "–",
      text: "exponent of friction over the whole length",
      ...exponentEquation("L"),
    },
    sigma_m: {
      symbol: "σ_p,m",
      unit: "MPa",
      text: "mean stress, the same as σ_p0 (1 − exp(−λ))/λ but exact for small λ too",
      equation: "lambda == 0 ? sigma0 : sigma0 * exp(-lambda / 2) * sinh(lambda / 2) / (lambda / 2)",
    },
    elongation: { symbol: "Δl", unit: "mm", equation: "sigma_m * L / E_p" },
  },
  compute: ({ alpha, L, mu, k, wobble: convention, E_p, sigma0 }) => {
    const lambda = exponentOf(convention, mu, alpha, k, L);
    const sigma_m = lambda === 0 ? sigma0 : (sigma0 * Math.exp(-lambda / 2) * Math.sinh(lambda / 2)) / (lambda / 2);
    return { lambda, sigma_m, elongation: (sigma_m * L) / E_p };
  },
});
