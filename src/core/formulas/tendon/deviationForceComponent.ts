import { byChoice, stepwise } from "../../formula.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

const inclination = (symbol: string, side: "left" | "right") =>
  as(q.directionAngle, {
    symbol,
    text: `inclination ${side} of the deviator, positive where the tendon goes down to the right`,
  });
const inPlan = (symbol: string, side: "left" | "right") =>
  as(q.directionAngle, {
    symbol,
    text: `direction in plan ${side} of the deviator, positive to the left of the span seen along x`,
    default: 0,
  });

export const deviationForceComponent = stepwise({
  id: "DEVIATION_FORCE_COMPONENT",
  family: "tendon",
  summary: "Component of the force of a tendon on a deviator, from the forces and directions on both sides",
  notes: [
    "The force of the tendon on the deviator: P_2 along its direction to the right and P_1 back along its " +
      "direction from the left. Vertical: upward on the member positive; longitudinal: to the right; " +
      "transverse: to the left, seen along x.",
    "A function of its own beside DEVIATION_FORCE, because it takes both forces and directions instead of an angle and friction.",
  ],
  source: mechanics,
  params: {
    beta_1: inclination("β_1", "left"),
    beta_2: inclination("β_2", "right"),
    P_1: as(q.prestressForce, { symbol: "P_1", text: "force of the tendon left of the deviator" }),
    P_2: as(q.prestressForce, { symbol: "P_2", text: "force of the tendon right of the deviator" }),
    component: choice({
      key: "forceComponent",
      symbol: "component",
      text: "component of the force",
      values: [
        { value: "VERTICAL", text: "vertical, upward on the member positive" },
        { value: "LONGITUDINAL", text: "along the span, to the right positive" },
        { value: "TRANSVERSE", text: "across the span, to the left seen along x positive" },
      ],
    }),
    psi_1: inPlan("ψ_1", "left"),
    psi_2: inPlan("ψ_2", "right"),
  },
  result: q.deviatorForce,
  steps: {
    F: {
      symbol: "F",
      unit: "kN",
      ...byChoice("component", {
        VERTICAL: "P_1 * sin(beta_1) - P_2 * sin(beta_2)",
        LONGITUDINAL: "P_2 * cos(beta_2) * cos(psi_2) - P_1 * cos(beta_1) * cos(psi_1)",
        TRANSVERSE: "P_2 * cos(beta_2) * sin(psi_2) - P_1 * cos(beta_1) * sin(psi_1)",
      }),
    },
  },
  compute: ({ beta_1, beta_2, P_1, P_2, component, psi_1, psi_2 }) => {
    const [H_1, H_2] = [P_1 * Math.cos(beta_1), P_2 * Math.cos(beta_2)];
    const F = {
      VERTICAL: P_1 * Math.sin(beta_1) - P_2 * Math.sin(beta_2),
      LONGITUDINAL: H_2 * Math.cos(psi_2) - H_1 * Math.cos(psi_1),
      TRANSVERSE: H_2 * Math.sin(psi_2) - H_1 * Math.sin(psi_1),
    };
    return { F: F[component] };
  },
  unpublished: "Equilibrium of two forces; no published number found.",
});
