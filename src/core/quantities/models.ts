import { quantities } from "./define.ts";

/** Concrete mixes and tendon products, as creep and shrinkage models and product tables need them. */
export const models = quantities({
  volumeSurface: { symbol: "V/S", unit: "mm", text: "volume over drying surface of the member: half the notional size", sort: "volume over surface", above: 0, max: 400, typical: [15, 300] },
  slump: { symbol: "s", unit: "mm", text: "slump of the fresh concrete", min: 0, max: 300, typical: [25, 200] },
  finesShare: { symbol: "ψ", unit: "%", text: "fine aggregate over all aggregate, by weight", sort: "share of fine aggregate", min: 0, max: 100, typical: [30, 60] },
  airContent: { symbol: "α", unit: "%", text: "air content of the concrete, by volume", sort: "air content", min: 0, max: 20, typical: [1, 8] },
  cementContent: { symbol: "c", unit: "kg/m³", text: "cement content of the concrete", min: 100, max: 800, typical: [270, 550] },
  shrinkageLossFactor: { symbol: "K_sh", unit: "–", text: "factor for shrinkage before stressing; 1 for pre-tensioned members", min: 0, max: 1, typical: [0.4, 1] },
  dryingTimeBeforeStressing: { symbol: "t_d", unit: "days", text: "days from the end of moist curing to stressing", sort: "duration", min: 1, max: 60 },
  tendonYieldStress: { symbol: "f_py", unit: "MPa", text: "yield stress of the prestressing steel, at 1 % extension", sort: "tendon yield stress", above: 0, max: 3000, typical: [800, 2000] },
  relaxationTimeFactor: { symbol: "ρ_t/ρ_1000", unit: "–", text: "relaxation at the time over relaxation after 1000 h", min: 0, max: 10 },
  breakingLoad: { symbol: "F_m", unit: "kN", text: "least breaking load of one wire, strand or bar", sort: "breaking load", above: 0, max: 5000 },
  proofLoad: { symbol: "F_p", unit: "kN", text: "proof load of one wire, strand or bar, as its product standard defines it", sort: "proof load", above: 0, max: 5000 },
  massPerLength: { symbol: "m", unit: "kg/m", text: "mass per length of one wire, strand or bar", above: 0, max: 50 },
  productArea: { symbol: "A_p1", unit: "mm²", text: "nominal area of one wire, strand or bar", sort: "area of one tendon", above: 0, max: 5000 },
  relaxationClassNumber: { symbol: "class", unit: "–", text: "relaxation class of EN 1992-1-1: 1, 2 or 3", min: 1, max: 3, whole: true },
});
