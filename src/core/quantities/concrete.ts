import { quantities } from "./define.ts";

/** Concrete: strength, stiffness, creep and shrinkage. Compression positive; shrinkage positive when the concrete shortens. */
export const concrete = quantities({
  concreteStrength: { symbol: "f_ck", unit: "MPa", text: "characteristic cylinder strength at 28 days", sort: "characteristic cylinder strength", min: 12, max: 90 },
  concreteStrengthAtAge: { symbol: "f_ck,t", unit: "MPa", text: "characteristic cylinder strength at the age considered", sort: "characteristic cylinder strength at age", above: 0, max: 120 },
  concreteMeanStrength: { symbol: "f_cm", unit: "MPa", text: "mean cylinder strength at 28 days", sort: "mean cylinder strength", min: 20, max: 98 },
  concreteMeanStrengthAtAge: { symbol: "f_cm,t", unit: "MPa", text: "mean cylinder strength at the age considered", sort: "mean cylinder strength at age", min: 0, max: 150 },
  concreteDesignStrength: { symbol: "f_cd", unit: "MPa", text: "design compressive strength", sort: "design cylinder strength", min: 0 },
  concreteTensileStrength: { symbol: "f_ctm", unit: "MPa", text: "mean axial tensile strength at 28 days", sort: "mean tensile strength", min: 0, max: 10, typical: [1.5, 5.5] },
  concreteTensileStrengthLower: { symbol: "f_ctk,0.05", unit: "MPa", text: "axial tensile strength, 5 % fractile", sort: "lower tensile strength", min: 0, max: 10 },
  concreteTensileStrengthUpper: { symbol: "f_ctk,0.95", unit: "MPa", text: "axial tensile strength, 95 % fractile", sort: "upper tensile strength", min: 0, max: 10 },
  concreteTensileStrengthAtAge: { symbol: "f_ctm,t", unit: "MPa", text: "mean axial tensile strength at the age considered", sort: "mean tensile strength at age", min: 0, max: 10 },
  concreteDesignTensileStrength: { symbol: "f_ctd,t", unit: "MPa", text: "design tensile strength at the age considered", sort: "design tensile strength", min: 0, max: 10 },
  concreteFlexuralTensileStrength: { symbol: "f_ctm,fl", unit: "MPa", text: "mean flexural tensile strength", sort: "flexural tensile strength", min: 0, max: 15 },
  effectiveTensileStrength: { symbol: "f_ct,eff", unit: "MPa", text: "effective tensile strength, a positive number", min: 0, max: 15 },

  concreteModulus: { symbol: "E_cm", unit: "GPa", text: "secant modulus of concrete at 28 days", sort: "secant modulus", above: 0, max: 100, typical: [20, 55] },
  concreteModulusAtAge: { symbol: "E_cm,t", unit: "GPa", text: "secant modulus of concrete at the age considered", sort: "secant modulus at age", above: 0, max: 100, typical: [15, 55] },
  concreteTangentModulus: { symbol: "E_c", unit: "GPa", text: "tangent modulus of concrete at 28 days", sort: "tangent modulus", above: 0, max: 105, typical: [20, 58] },

  ageFactor: { symbol: "β_cc", unit: "–", text: "strength at age over strength at 28 days", sort: "age factor", min: 0, max: 2 },
  longTermFactor: { symbol: "α_cc", unit: "–", text: "coefficient for long-term effects on compressive strength", above: 0, max: 1 },
  concretePartialFactor: { symbol: "γ_C", unit: "–", text: "partial factor for concrete", min: 1, max: 2 },

  relativeHumidity: { symbol: "RH", unit: "%", text: "relative humidity of the surroundings", min: 0, max: 100 },
  notionalSize: { symbol: "h_0", unit: "mm", text: "notional size", sort: "notional size", above: 0, typical: [50, 1500] },

  creepCoefficient: { symbol: "φ", unit: "–", text: "creep coefficient", sort: "creep coefficient", min: 0, max: 20, typical: [0, 5] },
  shrinkageStrain: { symbol: "ε_cs", unit: "–", text: "total shrinkage strain, shortening positive", sort: "total shrinkage strain", min: 0, max: 0.005, typical: [0, 0.001] },
  dryingShrinkage: { symbol: "ε_cd", unit: "–", text: "drying shrinkage strain, shortening positive", sort: "drying shrinkage strain", min: 0, max: 0.005 },
  dryingShrinkageNominal: { symbol: "ε_cd,0", unit: "–", text: "nominal unrestrained drying shrinkage strain, shortening positive", sort: "nominal drying shrinkage strain", min: 0, max: 0.005, typical: [0, 0.001] },
  autogenousShrinkage: { symbol: "ε_ca", unit: "–", text: "autogenous shrinkage strain, shortening positive", sort: "autogenous shrinkage strain", min: 0, max: 0.005 },

  sustainedConcreteStress: { symbol: "σ_c", unit: "MPa", text: "sustained concrete stress at t_0, compression positive", min: 0, max: 150 },
  concreteStressAtTendon: { symbol: "σ_c,QP", unit: "MPa", text: "concrete stress at the tendon from self-weight, initial prestress and other quasi-permanent actions, compression positive", min: -50, max: 150, typical: [-5, 30] },
  compressionLimit: { symbol: "σ_c,max", unit: "MPa", text: "greatest allowed concrete stress, compression positive" },
  tensionLimit: { symbol: "σ_c,min", unit: "MPa", text: "least allowed concrete stress: a negative number, compression positive" },
});
