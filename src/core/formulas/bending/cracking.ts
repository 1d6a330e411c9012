import { formula, stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

/** The moment at which the tensioned edge cracks. */
export const crackingMoment = stepwise({
  id: "CRACKING_MOMENT",
  family: "bending",
  summary: "Moment at which the bottom edge of a prestressed section cracks, sagging positive",
  notes: [
    "f_ct is the tension at which the concrete is taken to crack, a positive number: the flexural tensile " +
      "strength for a check of strength, another one where a standard says so; 0 gives the moment of decompression.",
    "P is the effective force after all losses, e positive below the centroid, Z the section modulus of the " +
      "bottom edge; P/A and P·e/Z on the section the force acts on.",
  ],
  source: mechanics,
  params: {
    Z: as(q.sectionModulus, { symbol: "Z_b", text: "section modulus of the bottom edge" }),
    A: q.area,
    f_ct: q.effectiveTensileStrength,
    P: q.prestressForce,
    e: q.eccentricity,
  },
  result: as(q.moment, { symbol: "M_cr", text: "cracking moment, sagging positive" }),
  steps: {
    sigma: {
      symbol: "σ_cp,b",
      unit: "MPa",
      text: "stress of the bottom edge by the prestress, compression positive",
      equation: "P / A + P * e / Z",
    },
    M_cr: { symbol: "M_cr", unit: "kN·m", equation: "Z * (f_ct + sigma)" },
  },
  compute: ({ Z, A, f_ct, P, e }) => {
    const sigma = P / A + (P * e) / Z;
    return { sigma, M_cr: Z * (f_ct + sigma) };
  },
});

/** 9.2.1.1: steel that takes the tension the concrete carried before it cracked. */
export const minBendingReinforcementEn1992 = stepwise({
  id: "MIN_BENDING_REINFORCEMENT_EN1992_2004",
  family: "bending",
  summary: "Min. area of longitudinal reinforcement in tension",
  notes: [
    "b_t is the mean width of the zone in tension; of a T-section with the flange in compression only the web counts.",
    "0.26 and 0.0013 are the recommended values; 9.2.1.1(1) was recalled, not read. The Spanish national text " +
      "asks for another amount.",
    "Members with tendons without bond or outside the section: M_Rd at least MIN_MOMENT_RESISTANCE_EN1992_2004.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "9.2.1.1(1) (9.1N)", basis: "memory-high" },
  params: { b_t: q.tensionWidth, d: q.effectiveDepth, f_ctm: q.concreteTensileStrength, f_yk: q.barYield },
  result: as(q.barArea, { symbol: "A_s,min", text: "min. area of reinforcement" }),
  steps: {
    share: {
      symbol: "ρ_min",
      unit: "–",
      text: "share of the area b_t·d",
      equation: "max(0.26 * f_ctm / f_yk, 0.0013)",
    },
    A_smin: { symbol: "A_s,min", unit: "mm²", equation: "share * b_t * d" },
  },
  compute: ({ b_t, d, f_ctm, f_yk }) => {
    const share = Math.max((0.26 * f_ctm) / f_yk, 0.0013);
    return { share, A_smin: share * b_t * d };
  },
  unpublished: "two products; no published result was found",
});

/** 9.2.1.1(4): where nothing bonded shares out the cracks. */
export const minMomentResistanceEn1992 = formula({
  id: "MIN_MOMENT_RESISTANCE_EN1992_2004",
  family: "bending",
  summary:
    "Moment that a member with tendons without bond or outside the section must resist, 1.15 times the cracking moment",
  source: { key: "EN1992-1-1:2004", clause: "9.2.1.1(4)", basis: "seen", readIn: "CE:2021" },
  params: { M_cr: as(q.moment, { symbol: "M_cr", text: "cracking moment", min: 0 }) },
  result: as(q.moment, { symbol: "M_Rd,min", text: "moment resistance asked for" }),
  equation: "1.15 * M_cr",
  compute: ({ M_cr }) => 1.15 * M_cr,
  unpublished: "one product",
});
