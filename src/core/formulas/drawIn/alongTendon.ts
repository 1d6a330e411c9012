import { stepwise, type Formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { ways } from "../friction/ways.ts";
import { jackingEnd } from "../tendon/controlPoints.ts";
import { bySimpson, integrate } from "../tendon/integrate.ts";
import { exponentFromBehind, pulledAt } from "./pulled.ts";
import { drawIn, levelError } from "./search.ts";

const x = as(q.controlX, { text: "distance from the left end of the tendon" });
const kink = "At a kink the stress behind it, seen from the jack.";
const rule = "2\\int_0^{l_a} \\left(\\sigma(s) - \\sigma_a\\right) ds = \\Delta\\,E_p";
const none = "The friction law and the area rule put together; each is checked where it stands alone.";

/** What one jack brings to any place of a tendon, before and after draw-in, for every way to describe a tendon. */
export const alongTendon: readonly Formula[] = ways.flatMap((way) => {
  const jack = { ...way.tendon, end: jackingEnd, sigma0: q.jackingStress, ...way.friction };
  const says = `jacked from one end; ${way.says}`;
  return [
    stepwise({
      id: `TENDON_STRESS_FRICTION${way.suffix}`,
      family: "friction",
      summary: `Tendon stress at x after friction, before draw-in; ${says}`,
      notes: [kink, ...way.notes],
      source: way.frictionSource,
      unpublished: none,
      params: { ...jack, x },
      result: q.tendonStress,
      steps: {
        lambda: {
          symbol: "λ",
          unit: "–",
          text: "exponent of friction from the jack to x",
          governing: `\\lambda = ${way.tex}`,
        },
        sigma: { symbol: "σ_p,μ", unit: "MPa", equation: "sigma0 * exp(-lambda)" },
      },
      compute: (v) => {
        const lambda = way.path(v, v.end).exponent(way.distance(v, v.x, v.end));
        return { lambda, sigma: v.sigma0 * Math.exp(-lambda) };
      },
      /** λ seen from the dead end. */
      proof: (v, { sigma }) =>
        sigma / (v.sigma0 * Math.exp(-exponentFromBehind(way, v, v.end, way.distance(v, v.x, v.end)))) - 1,
    }),
    stepwise({
      id: `TENDON_STRESS_DRAW_IN${way.suffix}`,
      family: "drawIn",
      summary: `Tendon stress at x after friction and draw-in; ${says}`,
      notes: [kink, "Draw-in at the jacked end alone.", ...way.notes],
      source: way.source,
      unpublished: none,
      params: { ...jack, slip: q.drawIn, E_p: q.tendonModulus, x },
      result: { ...q.tendonStress, min: -2500 },
      steps: {
        sigma_f: {
          symbol: "σ_p,μ",
          unit: "MPa",
          text: "stress after friction",
          governing: `\\sigma_{p0}\\,e^{-(${way.tex})}`,
        },
        sigma_a: { symbol: "σ_a", unit: "MPa", text: "stress at which the draw-in ends", governing: rule },
        sigma: { symbol: "σ_p", unit: "MPa", equation: "min(sigma_f, 2 * sigma_a - sigma_f)" },
      },
      compute: (v) => {
        const tendon = pulledAt(way, v, v.end, v.sigma0);
        const sigma_f = tendon.stress(way.distance(v, v.x, v.end));
        const sigma_a = drawIn(tendon, v.slip, v.E_p).level;
        return { sigma_f, sigma_a, sigma: Math.min(sigma_f, 2 * sigma_a - sigma_f) };
      },
      proof: (v, { sigma_a, sigma }) => {
        const before = v.sigma0 * Math.exp(-exponentFromBehind(way, v, v.end, way.distance(v, v.x, v.end)));
        return Math.max(
          Math.abs(levelError(pulledAt(way, v, v.end, v.sigma0), sigma_a, v.slip, v.E_p)),
          Math.abs(sigma - Math.min(before, 2 * sigma_a - before)) / v.sigma0,
        );
      },
    }),
    stepwise({
      id: `TENDON_MEAN_STRESS${way.suffix}`,
      family: "drawIn",
      summary: `Mean tendon stress over the length after friction and draw-in; ${says}`,
      notes: ["A draw-in of 0 gives the mean after friction.", ...way.notes],
      source: way.source,
      unpublished: none,
      params: { ...jack, slip: q.drawIn, E_p: q.tendonModulus },
      result: q.tendonStress,
      steps: {
        sigma_m: {
          symbol: "σ_p,m",
          unit: "MPa",
          governing: "\\sigma_{p,m} = \\frac{1}{L}\\int_0^L \\min(\\sigma,\\ 2\\sigma_a - \\sigma)\\,ds",
        },
      },
      compute: (v) => {
        const tendon = pulledAt(way, v, v.end, v.sigma0);
        const { level, length } = drawIn(tendon, v.slip, v.E_p);
        const after = (s: number): number => Math.min(tendon.stress(s), 2 * level - tendon.stress(s));
        return {
          sigma_m:
            integrate(
              after,
              0,
              tendon.length,
              [...tendon.breaks, length].sort((a, b) => a - b),
            ) / tendon.length,
        };
      },
      /** What the draw-in takes is Δ·E_p, wherever it takes it. */
      proof: (v, { sigma_m }) => {
        const { stress, length, breaks } = pulledAt(way, v, v.end, v.sigma0);
        return (sigma_m * length + v.slip * v.E_p) / bySimpson(stress, 0, length, breaks) - 1;
      },
    }),
  ] as unknown as readonly Formula[];
});
