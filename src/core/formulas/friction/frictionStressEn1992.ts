import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Friction along a post-tensioned tendon with the wobble as an unintended angle per metre, inside μ. */
export const frictionStressEn1992 = formula({
  id: "FRICTION_STRESS_EN1992_2004",
  family: "friction",
  summary: "Tendon stress left at x after friction; wobble k in rad/m, inside μ",
  source: { key: "EN1992-1-1:2004", clause: "5.10.5.2 (5.45)", basis: "seen", readIn: "CE:2021" },
  params: {
    sigma0: q.jackingStress,
    mu: q.frictionCoefficient,
    theta: as(q.angleChange, { symbol: "θ" }),
    k: as(q.wobbleAngle, { typical: [0.005, 0.01] }),
    x: q.distanceFromJack,
  },
  result: q.tendonStress,
  equation: "sigma0 * exp(-mu * (theta + k * x))",
  compute: ({ sigma0, mu, theta, k, x }) => sigma0 * Math.exp(-mu * (theta + k * x)),
});
