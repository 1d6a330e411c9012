import { quantities } from "./define.ts";

/** Tendons: geometry, force and friction. Tendon stress and force: tension positive. Eccentricity: positive below the centroid. */
export const tendon = quantities({
  jackingStress: { symbol: "σ_p0", unit: "MPa", text: "tendon stress at the jack", above: 0, max: 2500, typical: [500, 1600] },
  tendonStress: { symbol: "σ_p", unit: "MPa", text: "tendon stress, tension positive", min: 0, max: 2500 },
  frictionCoefficient: { symbol: "μ", unit: "1/rad", text: "friction coefficient between tendon and duct", min: 0, max: 1, typical: [0.05, 0.35] },
  angleChange: { symbol: "α", unit: "rad", text: "sum of absolute angle changes from the jack to x", min: 0, typical: [0, 2] },
  wobblePerLength: { symbol: "k", unit: "1/m", text: "wobble loss per metre, taken outside μ: not an angle per metre", min: 0, max: 0.05, typical: [0, 0.01] },
  wobbleAngle: { symbol: "k", unit: "rad/m", text: "unintended angle per metre, multiplied by μ", min: 0, max: 0.1, typical: [0, 0.02] },
  distanceFromJack: { symbol: "x", unit: "m", text: "distance along the tendon from the jack", min: 0, max: 1000 },
});
