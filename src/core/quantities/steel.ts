import { quantities } from "./define.ts";

/** Prestressing steel: strength, stiffness, relaxation and long-term losses. Tension and losses positive. */
export const steel = quantities({
  tendonModulus: {
    symbol: "E_p",
    unit: "GPa",
    text: "modulus of elasticity of the prestressing steel",
    sort: "tendon modulus",
    min: 1,
    max: 300,
    typical: [180, 210],
  },
  tendonTensileStrength: {
    symbol: "f_pk",
    unit: "MPa",
    text: "characteristic tensile strength of the prestressing steel",
    sort: "tendon tensile strength",
    above: 0,
    max: 3000,
    typical: [900, 2200],
  },
  tendonProofStress: {
    symbol: "f_p0.1k",
    unit: "MPa",
    text: "characteristic 0.1 % proof stress of the prestressing steel",
    sort: "tendon proof stress",
    above: 0,
    max: 3000,
    typical: [800, 2000],
  },
  initialTendonStress: {
    symbol: "σ_pi",
    unit: "MPa",
    text: "tendon stress from which relaxation starts",
    min: 0,
    max: 2500,
  },
  relaxation1000: { symbol: "ρ_1000", unit: "%", text: "relaxation after 1000 h at 20 °C", min: 0, max: 20 },
  relaxationLoss: {
    symbol: "Δσ_pr",
    unit: "MPa",
    text: "loss of tendon stress by relaxation at constant strain, positive",
    sort: "relaxation loss at constant strain",
    min: 0,
    max: 1000,
  },
  timeDependentLoss: {
    symbol: "Δσ_p,c+s+r",
    unit: "MPa",
    text: "loss of tendon stress by creep, shrinkage and relaxation together, positive",
  },
  tendonStressLimit: { symbol: "σ_p,max", unit: "MPa", text: "greatest allowed tendon stress" },
  prestressFactor: { symbol: "r", unit: "–", text: "factor from mean to characteristic prestress", min: 0, max: 2 },
  nationalFactor: { symbol: "k", unit: "–", text: "nationally determined factor", min: 0, max: 1 },
});
