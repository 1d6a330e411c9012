import { quantities } from "./define.ts";

/** Limits of cracking, of stressing in steps and of anchorage by bond. */
export const limitQuantities = quantities({
  crackWidthLimit: { symbol: "w_max", unit: "mm", text: "greatest crack width allowed", above: 0, max: 1 },
  required: { symbol: "req.", unit: "–", text: "1 where it is required, 0 where not", min: 0, max: 1, whole: true },
  oppositeStress: { symbol: "σ_far", unit: "MPa", text: "stress of the opposite fibre under the combination, compression positive", min: 0, max: 150 },
  tendonFromFibre: { symbol: "a", unit: "mm", text: "distance of the nearest part of tendon or duct from the tensioned fibre", min: 0, max: 5000, typical: [20, 400] },
  decompressionCover: { symbol: "d_dec", unit: "mm", text: "compressed concrete asked for round the tendon; nationally determined, 7.3.1(5) recommends 25 mm", min: 0, max: 500, typical: [25, 100], default: 25 },
  forceShare: { symbol: "P/P_full", unit: "–", text: "part of the full prestressing force of a tendon", min: 0, max: 1 },
  fullStressingStrength: { symbol: "f_cm,full", unit: "MPa", text: "mean cylinder strength that the tendon's approval asks for full stressing", sort: "mean cylinder strength at age", above: 0, max: 120, typical: [15, 60] },
  ultimateTension: { symbol: "σ_ct", unit: "MPa", text: "greatest tension of the concrete under the ultimate loads, a positive number", min: 0, max: 50 },
  bondedDistance: { symbol: "x", unit: "mm", text: "distance from where the bond of the tendon begins", min: 0, max: 200000 },
  leverArm: { symbol: "z", unit: "mm", text: "lever arm of the internal forces", above: 0, max: 10000 },
  shearForce: { symbol: "V_Ed", unit: "kN", text: "design shear force, taken positive", min: 0, max: 1e6 },
  cotangent: { symbol: "cot θ", unit: "–", text: "cotangent of the slope of the struts; nationally determined, 6.2.3(2) recommends 1 to 2.5", min: 0.5, max: 3, valid: { range: [1, 2.5], where: "EN 1992-1-1:2004 6.2.3(2), recommended" } },
});
