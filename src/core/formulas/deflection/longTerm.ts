import { formula, stepwise } from "../../formula.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

/** The modulus that counts the whole creep of a load in. */
export const effectiveModulusEn1992 = formula({
  id: "EFFECTIVE_MODULUS_EN1992_2004",
  family: "deflection",
  summary: "Effective modulus of concrete for deflections, creep of a constant load counted in",
  notes: ["Each load with the creep coefficient of its own age. A stress that grows slowly: AGE_ADJUSTED_MODULUS."],
  source: { key: "EN1992-1-1:2004", clause: "7.4.3(5) (7.20)", basis: "seen", readIn: "CE:2021" },
  params: { E_cm: q.concreteModulus, phi: q.creepCoefficient },
  result: q.effectiveModulus,
  equation: "E_cm / (1 + phi)",
  compute: ({ E_cm, phi }) => E_cm / (1 + phi),
  unpublished: "One quotient; no published result was found.",
});

/** The modulus for a stress that grows with time. */
export const ageAdjustedModulus = formula({
  id: "AGE_ADJUSTED_MODULUS",
  family: "deflection",
  summary: "Age-adjusted effective modulus, for a stress that grows slowly while the concrete creeps",
  notes: [
    "The loss of prestress is such a stress. χ = 0.8 is the factor of the interaction formula (5.46) of EN 1992.",
  ],
  source: mechanics,
  params: { E_c: q.elasticModulusConcrete, phi: q.creepCoefficient, chi: q.ageingCoefficient },
  result: q.effectiveModulus,
  equation: "E_c / (1 + chi * phi)",
  compute: ({ E_c, phi, chi }) => E_c / (1 + chi * phi),
  unpublished: "One quotient; no published result was found.",
});

/** Shrinkage held back on one side. */
export const shrinkageCurvatureEn1992 = formula({
  id: "SHRINKAGE_CURVATURE_EN1992_2004",
  family: "deflection",
  summary: "Curvature by shrinkage held back by bonded bars, sagging positive for bars below the centroid",
  notes: [
    "I and S of the uncracked or of the fully cracked section; α_e = E_s/E_c,eff.",
    "Bars only: what bonded tendons hold back is in the loss of prestress already.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "7.4.3(6) (7.21)", basis: "seen", readIn: "CE:2021" },
  params: { I: q.secondMoment, S: q.steelFirstMoment, eps_cs: q.shrinkageStrain, alpha_e: q.modularRatio },
  result: as(q.bendingCurvature, { symbol: "1/r_cs", text: "curvature by shrinkage, sagging positive" }),
  equation: "eps_cs * alpha_e * S / I",
  compute: ({ I, S, eps_cs, alpha_e }) => (eps_cs * alpha_e * S) / I,
  unpublished: "One product; no published result was found.",
});

const sustained = choice({
  key: "loadRepetition",
  symbol: "loading",
  text: "how long or how often the load acts",
  values: [
    { value: "SHORT", text: "a single short-term load" },
    { value: "SUSTAINED", text: "sustained, or many cycles of repeated load" },
  ],
});

/** How much of the cracked state is there. */
export const crackedShareEn1992 = stepwise({
  id: "CRACKED_SHARE_EN1992_2004",
  family: "deflection",
  summary: "Distribution coefficient ζ between the uncracked and the fully cracked state",
  notes: [
    "A deformation is then ζ α_II + (1 − ζ) α_I (7.18), be it curvature, strain or deflection. 0 while uncracked.",
    "σ_s and σ_sr from the cracked section; for bending M_cr/M may stand in place of σ_sr/σ_s. With prestress count " +
      "both moments from where the soffit has no stress, which gives more deflection than counting from 0.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "7.4.3(3) (7.19)", basis: "seen", readIn: "CE:2021" },
  params: { ratio: q.steelStressRatio, loading: sustained },
  result: q.crackedShare,
  steps: {
    beta: { symbol: "β", unit: "–", lookup: { of: "loading", values: { SHORT: 1, SUSTAINED: 0.5 } } },
    zeta: { symbol: "ζ", unit: "–", clause: "(7.19)", equation: "ratio >= 1 ? 0 : 1 - beta * ratio^2" },
  },
  compute: ({ ratio, loading }) => {
    const beta = loading === "SHORT" ? 1 : 0.5;
    return { beta, zeta: ratio >= 1 ? 0 : 1 - beta * ratio * ratio };
  },
  unpublished: "No published deflection of a cracked prestressed member was found.",
});
