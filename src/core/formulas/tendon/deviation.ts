import { formula, stepwise, type Formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

const theta = as(q.deviatorAngle, { text: "angle in space by which the deviator turns the tendon" });
const none = "Equilibrium of two forces; no published number found.";

export const deviationForce = formula({
  id: "DEVIATION_FORCE",
  family: "tendon",
  summary: "Force of a tendon on a deviator, without friction: the resultant, along the bisector of the angle",
  notes: ["For a whole turn about a deviator, not only a small one: 2 P sin(θ/2)."],
  source: mechanics,
  params: { P: as(q.prestressForce, { text: "force of the tendon on both sides" }), theta },
  result: q.deviatorForce,
  equation: "2 * P * sin(theta / 2)",
  compute: ({ P, theta: t }) => 2 * P * Math.sin(t / 2),
  unpublished: none,
});

export const deviationForceFriction = stepwise({
  id: "DEVIATION_FORCE_FRICTION",
  family: "tendon",
  summary: "Force of a tendon on a deviator over which it is pulled: the resultant of both forces",
  notes: ["The force behind the deviator is less by friction, so the resultant leans towards the jack."],
  source: mechanics,
  params: {
    P_1: as(q.prestressForce, { symbol: "P_1", text: "force of the tendon on the jack's side" }),
    mu: as(q.frictionCoefficient, { text: "friction coefficient between tendon and deviator" }),
    theta,
  },
  result: q.deviatorForce,
  steps: {
    P_2: { symbol: "P_2", unit: "kN", text: "force behind the deviator", equation: "P_1 * exp(-mu * theta)" },
    F: { symbol: "F", unit: "kN", equation: "sqrt((P_1 - P_2)^2 + 4 * P_1 * P_2 * sin(theta / 2)^2)" },
  },
  compute: ({ P_1, mu, theta: t }) => {
    const P_2 = P_1 * Math.exp(-mu * t);
    return { P_2, F: Math.hypot(P_1 - P_2, 2 * Math.sqrt(P_1 * P_2) * Math.sin(t / 2)) };
  },
  unpublished: none,
});

const direction = {
  P_1: as(q.prestressForce, { symbol: "P_1", text: "force of the tendon left of the deviator" }),
  P_2: as(q.prestressForce, { symbol: "P_2", text: "force of the tendon right of the deviator" }),
  beta_1: as(q.directionAngle, {
    symbol: "β_1",
    text: "inclination left of the deviator, positive where the tendon goes down to the right",
  }),
  beta_2: as(q.directionAngle, {
    symbol: "β_2",
    text: "inclination right of the deviator, positive where the tendon goes down to the right",
  }),
};
const plan = {
  psi_1: as(q.directionAngle, {
    symbol: "ψ_1",
    text: "direction in plan left of the deviator, positive to the left of the span seen along x",
  }),
  psi_2: as(q.directionAngle, {
    symbol: "ψ_2",
    text: "direction in plan right of the deviator, positive to the left of the span seen along x",
  }),
};
const vector =
  "One of three components of the force of the tendon on the deviator: P_2 along its direction to the right and P_1 back along its direction from the left.";

export const deviationForceVertical = formula({
  id: "DEVIATION_FORCE_VERTICAL",
  family: "tendon",
  summary: "Vertical force of a tendon on a deviator from both forces and inclinations; upward on the member positive",
  notes: [vector],
  source: mechanics,
  params: direction,
  result: q.deviatorForce,
  equation: "P_1 * sin(beta_1) - P_2 * sin(beta_2)",
  compute: ({ P_1, P_2, beta_1, beta_2 }) => P_1 * Math.sin(beta_1) - P_2 * Math.sin(beta_2),
  unpublished: none,
});

export const deviationForceAlong = formula({
  id: "DEVIATION_FORCE_LONGITUDINAL",
  family: "tendon",
  summary: "Force of a tendon on a deviator along the span; to the right positive",
  notes: [vector],
  source: mechanics,
  params: { ...direction, ...plan },
  result: q.deviatorForce,
  equation: "P_2 * cos(beta_2) * cos(psi_2) - P_1 * cos(beta_1) * cos(psi_1)",
  compute: ({ P_1, P_2, beta_1, beta_2, psi_1, psi_2 }) =>
    P_2 * Math.cos(beta_2) * Math.cos(psi_2) - P_1 * Math.cos(beta_1) * Math.cos(psi_1),
  unpublished: none,
});

export const deviationForceAcross = formula({
  id: "DEVIATION_FORCE_TRANSVERSE",
  family: "tendon",
  summary: "Force of a tendon on a deviator across the span in plan; to the left, seen along x, positive",
  notes: [vector],
  source: mechanics,
  params: { ...direction, ...plan },
  result: q.deviatorForce,
  equation: "P_2 * cos(beta_2) * sin(psi_2) - P_1 * cos(beta_1) * sin(psi_1)",
  compute: ({ P_1, P_2, beta_1, beta_2, psi_1, psi_2 }) =>
    P_2 * Math.cos(beta_2) * Math.sin(psi_2) - P_1 * Math.cos(beta_1) * Math.sin(psi_1),
  unpublished: none,
});

export const deviationFormulas: readonly Formula[] = [
  deviationForce,
  deviationForceFriction,
  deviationForceVertical,
  deviationForceAlong,
  deviationForceAcross,
] as unknown as readonly Formula[];
