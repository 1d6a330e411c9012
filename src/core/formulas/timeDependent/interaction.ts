import { as, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** What the denominator of EN 1992-1-1:2004 (5.46) needs besides the stresses. */
export const sectionParams = {
  E_p: q.tendonModulus,
  E_cm: q.concreteModulus,
  phi: as(q.creepCoefficient, { text: "creep coefficient from the age at prestressing, linear" }),
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
  symbol: "(E_p/E_cm) Σφ_i Δσ_c,i",
  unit: "MPa",
  text: "free part of creep",
  clause: "(5.46), 3.1.4(2)",
  governing: "\\frac{E_p}{E_{cm}} \\sum_i \\varphi(t,t_i)\\,\\Delta\\sigma_{c,i}",
} as const;

/** Every change of stress creeps from its own age on. */
export const stressChanges = table({
  key: "concreteStressChanges",
  symbol: "φ_i, Δσ_c,i",
  text: "changes of concrete stress at the tendons, each with the creep coefficient of its age: prestress and self-weight first",
  minRows: 1,
  columns: {
    phi_i: as(q.creepCoefficient, { symbol: "φ_i", text: "creep coefficient from the age at the change" }),
    dsigma_c: as(q.concreteStressAtTendon, {
      symbol: "Δσ_c,i",
      text: "change of concrete stress at the tendons, compression positive",
    }),
  },
});

interface Creeping {
  readonly changes: readonly { readonly phi_i: number; readonly dsigma_c: number }[];
  readonly E_p: number;
  readonly E_cm: number;
}

export function freeCreep({ changes, E_p, E_cm }: Creeping): number {
  return (E_p / E_cm) * changes.reduce((sum, { phi_i, dsigma_c }) => sum + phi_i * dsigma_c, 0);
}

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

/**
 * Strains of tendon and concrete, term by term: what the free parts, creep summed backwards, leave once the loss has
 * relieved the concrete.
 */
export function lossMiss(
  v: Creeping & SectionValues,
  otherParts: readonly number[],
  { creepPart, loss }: { readonly creepPart: number; readonly loss: number },
): number {
  const creep = v.changes.map(({ phi_i, dsigma_c }) => (phi_i * (v.E_p * dsigma_c)) / v.E_cm);
  const relieved = loss * v.A_p * (1 / v.A_c + v.z_cp ** 2 / v.I_c) * (v.E_p / v.E_cm) * (1 + 0.8 * v.phi);
  const terms = [...[...creep].reverse(), ...otherParts];
  const scale = 1 + Math.abs(relieved) + terms.reduce((sum, term) => sum + Math.abs(term), 0);
  const balance = terms.reduce((sum, term) => sum + term, 0) - relieved - loss;
  const creepGap = creep.reduceRight((sum, term) => sum + term, 0) - creepPart;
  return Math.max(Math.abs(balance), Math.abs(creepGap)) / scale;
}

export const source = { key: "EN1992-1-1:2004", clause: "5.10.6(2) (5.46)", basis: "seen", readIn: "CE:2021" } as const;

export const creepNotes = [
  "σ_c is at the tendon, from self-weight, initial prestress and other quasi-permanent actions, " +
    "compression positive. A later load that relieves the concrete is a negative change: with the greater " +
    "coefficient of the prestress it would relieve too much.",
  "Above 0.45 f_ck(t_0) φ_i of the prestress is NONLINEAR_CREEP_COEFFICIENT_EN1992_2004. The " +
    "denominator keeps the linear φ of the age at prestressing: what it describes is unloading.",
] as const;
export const modulusNote = "E_cm is the 28-day secant modulus of Table 3.1.";
export const partNote = "The parts from shrinkage, relaxation and creep add up to the whole.";
export const unpublished =
  "no published result with all inputs was found; compared in the tests with an independent balance of section and tendon";
