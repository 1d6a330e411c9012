import { quantities } from "./define.ts";

/** Which forces and eccentricities a section can bear. Force: tension positive. Eccentricity: positive below the centroid. */
export const region = quantities({
  regionForce: { symbol: "P", unit: "kN", text: "prestressing force on which the factors of all conditions act", above: 0, max: 1e6, typical: [50, 20000] },
  forceFactor: { symbol: "r", unit: "–", text: "factor of the force in this condition: what is left of P, or its characteristic value over it", above: 0, max: 3, typical: [0.5, 1.3] },
  regionEccentricity: { symbol: "e", unit: "mm", text: "eccentricity of the force, positive below the centroid", sort: "eccentricity", min: -10000, max: 10000, typical: [-1000, 3000] },
  eccentricityBound: { symbol: "e", unit: "mm", text: "end of the room for the tendon, positive below the centroid", sort: "eccentricity", min: -10000, max: 10000, typical: [-2000, 3000] },
  edgeDistance: { symbol: "c_e", unit: "mm", text: "least distance of the tendons' common centroid from an edge", min: 0, max: 5000, typical: [30, 500] },
  reciprocalForce: { symbol: "1/P", unit: "1/MN", text: "reciprocal of the prestressing force", above: 0 },
  vertexNumber: { symbol: "k", unit: "–", text: "number of the vertex", min: 1, max: 1000, whole: true },
  vertexCount: { symbol: "n", unit: "–", text: "number of vertices", min: 3, max: 10000, whole: true },
  conditionNumber: { symbol: "i", unit: "–", text: "number of the condition: the row of the range", min: 1, max: 10000, whole: true },
  stressMargin: { symbol: "Δσ", unit: "MPa", text: "distance of the stress from its limit, negative where it is passed", min: -10000, max: 10000 },
});
