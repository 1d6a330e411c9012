import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** What the factors of EN 1992-1-1:2004 are by default. */
export const factors = {
  alpha_cc: as(q.longTermFactor, {
    text: "coefficient for long-term effects; nationally determined, 3.1.6(1) recommends 1.0",
    default: 1,
  }),
  gamma_C: as(q.concretePartialFactor, {
    text: "partial factor for concrete; nationally determined, 2.4.2.4(1) recommends 1.5",
    default: 1.5,
  }),
};
export const gamma_S = as(q.steelPartialFactor, {
  text: "partial factor for steel; nationally determined, 2.4.2.4(1) recommends 1.15",
  default: 1.15,
});

export const cot_alpha = as(q.cotangent, {
  symbol: "cot α",
  text: "cotangent of the slope of the links; 0: vertical",
  min: 0,
  max: 1,
  default: 0,
  typical: [0, 1],
  smallest: 0.02,
  valid: { range: [0, 1], where: "EN 1992-1-1:2004 9.2.2(1)" },
});
export const cotLimits = {
  cot_min: as(q.cotangent, {
    symbol: "cot θ_min",
    text: "min. cot θ; nationally determined, 6.2.3(2) recommends 1",
    default: 1,
  }),
  cot_max: as(q.cotangent, {
    symbol: "cot θ_max",
    text: "max. cot θ; nationally determined, 6.2.3(2) recommends 2.5",
    default: 2.5,
  }),
};

export const linkStress = choice({
  key: "linkStress",
  symbol: "link stress",
  text: "design stress of the links",
  default: "FULL",
  values: [
    { value: "FULL", text: "f_ywk/γ_S" },
    { value: "REDUCED", text: "no more than 0.8 f_ywk, with the higher ν_1 of 6.2.3(3)" },
  ],
});

/** 6.2.3(3): strength of the struts between inclined cracks, and how compression along the member raises it. */
export const strutEquations = {
  f_cd: {
    symbol: "f_cd",
    unit: "MPa",
    text: "design compressive strength",
    clause: "3.1.6(1)",
    equation: "alpha_cc * f_ck / gamma_C",
  },
  nu_1: {
    symbol: "ν_1",
    unit: "–",
    text: "reduction for inclined cracks",
    clause: "6.2.3(3)",
    equation:
      'equalText(link_stress, "REDUCED") ? (f_ck <= 60 ? 0.6 : max(0.9 - f_ck / 200, 0.5)) : 0.6 * (1 - f_ck / 250)',
  },
  alpha_cw: {
    symbol: "α_cw",
    unit: "–",
    text: "factor for compression along the member",
    clause: "6.2.3(3)",
    equation:
      "sigma_cp <= 0.25 * f_cd ? 1 + sigma_cp / f_cd : (sigma_cp <= 0.5 * f_cd ? 1.25 : 2.5 * (1 - sigma_cp / f_cd))",
  },
} as const;

interface StrutArguments {
  readonly f_ck: number;
  readonly sigma_cp: number;
  readonly alpha_cc: number;
  readonly gamma_C: number;
  readonly link_stress: string;
}
function reduction({ f_ck, link_stress }: StrutArguments): number {
  if (link_stress === "FULL") return 0.6 * (1 - f_ck / 250);
  return f_ck <= 60 ? 0.6 : Math.max(0.9 - f_ck / 200, 0.5);
}
function compressionFactor(sigma_cp: number, f_cd: number): number {
  if (sigma_cp <= 0.25 * f_cd) return 1 + sigma_cp / f_cd;
  return sigma_cp <= 0.5 * f_cd ? 1.25 : 2.5 * (1 - sigma_cp / f_cd);
}
export function strut(v: StrutArguments): { readonly f_cd: number; readonly nu_1: number; readonly alpha_cw: number } {
  const f_cd = (v.alpha_cc * v.f_ck) / v.gamma_C;
  return { f_cd, nu_1: reduction(v), alpha_cw: compressionFactor(v.sigma_cp, f_cd) };
}

/** Compression of the strut formulas: none below 0, and none that leaves nothing. */
export const strutCompression = as(q.meanCompression, { min: 0, typical: [0, 30] });
export const strutLimits = (v: { readonly f_ck: number; readonly alpha_cc: number; readonly gamma_C: number }) => ({
  sigma_cp: {
    max: (0.99 * v.alpha_cc * v.f_ck) / v.gamma_C,
    because: "0.99 f_cd, near which nothing is left for shear",
  },
});
