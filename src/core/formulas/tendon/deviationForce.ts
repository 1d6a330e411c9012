import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

export const deviationForce = stepwise({
  id: "DEVIATION_FORCE",
  family: "tendon",
  summary: "Force of a tendon on a deviator over which it is pulled: the resultant of the forces on both sides",
  notes: [
    "For a whole turn about a deviator, not only a small one. The force behind the deviator is less by " +
      "friction, so the resultant leans towards the jack.",
    "μ = 0: without friction, 2 P sin(θ/2) along the bisector of the angle.",
  ],
  source: mechanics,
  params: {
    theta: as(q.deviatorAngle, { text: "angle in space by which the deviator turns the tendon" }),
    mu: as(q.frictionCoefficient, { text: "friction coefficient between tendon and deviator" }),
    P_1: as(q.prestressForce, { symbol: "P_1", text: "force of the tendon on the jack's side" }),
  },
  result: q.deviatorForce,
  steps: {
    P_2: { symbol: "P_2", unit: "kN", text: "force behind the deviator", equation: "P_1 * exp(-mu * theta)" },
    F: { symbol: "F", unit: "kN", equation: "sqrt((P_1 - P_2)^2 + 4 * P_1 * P_2 * sin(theta / 2)^2)" },
  },
  compute: ({ theta, mu, P_1 }) => {
    const P_2 = P_1 * Math.exp(-mu * theta);
    return { P_2, F: Math.hypot(P_1 - P_2, 2 * Math.sqrt(P_1 * P_2) * Math.sin(theta / 2)) };
  },
  unpublished: "Equilibrium of two forces; no published number found.",
});
