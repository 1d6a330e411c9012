import { quantities } from "./define.ts";

/** Tendons: geometry, force and friction. Tendon stress and force: tension positive. Eccentricity: positive below the centroid. */
export const tendon = quantities({
  jackingStress: { symbol: "σ_p0", unit: "MPa", text: "tendon stress at the jack", above: 0, max: 2500, typical: [500, 1600] },
  tendonStress: { symbol: "σ_p", unit: "MPa", text: "tendon stress, tension positive", min: 0, max: 2500 },
  tendonArea: { symbol: "A_p", unit: "mm²", text: "area of the prestressing steel", above: 0, max: 1e6 },
  prestressForce: { symbol: "P", unit: "kN", text: "prestressing force", min: 0, max: 1e6 },
  eccentricity: { symbol: "e", unit: "mm", text: "eccentricity of the tendon, positive below the centroid", min: -10000, max: 10000 },
  frictionCoefficient: { symbol: "μ", unit: "1/rad", text: "friction coefficient between tendon and duct", min: 0, max: 1, typical: [0.05, 0.35] },
  angleChange: { symbol: "α", unit: "rad", text: "sum of absolute angle changes from the jack to x", min: 0, max: 100, typical: [0, 2] },
  angle: { symbol: "α", unit: "rad", text: "angle change", min: 0, max: 100 },
  tendonSlope: { symbol: "de/dx", unit: "–", text: "slope of the tendon, positive where it goes down to the right", min: -10, max: 10 },
  wobblePerLength: { symbol: "k", unit: "1/m", text: "wobble loss per metre, taken outside μ: not an angle per metre", sort: "wobble outside μ", min: 0, max: 0.05, typical: [0, 0.01] },
  wobbleAngle: { symbol: "k", unit: "rad/m", text: "unintended angle per metre, multiplied by μ", sort: "wobble angle", min: 0, max: 0.1, typical: [0.005, 0.01] },
  distanceFromJack: { symbol: "x", unit: "m", text: "distance along the span from the jack", min: 0, max: 1000 },
  controlX: { symbol: "x", unit: "m", text: "distance from the left end of the tendon", min: 0, max: 1000 },
  tendonLength: { symbol: "L", unit: "m", text: "length of the tendon", above: 0, max: 1000, typical: [3, 200] },
  radius: { symbol: "R", unit: "m", text: "radius of curvature", above: 0, max: 1e9 },
  drawIn: { symbol: "Δ", unit: "mm", text: "draw-in of the anchorage when the jack lets go", min: 0, max: 50, typical: [0, 10] },
  stressGradient: { symbol: "p", unit: "MPa/m", text: "fall of the tendon stress along the tendon by friction", min: 0, max: 1000, typical: [0.1, 50] },
  elongation: { symbol: "Δl", unit: "mm", text: "elongation of the tendon", min: -100, max: 10000 },
  strandCount: { symbol: "n_s", unit: "–", text: "number of strands of the tendon", min: 1, max: 200, whole: true },
  tendonCount: { symbol: "n", unit: "–", text: "number of equal tendons stressed one after another", min: 1, max: 1000, whole: true },
  stressingOrder: { symbol: "no.", unit: "–", text: "place in the order of stressing", min: 1, max: 1000, whole: true },
  combinationFactor: { symbol: "ψ", unit: "–", text: "combination factor of the variable load", min: 0, max: 1 },
  dynamicFactor: { symbol: "γ", unit: "–", text: "factor on self-weight while lifting", min: 0.5, max: 3, typical: [1, 1.5] },
  utilisation: { symbol: "u", unit: "–", text: "utilisation, 1 where the limit is just reached", min: 0, max: 1e9 },
});
