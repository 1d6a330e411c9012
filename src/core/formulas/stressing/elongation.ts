import { cautions } from "../../cautions.ts";
import { stepwise, type Formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { afterFriction, frictionLaws } from "../drawIn/general.ts";
import { controlPoints, jackingEnd } from "../tendon/controlPoints.ts";
import { integrate } from "../tendon/integrate.ts";
import { fromEnd, left, profile, slopeAt, type Profile } from "../tendon/profile.ts";

const uniform = frictionLaws.map((law) =>
  stepwise({
    id: `ELONGATION_UNIFORM${law.suffix}`,
    family: "stressing",
    summary: `Elongation at the jack of a tendon of uniform curvature, exact mean stress; ${law.says}`,
    notes: ["Before draw-in. Angle over the whole length.", cautions.stressing],
    source: law.source,
    params: { sigma0: q.jackingStress, mu: q.frictionCoefficient, alpha: as(q.angleChange, { text: "angle change over the whole length" }), k: law.k, L: q.tendonLength, E_p: q.tendonModulus },
    result: q.elongation,
    steps: {
      lambda: { symbol: "λ", unit: "–", text: "exponent of friction over the whole length", equation: law.suffix ? "mu * (alpha + k * L)" : "mu * alpha + k * L" },
      sigma_m: { symbol: "σ_p,m", unit: "MPa", text: "mean stress, the same as σ_p0 (1 − exp(−λ))/λ but exact for small λ too", equation: "lambda == 0 ? sigma0 : sigma0 * exp(-lambda / 2) * sinh(lambda / 2) / (lambda / 2)" },
      elongation: { symbol: "Δl", unit: "mm", equation: "sigma_m * L / E_p" },
    },
    compute: ({ sigma0, mu, alpha, k, L, E_p }) => {
      const lambda = law.exponent(mu, alpha, k, L);
      const sigma_m = lambda === 0 ? sigma0 : (sigma0 * Math.exp(-lambda / 2) * Math.sinh(lambda / 2)) / (lambda / 2);
      return { lambda, sigma_m, elongation: (sigma_m * L) / E_p };
    },
    unpublished: "The one published elongation found takes the arithmetic mean of the end stresses, which is 5 % more in its case; tests compare this with the integral of the friction law.",
  }),
);

function along(p: Profile): (s: number) => number {
  return (s) => Math.hypot(1, slopeAt(p, left(p) + s));
}

const ofProfile = frictionLaws.map((law) =>
  stepwise({
    id: `TENDON_ELONGATION${law.suffix}`,
    family: "stressing",
    summary: `Elongation at the jack of a tendon of any profile, before draw-in; ${law.says}`,
    notes: ["Stress by friction measured along the span, strain summed along the true curve of the tendon. Strands' slack and the length in the jack are not counted.", cautions.stressing],
    source: law.source,
    params: { points: controlPoints, end: jackingEnd, sigma0: q.jackingStress, mu: q.frictionCoefficient, k: law.k, E_p: q.tendonModulus },
    result: q.elongation,
    steps: { elongation: { symbol: "Δl", unit: "mm", governing: `\\Delta l = \\int_0^L \\frac{\\sigma(s)}{E_p}\\sqrt{1+e'^2}\\,ds,\\quad \\sigma(s) = \\sigma_{p0}\\,e^{-(${law.tex})}` } },
    compute: (v) => {
      const tendon = afterFriction(v, law);
      const stretch = along(fromEnd(profile(v.points), v.end));
      return { elongation: integrate((s) => tendon.stress(s) * stretch(s), 0, tendon.length, tendon.breaks) / v.E_p };
    },
    /** Simpson's rule on many pieces instead of Gauss points. */
    proof: (v, { elongation }) => {
      const tendon = afterFriction(v, law);
      const stretch = along(fromEnd(profile(v.points), v.end));
      let sum = 0;
      for (let i = 0; i + 1 < tendon.breaks.length; i++) {
        const [a, b] = [tendon.breaks[i]!, tendon.breaks[i + 1]!];
        // Just inside the ends, where a kink would count for both sides.
        const f = (s: number): number => {
          const inside = Math.min(Math.max(s, a + 1e-12 * (b - a)), b - 1e-12 * (b - a));
          return tendon.stress(inside) * stretch(inside);
        };
        const n = 512;
        const h = (b - a) / n;
        for (let j = 0; j < n; j += 2) sum += ((f(a + j * h) + 4 * f(a + (j + 1) * h) + f(a + (j + 2) * h)) * h) / 3;
      }
      return elongation / (sum / v.E_p) - 1;
    },
    unpublished: "Integration of the friction law along the profile; tests compare it with the closed form for uniform curvature.",
  }) as unknown as Formula,
);

export const stressingFormulas = [...uniform, ...ofProfile];
