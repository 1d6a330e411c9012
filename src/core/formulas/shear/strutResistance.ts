import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { cot_alpha, factors, linkStress, strut, strutCompression, strutEquations, strutLimits } from "./choices.ts";

/** 6.2.3: what the struts hold, whatever the links. */
export const strutResistanceEn1992 = stepwise({
  id: "STRUT_RESISTANCE_EN1992_2004",
  family: "shear",
  summary: "Shear force V_Rd,max at which the struts of the web crush, for a chosen cot θ",
  notes: [
    "Highest at cot θ = 1; more links do not raise it. It is checked up to the edge of the support, with the " +
      "whole shear force.",
    "b_w less ducts: WEB_WIDTH_LESS_DUCTS_EN1992_2004. σ_cp is not counted nearer to the edge of the support " +
      "than 0.5 d cot θ (enter 0).",
  ],
  source: { key: "EN1992-1-1:2004", clause: "6.2.3(3), (4) (6.9), (6.14)", basis: "seen", readIn: "CE:2021" },
  params: {
    b_w: as(q.sectionWidth, { symbol: "b_w", text: "smallest width of the web between chords, less ducts", min: 1 }),
    z: as(q.leverArm, { min: 1, text: "lever arm of the internal forces" }),
    f_ck: q.concreteStrength,
    sigma_cp: strutCompression,
    cot_theta: q.cotangent,
    cot_alpha,
    link_stress: linkStress,
    ...factors,
  },
  limits: strutLimits,
  result: as(q.shearForce, { symbol: "V_Rd,max", text: "shear resistance of the struts" }),
  steps: {
    ...strutEquations,
    V: {
      symbol: "V_Rd,max",
      unit: "kN",
      clause: "(6.9), (6.14)",
      equation: "alpha_cw * b_w * z * nu_1 * f_cd * (cot_theta + cot_alpha) / (1 + cot_theta^2)",
    },
  },
  compute: (v) => {
    const { f_cd, nu_1, alpha_cw } = strut(v);
    const V = (alpha_cw * v.b_w * v.z * nu_1 * f_cd * (v.cot_theta + v.cot_alpha)) / (1 + v.cot_theta ** 2);
    return { f_cd, nu_1, alpha_cw, V };
  },
  empirical: "ν_1 is the standard's own fit over the strength in MPa",
});
