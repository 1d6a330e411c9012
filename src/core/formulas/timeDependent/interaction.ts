import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** What the denominator of EN 1992-1-1:2004 (5.46) needs besides the stresses. */
export const sectionParams = {
  E_p: q.tendonModulus,
  E_cm: q.concreteModulus,
  phi: q.creepCoefficient,
  A_p: q.tendonArea,
  A_c: as(q.area, { symbol: "A_c", text: "area of the concrete section" }),
  I_c: as(q.secondMoment, { symbol: "I_c", text: "second moment of area of the concrete section" }),
  z_cp: as(q.eccentricity, {
    symbol: "z_cp",
    text: "distance between the centroids of the concrete section and of the tendons",
  }),
} as const;

type SectionValues = { readonly [K in keyof typeof sectionParams]: number };

export const shrinkageStep = {
  symbol: "ε_cs E_p",
  unit: "MPa",
  text: "free part of shrinkage",
  clause: "(5.46)",
  equation: "eps_cs * E_p",
} as const;
export const relaxationStep = {
  symbol: "0.8 Δσ_pr",
  unit: "MPa",
  text: "free part of relaxation",
  clause: "(5.46)",
  equation: "0.8 * dsigma_pr",
} as const;
export const creepStep = {
  symbol: "(E_p/E_cm) φ σ_c,QP",
  unit: "MPa",
  text: "free part of creep",
  clause: "(5.46)",
  equation: "E_p / E_cm * phi * sigma_cQP",
} as const;

/** The denominator: how far the concrete's own stiffness restrains the loss. */
export const restraintStep = {
  symbol: "D",
  unit: "–",
  text: "denominator: restraint by the section",
  clause: "(5.46)",
  equation: "1 + E_p / E_cm * A_p / A_c * (1 + A_c / I_c * z_cp^2) * (1 + 0.8 * phi)",
} as const;

export function restraint({ E_p, E_cm, phi, A_p, A_c, I_c, z_cp }: SectionValues): number {
  return 1 + (E_p / E_cm) * (A_p / A_c) * (1 + (A_c / I_c) * z_cp ** 2) * (1 + 0.8 * phi);
}

export const source = { key: "EN1992-1-1:2004", clause: "5.10.6(2) (5.46)", basis: "seen", readIn: "CE:2021" } as const;

export const modulusNote = "E_cm is the 28-day secant modulus of Table 3.1.";
export const partNote = "The parts from shrinkage, relaxation and creep add up to TIME_DEPENDENT_LOSS_EN1992_2004.";
export const unpublished =
  "no published result with all inputs was found; compared in the tests with an independent balance of section and tendon";
