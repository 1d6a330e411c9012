import { quantities } from "./define.ts";

/** The member along its span. Moment: sagging positive. `x` runs from the left end. */
export const member = quantities({
  span: { symbol: "L", unit: "m", text: "span between the supports", above: 0, max: 200, typical: [4, 60] },
  station: { symbol: "x", unit: "m", text: "distance from the left end", min: 0, max: 200 },
  overhang: { symbol: "a", unit: "m", text: "distance of a lifting or storage support from the end of the member", min: 0, max: 100 },
  lineLoad: { symbol: "w", unit: "kN/m", text: "uniform load, downward positive", min: -1000, max: 1000, typical: [0, 200] },
  unitWeight: { symbol: "γ_c", unit: "kN/m³", text: "unit weight of the member", above: 0, max: 40, typical: [23, 26] },
  moment: { symbol: "M", unit: "kN·m", text: "bending moment, sagging positive", min: -1e6, max: 1e6 },
  elasticModulusConcrete: { symbol: "E_c", unit: "GPa", text: "modulus of elasticity of the concrete", above: 0, max: 80, typical: [15, 50] },
  elasticLoss: { symbol: "Δσ_el", unit: "MPa", text: "loss of tendon stress by elastic shortening, loss positive", min: -2500, max: 2500 },
  fibreStress: { symbol: "σ_c", unit: "MPa", text: "concrete stress, compression positive", min: -1000, max: 1000 },
  upperFactor: { symbol: "r_sup", unit: "–", text: "factor for the upper characteristic prestress", min: 1, max: 1.5 },
  lowerFactor: { symbol: "r_inf", unit: "–", text: "factor for the lower characteristic prestress", min: 0.5, max: 1 },
  place: { symbol: "x_i", unit: "m", reads: "m", text: "a place along the span that must be a station", min: 0, max: 1000 },
  placeTolerance: { symbol: "δ", unit: "m", reads: "m", text: "places closer together than this count as one station", min: 0, max: 1 },
  rank: { symbol: "n", unit: "–", text: "number of the station, counted from the left", min: 1, max: 1000, whole: true },
});
