import { byChoice, formula, stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

/** 6.2.5(1): what the joint between two concretes must carry. */
const interfaceShearEn1992 = formula({
  id: "INTERFACE_SHEAR_EN1992_2004",
  family: "composite",
  summary: "Shear stress of the joint between concretes cast at different times",
  notes: [
    "β is the force of the later concrete over the whole force of the compressed or tensioned zone, both at the section.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "6.2.5(1) (6.24)", basis: "seen" },
  params: {
    z: as(q.leverArm, { min: 1, text: "lever arm of the composite section" }),
    b_i: as(q.sectionWidth, { symbol: "b_i", text: "width of the joint", min: 1 }),
    beta: q.forceInLater,
    V_Ed: q.shearForce,
  },
  result: as(q.jointStress, { text: "shear stress of the joint" }),
  equation: "beta * V_Ed / (z * b_i)",
  compute: ({ z, b_i, beta, V_Ed }) => (beta * V_Ed) / (z * b_i),
  unpublished: "no published figure whose source was read was found; one is second-hand",
});

const surface = choice({
  key: "jointSurface",
  symbol: "surface",
  text: "surface of the joint",
  values: [
    { value: "VERY_SMOOTH", text: "cast against steel, plastic or smooth timber" },
    { value: "SMOOTH", text: "slipformed, extruded or left untreated after vibration" },
    { value: "ROUGH", text: "roughness of 3 mm at spacings of about 40 mm" },
    { value: "INDENTED", text: "indentations as the standard draws them" },
  ],
});
const cohesion = { VERY_SMOOTH: 0.025, SMOOTH: 0.2, ROUGH: 0.4, INDENTED: 0.5 };
const friction = { VERY_SMOOTH: 0.5, SMOOTH: 0.6, ROUGH: 0.7, INDENTED: 0.9 };

/** 6.2.5(1): what it holds. */
const interfaceResistanceEn1992 = stepwise({
  id: "INTERFACE_RESISTANCE_EN1992_2004",
  family: "composite",
  summary: "Shear resistance of the joint between concretes cast at different times",
  notes: [
    "The formula was read, c and μ were recalled, as of the corrigenda; the first print has larger c for two " +
      "surfaces. Under fatigue halve c.",
    "f_ctd and f_ck are those of the weaker concrete. c f_ctd counts as 0 where σ_n pulls; σ_n counts no more " +
      "than 0.6 f_cd. Steel across the joint is vertical to it here.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "6.2.5(1), (2) (6.25)", basis: "memory-high" },
  params: {
    surface,
    f_ck: q.concreteStrength,
    f_ctd: q.designTension,
    f_yd: as(q.tieStress, { symbol: "f_yd", text: "design yield stress of the steel across the joint" }),
    rho: q.jointSteel,
    sigma_n: q.jointCompression,
    gamma_C: as(q.concretePartialFactor, {
      text: "partial factor for concrete; nationally determined, 2.4.2.4(1) recommends 1.5",
      default: 1.5,
    }),
  },
  result: as(q.jointStress, { symbol: "v_Rd,i", text: "shear resistance of the joint" }),
  steps: {
    c: { symbol: "c", unit: "–", text: "adhesion", lookup: { of: "surface", values: cohesion } },
    mu: { symbol: "μ", unit: "–", text: "friction", lookup: { of: "surface", values: friction } },
    f_cd: { symbol: "f_cd", unit: "MPa", text: "design compressive strength", equation: "f_ck / gamma_C" },
    adhesion: { symbol: "v_1", unit: "MPa", text: "by adhesion", equation: "(sigma_n < 0 ? 0 : c) * f_ctd" },
    rubbing: {
      symbol: "v_2",
      unit: "MPa",
      text: "by friction",
      equation: "mu * min(sigma_n, 0.6 * f_cd) + rho * f_yd * mu",
    },
    most: {
      symbol: "v_max",
      unit: "MPa",
      text: "limit of the concrete",
      equation: "0.5 * 0.6 * (1 - f_ck / 250) * f_cd",
    },
    v: { symbol: "v_Rd,i", unit: "MPa", clause: "(6.25)", equation: "max(min(adhesion + rubbing, most), 0)" },
  },
  compute: (v) => {
    const c = valueFor(cohesion, v.surface);
    const mu = valueFor(friction, v.surface);
    const f_cd = v.f_ck / v.gamma_C;
    const adhesion = (v.sigma_n < 0 ? 0 : c) * v.f_ctd;
    const rubbing = mu * Math.min(v.sigma_n, 0.6 * f_cd) + v.rho * v.f_yd * mu;
    const most = 0.5 * 0.6 * (1 - v.f_ck / 250) * f_cd;
    return { c, mu, f_cd, adhesion, rubbing, most, v: Math.max(Math.min(adhesion + rubbing, most), 0) };
  },
  empirical: "ν is the standard's own fit over the strength in MPa",
  unpublished: "no worked example was found in text",
});

const part = choice({
  key: "compositePart",
  symbol: "part",
  text: "concrete in which the stress is wanted",
  values: [
    { value: "MEMBER", text: "the member" },
    { value: "TOPPING", text: "the topping" },
  ],
});

/** A topping that shrinks more than the member under it. */
const differentialShrinkageStress = stepwise({
  id: "DIFFERENTIAL_SHRINKAGE_STRESS",
  family: "composite",
  summary: "Stress by unequal shrinkage of topping and member, compression positive",
  notes: [
    "The topping is held back by F, which pulls it; F let go presses at the topping's centroid on the composite " +
      "section. A is its area, I its second moment and y_b' its centroid, all in terms of the member's concrete.",
    "Creep lets F fall to (1 − e^−φ)/φ of itself; φ = 0 leaves it whole. No load and no restraint from outside: " +
      "the stresses of a section are in equilibrium by themselves.",
    "y is positive below the centroid of the composite section; y_t likewise that of the topping's centroid, so " +
      "negative for a topping above.",
  ],
  source: mechanics,
  params: {
    A: as(q.area, { symbol: "A'", text: "area of the composite section" }),
    I: as(q.secondMoment, { symbol: "I'", text: "second moment of area of the composite section" }),
    A_t: as(q.area, { symbol: "A_t", text: "true area of the topping" }),
    y_t: as(q.fibreDistance, {
      symbol: "y_t",
      text: "centroid of the topping from that of the composite section, positive below",
    }),
    y: q.fibreDistance,
    E_t: q.toppingModulus,
    E_c: q.elasticModulusConcrete,
    dEps: q.shrinkageDifference,
    phi: q.creepCoefficient,
    part,
  },
  result: as(q.fibreStress, { symbol: "σ_c", text: "stress by unequal shrinkage, compression positive" }),
  steps: {
    relief: {
      symbol: "k_φ",
      unit: "–",
      text: "what creep leaves",
      equation: "phi > 0.000001 ? (1 - exp(-phi)) / phi : 1",
    },
    F: { symbol: "F", unit: "kN", text: "force that would hold the topping", equation: "dEps * E_t * A_t * relief" },
    released: {
      symbol: "σ_r",
      unit: "MPa",
      text: "stress of the member's concrete at y by the force let go",
      equation: "F / A + F * y_t * y / I",
    },
    sigma: {
      symbol: "σ_c",
      unit: "MPa",
      ...byChoice("part", { MEMBER: "released", TOPPING: "released * E_t / E_c - F / A_t" }),
    },
  },
  compute: ({ A, I, A_t, y_t, y, E_t, E_c, dEps, phi, part: where }) => {
    const relief = phi > 1e-6 ? (1 - Math.exp(-phi)) / phi : 1;
    const F = dEps * E_t * A_t * relief;
    const released = F / A + (F * y_t * y) / I;
    return { relief, F, released, sigma: where === "MEMBER" ? released : (released * E_t) / E_c - F / A_t };
  },
  unpublished: "no published example with a result was found; tests hold forces and moments to 0",
});

export const compositeMemberFormulas = [interfaceShearEn1992, interfaceResistanceEn1992, differentialShrinkageStress];
