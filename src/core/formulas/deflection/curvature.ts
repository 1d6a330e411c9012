import { formula, stepwise } from "../../formula.ts";
import { as, type Values } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { steelLayers } from "../section/cracked.ts";
import { equilibrium, residual, type CrackedSection } from "../section/crackedState.ts";
import { outline } from "../section/outline.ts";
import { polygon } from "../section/polygon.ts";
import { widthAt } from "../section/around.ts";

const shared = { family: "deflection", source: mechanics } as const;

/** Elastic curvature under moment and prestress. */
export const curvature = formula({
  ...shared,
  id: "CURVATURE",
  summary: "Curvature of an uncracked section under moment and prestress, sagging positive",
  notes: [
    "e from the centroid of the section whose I it is. Modulus of the age of the load; with creep an effective one.",
  ],
  params: { I: q.secondMoment, e: q.eccentricity, E_c: q.elasticModulusConcrete, P: q.prestressForce, M: q.moment },
  result: q.bendingCurvature,
  equation: "(M - P * e) / (E_c * I)",
  compute: ({ I, e, E_c, P, M }) => (M - P * e) / (E_c * I),
});

/** Curvature from the stresses of both fibres. */
export const curvatureFromStresses = formula({
  ...shared,
  id: "CURVATURE_FROM_STRESSES",
  summary: "Curvature from the stresses of the top and bottom fibre, sagging positive",
  notes: ["Plane section, the same modulus over the depth. Stresses: compression positive."],
  params: {
    h: q.sectionHeight,
    E_c: q.elasticModulusConcrete,
    sigma_t: as(q.fibreStress, { symbol: "σ_t", text: "stress of the top fibre, compression positive" }),
    sigma_b: as(q.fibreStress, { symbol: "σ_b", text: "stress of the bottom fibre, compression positive" }),
  },
  result: q.bendingCurvature,
  equation: "(sigma_t - sigma_b) / (E_c * h)",
  compute: ({ h, E_c, sigma_t, sigma_b }) => (sigma_t - sigma_b) / (E_c * h),
  unpublished: "Difference of two strains over the depth; tests compare it with (M − P·e)/(E·I).",
});

/** Strain of the concrete under a stress. */
export const concreteStrain = formula({
  ...shared,
  id: "CONCRETE_STRAIN",
  summary: "Strain of concrete under a stress, shortening positive",
  notes: ["A stress that lasts: with an effective modulus, or with the stress times 1 + φ."],
  params: { E_c: q.elasticModulusConcrete, sigma: q.fibreStress },
  result: q.meanStrain,
  equation: "sigma / E_c",
  compute: ({ E_c, sigma }) => sigma / E_c,
  unpublished: "One quotient; nothing to compare with.",
});

const crackedParams = {
  outline,
  layers: steelLayers,
  E_c: as(q.elasticModulusConcrete, { text: "modulus of the concrete, with creep an effective one", max: 60 }),
  N: q.axialForce,
  M: q.moment,
};
function sectionOf({ outline: points, layers, E_c }: Values<typeof crackedParams>): CrackedSection {
  return { points, layers, E_c, y_0: polygon(points, "outline", "the outline").y };
}

/** Curvature where the concrete takes no tension. */
export const crackedCurvature = stepwise({
  ...shared,
  id: "CRACKED_CURVATURE",
  summary: "Curvature of a cracked section with bonded tendons and bars, sagging positive",
  notes: [
    "Plane sections; concrete takes no tension. σ_0 of a tendon is its stress where the concrete beside it has NO " +
      "STRAIN: the stress after losses plus E_p/E_c times the concrete stress there, with the E_c given here.",
    "A section that stays compressed comes out uncracked.",
  ],
  params: crackedParams,
  result: q.bendingCurvature,
  steps: {
    kappa: {
      symbol: "κ_II",
      unit: "1/km",
      governing:
        "N = \\int E_c \\langle\\varepsilon\\rangle\\,dA - \\sum A_i\\sigma_i, \\quad M = \\int E_c " +
        "\\langle\\varepsilon\\rangle\\,y\\,dA - \\sum A_i\\sigma_i y_i, \\quad \\varepsilon = \\varepsilon_0 + \\kappa y",
      text: "y upward from the centroid of the outline",
    },
  },
  compute: (v) => ({ kappa: equilibrium(sectionOf(v), v).bend }),
  proof: (v, { kappa }) => {
    const section = sectionOf(v);
    const strain = equilibrium(section, v);
    const left = residual(section, v, strain, (y) => widthAt(section.points, y));
    return left + (kappa - strain.bend) / (1e-9 + Math.abs(kappa));
  },
  unpublished:
    "The published cracked section gives depth and stresses, not its curvature; tests take the curvature from them.",
});
