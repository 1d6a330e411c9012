import { cautions } from "../../cautions.ts";
import { stepwise, type Formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { pulledAt } from "../drawIn/pulled.ts";
import { frictionLaws } from "../friction/laws.ts";
import { ways } from "../friction/ways.ts";
import { jackingEnd } from "../tendon/controlPoints.ts";
import { bySimpson, integrate } from "../tendon/integrate.ts";
import { stretched } from "./stretched.ts";

const uniform = frictionLaws.map((law) =>
  stepwise({
    id: `ELONGATION_UNIFORM${law.suffix}`,
    family: "stressing",
    summary: `Elongation at the jack of a tendon of uniform curvature, exact mean stress; ${law.says}`,
    notes: ["Before draw-in. Angle over the whole length.", cautions.stressing],
    source: law.follows,
    params: {
      sigma0: q.jackingStress,
      mu: q.frictionCoefficient,
      alpha: as(q.angleChange, { text: "angle change over the whole length" }),
      k: law.k,
      L: q.tendonLength,
      E_p: q.tendonModulus,
    },
    result: q.elongation,
    steps: {
      lambda: {
        symbol: "λ",
        unit: "–",
        text: "exponent of friction over the whole length",
        equation: law.suffix ? "mu * (alpha + k * L)" : "mu * alpha + k * L",
      },
      sigma_m: {
        symbol: "σ_p,m",
        unit: "MPa",
        text: "mean stress, the same as σ_p0 (1 − exp(−λ))/λ but exact for small λ too",
        equation: "lambda == 0 ? sigma0 : sigma0 * exp(-lambda / 2) * sinh(lambda / 2) / (lambda / 2)",
      },
      elongation: { symbol: "Δl", unit: "mm", equation: "sigma_m * L / E_p" },
    },
    compute: ({ sigma0, mu, alpha, k, L, E_p }) => {
      const lambda = law.exponent(mu, alpha, k, L);
      const sigma_m = lambda === 0 ? sigma0 : (sigma0 * Math.exp(-lambda / 2) * Math.sinh(lambda / 2)) / (lambda / 2);
      return { lambda, sigma_m, elongation: (sigma_m * L) / E_p };
    },
    unpublished:
      "The one published elongation found takes the arithmetic mean of the end stresses, which is 5 % more in its case; tests compare this with the integral of the friction law.",
  }),
);

const ofTendon = ways.map(
  (way) =>
    stepwise({
      id: `TENDON_ELONGATION${way.suffix}`,
      family: "stressing",
      summary: `Elongation at the jack of a tendon jacked from one end, before draw-in; ${way.says}`,
      notes: [
        ...way.notes,
        "Strain summed along the true curve of the tendon. Strands' slack and the length in the jack are not counted.",
        cautions.stressing,
      ],
      source: way.source,
      params: { ...way.tendon, end: jackingEnd, sigma0: q.jackingStress, ...way.friction, E_p: q.tendonModulus },
      result: q.elongation,
      steps: {
        elongation: {
          symbol: "Δl",
          unit: "mm",
          governing: `\\Delta l = \\int_0^L \\frac{\\sigma(s)}{E_p}\\,dl,\\quad \\sigma(s) = \\sigma_{p0}\\,e^{-(${way.tex})}`,
        },
      },
      compute: (v) => ({ elongation: stretched(pulledAt(way, v, v.end, v.sigma0), integrate) / v.E_p }),
      proof: (v, { elongation }) => elongation / (stretched(pulledAt(way, v, v.end, v.sigma0), bySimpson) / v.E_p) - 1,
      unpublished:
        "Integration of the friction law along the tendon; tests compare it with the closed form for uniform curvature.",
    }) as unknown as Formula,
);

export const elongationFormulas = [...uniform, ...ofTendon];
