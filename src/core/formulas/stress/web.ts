import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

export const webShearStress = formula({
  id: "WEB_SHEAR_STRESS",
  family: "stress",
  summary: "Shear stress of the uncracked section at a height of the web",
  notes: [
    "S is the first moment of the part beyond that height about the centroid, b the width there less what the ducts take.",
    "V is the shear force of the loads less the vertical component of the tendons.",
  ],
  source: mechanics,
  params: {
    S: q.firstMoment,
    I: q.secondMoment,
    b: as(q.widthAtLevel, { text: "width of the web at the height, less ducts", above: 0 }),
    V: q.shear,
  },
  result: q.shearStress,
  equation: "V * S / (I * b)",
  compute: ({ V, S, I, b }) => (V * S) / (I * b),
  unpublished: "Elementary statics; no published result was found.",
});

export const principalTension = formula({
  id: "PRINCIPAL_TENSION",
  family: "stress",
  summary:
    "Principal tension of the concrete from its stress along the member and shear stress; a negative number or 0",
  notes: ["Compression positive, so the principal tension is negative. No stress across the member."],
  source: mechanics,
  params: {
    sigma: as(q.fibreStress, { symbol: "σ_x", text: "concrete stress along the member, compression positive" }),
    tau: q.shearStress,
  },
  result: as(q.fibreStress, { symbol: "σ_1", text: "principal tension, a negative number", max: 0 }),
  equation: "min(sigma / 2 - sqrt((sigma / 2)^2 + tau^2), 0)",
  compute: ({ sigma, tau }) => Math.min(sigma / 2 - Math.hypot(sigma / 2, tau), 0),
  unpublished: "Mohr's circle; no published result was found.",
});

export const temperatureCamber = formula({
  id: "TEMPERATURE_CAMBER",
  family: "stress",
  summary: "Camber at midspan of a simply supported member from a linear temperature difference, upward positive",
  notes: [
    "A linear difference bends a statically determinate member without any stress. What deviates from the " +
      "straight line stresses the section against itself and wants an analysis of its own.",
  ],
  source: mechanics,
  params: {
    L: q.span,
    h: q.sectionHeight,
    alpha_T: as(q.expansionCoefficient, { symbol: "α_T" }),
    dT: q.temperatureDifference,
  },
  result: q.camber,
  empirical: "temperatures are read as plain numbers",
  equation: "alpha_T * dT * L^2 / (8 * h)",
  compute: ({ alpha_T, dT, h, L }) => (alpha_T * dT * L * L) / (8 * h),
  unpublished: "Constant curvature; no published result was found.",
});
