import { NoResult } from "../../errors.ts";
import { byChoice, formula, stepwise } from "../../formula.ts";
import { as, choice, format } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import {
  cot_alpha,
  cotLimits,
  factors,
  gamma_S,
  linkStress,
  strut,
  strutCompression,
  strutEquations,
  strutLimits,
} from "./choices.ts";

const b_w = as(q.sectionWidth, { symbol: "b_w", text: "smallest width of the web between chords, less ducts", min: 1 });
const z = as(q.leverArm, { min: 1, text: "lever arm of the internal forces" });
const f_ywk = as(q.barYield, { symbol: "f_ywk", text: "characteristic yield stress of the links", min: 10 });
const struts = { f_ck: q.concreteStrength, sigma_cp: strutCompression };

const sine = {
  symbol: "sin α",
  unit: "–",
  text: "sine of the slope of the links",
  equation: "1 / sqrt(1 + cot_alpha^2)",
} as const;

/** 6.2.3: links and struts. */
export const shearLinksEn1992 = stepwise({
  id: "SHEAR_RESISTANCE_LINKS_EN1992_2004",
  family: "shear",
  summary: "Shear resistance of given links and of the struts between them, with cot θ at its best or chosen",
  notes: [
    "cot θ is that at which links and struts fail together, within its limits; for a chosen one enter it as both " +
      "limits. The smaller of V_Rd,s and V_Rd,max counts.",
    "b_w less ducts: WEB_WIDTH_LESS_DUCTS_EN1992_2004. V_Ed is compared after the vertical component of the " +
      "tendons is taken off. Limits of cot θ, ν_1 and α_cw are the recommended ones.",
    "σ_cp raises or lowers the struts by α_cw; nearer to the edge of the support than 0.5 d cot θ it is not " +
      "counted (enter 0).",
    "REDUCED was read; that the links then count with no more than 0.8 f_ywk was recalled, and is done here. " +
      "The truss for inclined links is statics.",
  ],
  source: {
    key: "EN1992-1-1:2004",
    clause: "6.2.3(3), (4) (6.8), (6.9), (6.13), (6.14)",
    basis: "seen",
    readIn: "CE:2021",
  },
  params: {
    b_w,
    z,
    A_sw: q.linkArea,
    s: q.linkSpacing,
    ...struts,
    f_ywk,
    cot_alpha,
    link_stress: linkStress,
    ...cotLimits,
    ...factors,
    gamma_S,
  },
  limits: (v) => ({ ...strutLimits(v), cot_max: { min: v.cot_min, because: "its lower limit" } }),
  result: as(q.shearForce, { symbol: "V_Rd", text: "shear resistance with links" }),
  steps: {
    ...strutEquations,
    sine,
    f_ywd: {
      symbol: "f_ywd",
      unit: "MPa",
      text: "design stress of the links",
      ...byChoice("link_stress", { FULL: "f_ywk / gamma_S", REDUCED: "min(f_ywk / gamma_S, 0.8 * f_ywk)" }),
    },
    pull: {
      symbol: "v_s",
      unit: "N/mm",
      text: "pull of the links along the member",
      equation: "A_sw / s * f_ywd * sine",
    },
    push: { symbol: "v_c", unit: "N/mm", text: "push of the struts", equation: "alpha_cw * b_w * nu_1 * f_cd" },
    cot_free: {
      symbol: "cot θ_0",
      unit: "–",
      text: "links and struts fail together",
      equation: "sqrt(max(push / pull - 1, 0))",
    },
    cot: { symbol: "cot θ", unit: "–", equation: "min(max(cot_free, cot_min), cot_max)" },
    V_s: { symbol: "V_Rd,s", unit: "kN", clause: "(6.8), (6.13)", equation: "pull * z * (cot + cot_alpha)" },
    V_max: {
      symbol: "V_Rd,max",
      unit: "kN",
      clause: "(6.9), (6.14)",
      equation: "push * z * (cot + cot_alpha) / (1 + cot^2)",
    },
    V: { symbol: "V_Rd", unit: "kN", equation: "min(V_s, V_max)" },
  },
  compute: (v) => {
    const { f_cd, nu_1, alpha_cw } = strut(v);
    const sine = 1 / Math.sqrt(1 + v.cot_alpha ** 2);
    const full = v.f_ywk / v.gamma_S;
    const f_ywd = v.link_stress === "FULL" ? full : Math.min(full, 0.8 * v.f_ywk);
    const pull = (v.A_sw / v.s) * f_ywd * sine;
    const push = alpha_cw * v.b_w * nu_1 * f_cd;
    const cot_free = Math.sqrt(Math.max(push / pull - 1, 0));
    const cot = Math.min(Math.max(cot_free, v.cot_min), v.cot_max);
    const V_s = pull * v.z * (cot + v.cot_alpha);
    const V_max = (push * v.z * (cot + v.cot_alpha)) / (1 + cot ** 2);
    return { f_cd, nu_1, alpha_cw, sine, f_ywd, pull, push, cot_free, cot, V_s, V_max, V: Math.min(V_s, V_max) };
  },
  empirical: "ν_1 is the standard's own fit over the strength in MPa",
  unpublished: "no published figure whose source was read was found; some are second-hand or recalled",
});

/** The flattest struts that still hold. */
export const strutCotangentEn1992 = stepwise({
  id: "STRUT_COTANGENT_EN1992_2004",
  family: "shear",
  summary:
    "Largest cot θ at which the struts hold a shear force: with it the links are fewest and the added tension is " +
    "highest",
  notes: [
    "No result where the struts do not hold even at cot θ_min; then a wider web or better concrete is needed, " +
      "not more links.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "6.2.3(2), (3) (6.9)", basis: "seen", readIn: "CE:2021" },
  params: {
    b_w,
    z,
    ...struts,
    V_Ed: as(q.shearForce, { above: 0 }),
    link_stress: linkStress,
    ...cotLimits,
    ...factors,
  },
  limits: (v) => ({ ...strutLimits(v), cot_max: { min: v.cot_min, because: "its lower limit" } }),
  result: as(q.cotangent, { min: 0, max: 100 }),
  steps: {
    ...strutEquations,
    V_45: {
      symbol: "V_45",
      unit: "kN",
      text: "resistance of the struts at 45°",
      equation: "alpha_cw * b_w * z * nu_1 * f_cd / 2",
    },
    part: { symbol: "v", unit: "–", text: "part of it that is used", equation: "V_Ed / V_45" },
    cot_free: {
      symbol: "cot θ_0",
      unit: "–",
      text: "struts used up",
      equation: "(1 + sqrt(1 - part^2)) / part",
    },
    cot: { symbol: "cot θ", unit: "–", equation: "min(cot_free, cot_max)" },
  },
  compute: (v) => {
    const { f_cd, nu_1, alpha_cw } = strut(v);
    const V_45 = (alpha_cw * v.b_w * v.z * nu_1 * f_cd) / 2;
    const part = v.V_Ed / V_45;
    if (part > 1)
      throw new NoResult(
        `the struts hold ${format(V_45 / 1000)} kN at 45°, less than V_Ed = ${format(v.V_Ed / 1000)} kN`,
      );
    const cot_free = (1 + Math.sqrt(1 - part * part)) / part;
    const cot = Math.min(cot_free, v.cot_max);
    if (cot < v.cot_min) throw new NoResult(`the struts hold V_Ed only at cot θ = ${format(cot)}, below its limit`);
    return { f_cd, nu_1, alpha_cw, V_45, part, cot_free, cot };
  },
  empirical: "ν_1 is the standard's own fit over the strength in MPa",
});

/** What spacing the links must not exceed. */
export const linkSpacingEn1992 = stepwise({
  id: "LINK_SPACING_EN1992_2004",
  family: "shear",
  summary: "Max. spacing of links along the member: for the shear force, for min. links and for the depth",
  notes: [
    "V_Ed after the vertical component of the tendons; cot θ as for the struts. 0.75 d (1 + cot α) of 9.2.2(6) " +
      "was recalled; 0.08 and 0.75 are nationally determined.",
    "The spacing of the legs across the web is limited too (9.2.2(8)): not checked here.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "6.2.3(3) (6.8), 9.2.2(5) (9.5N), 9.2.2(6) (9.6N)", basis: "memory-high" },
  params: {
    b_w: as(q.sectionWidth, { symbol: "b_w", text: "width of the web", min: 1 }),
    d: as(q.effectiveDepth, { min: 1 }),
    z,
    A_sw: q.linkArea,
    f_ck: q.concreteStrength,
    f_ywk,
    V_Ed: as(q.shearForce, { min: 0.001 }),
    cot_theta: q.cotangent,
    cot_alpha,
    gamma_S,
    k_w: as(q.minLinkFactor, { default: 0.08, min: 0.001 }),
  },
  result: as(q.linkSpacing, { symbol: "s_max", text: "max. spacing of the links" }),
  steps: {
    sine,
    s_V: {
      symbol: "s_V",
      unit: "mm",
      text: "for the shear force",
      clause: "(6.8), (6.13)",
      equation: "A_sw * z * f_ywk / gamma_S * (cot_theta + cot_alpha) * sine / V_Ed",
    },
    rho_min: {
      symbol: "ρ_w,min",
      unit: "–",
      text: "min. ratio of links",
      clause: "9.2.2(5) (9.5N)",
      equation: "k_w * sqrt(f_ck) / f_ywk",
    },
    s_rho: { symbol: "s_ρ", unit: "mm", text: "for min. links", equation: "A_sw / (rho_min * b_w * sine)" },
    s_d: {
      symbol: "s_d",
      unit: "mm",
      text: "for the depth",
      clause: "9.2.2(6) (9.6N)",
      equation: "0.75 * d * (1 + cot_alpha)",
    },
    s: { symbol: "s_max", unit: "mm", equation: "min(s_V, s_rho, s_d)" },
  },
  compute: (v) => {
    const sine = 1 / Math.sqrt(1 + v.cot_alpha ** 2);
    const s_V = (((v.A_sw * v.z * v.f_ywk) / v.gamma_S) * (v.cot_theta + v.cot_alpha) * sine) / v.V_Ed;
    const rho_min = (v.k_w * Math.sqrt(v.f_ck)) / v.f_ywk;
    const s_rho = v.A_sw / (rho_min * v.b_w * sine);
    const s_d = 0.75 * v.d * (1 + v.cot_alpha);
    return { sine, s_V, rho_min, s_rho, s_d, s: Math.min(s_V, s_rho, s_d) };
  },
  empirical: "the min. ratio is the standard's own fit over strengths in MPa",
});

const ductKind = choice({
  key: "ductKind",
  symbol: "ducts",
  text: "kind of the ducts",
  values: [
    { value: "GROUTED", text: "metal ducts, grouted" },
    { value: "OTHER", text: "not grouted, grouted of plastic, or tendons without bond" },
  ],
});

/** 6.2.3(6). */
export const webWidthLessDuctsEn1992 = stepwise({
  id: "WEB_WIDTH_LESS_DUCTS_EN1992_2004",
  family: "shear",
  summary: "Width of the web for the struts, less ducts",
  notes: [
    "Grouted metal ducts count by half where their diameter is over b_w/8, thinner ones not at all; others count " +
      "1.2 times.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "6.2.3(6) (6.16), (6.17)", basis: "seen", readIn: "CE:2021" },
  params: {
    b_w: as(q.sectionWidth, { symbol: "b_w", text: "width of the web" }),
    phi: as(q.ductDiameter, { symbol: "φ", text: "outer diameter of a duct" }),
    sum: q.ductSum,
    ducts: ductKind,
  },
  result: as(q.sectionWidth, { symbol: "b_w,nom", text: "width of the web less ducts" }),
  steps: {
    share: {
      symbol: "k",
      unit: "–",
      text: "part of the ducts that is taken off",
      ...byChoice("ducts", { GROUTED: "(phi > b_w / 8 ? 0.5 : 0)", OTHER: "1.2" }),
    },
    b: { symbol: "b_w,nom", unit: "mm", clause: "(6.16), (6.17)", equation: "b_w - share * sum" },
  },
  compute: ({ b_w: width, phi, sum, ducts }) => {
    const counted = phi > width / 8 ? 0.5 : 0;
    const share = ducts === "OTHER" ? 1.2 : counted;
    const b = width - share * sum;
    if (b <= 0) throw new NoResult(`the ducts leave no width of the web of ${format(width)} mm`);
    return { share, b };
  },
  unpublished: "one product and one difference; no published result was found",
});

/** 6.2.3(7): inclined struts pull on the tension chord. */
export const addedTensionEn1992 = stepwise({
  id: "ADDED_TENSION_EN1992_2004",
  family: "shear",
  summary: "Tension that shear with links adds to the tension chord",
  notes: [
    "M_Ed/z and the added tension together need not exceed M_Ed,max/z, M_Ed,max being the highest moment along " +
      "the beam of the same sign.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "6.2.3(7) (6.18)", basis: "memory-high" },
  params: {
    z,
    V_Ed: q.shearForce,
    M_Ed: as(q.shearMoment, { symbol: "M_Ed", text: "moment at the section, taken positive" }),
    M_max: as(q.shearMoment, { symbol: "M_Ed,max", text: "highest moment along the beam, taken positive" }),
    cot_theta: q.cotangent,
    cot_alpha,
  },
  limits: ({ M_Ed }) => ({ M_max: { min: M_Ed, because: "the moment at the section" } }),
  result: as(q.pullForce, { symbol: "ΔF_td", text: "added tension of the chord" }),
  steps: {
    free: {
      symbol: "ΔF",
      unit: "kN",
      text: "by the truss",
      clause: "(6.18)",
      equation: "max(0.5 * V_Ed * (cot_theta - cot_alpha), 0)",
    },
    F: { symbol: "ΔF_td", unit: "kN", equation: "min(free, (M_max - M_Ed) / z)" },
  },
  compute: ({ z: arm, V_Ed, M_Ed, M_max, cot_theta, cot_alpha: cot }) => {
    const free = Math.max(0.5 * V_Ed * (cot_theta - cot), 0);
    return { free, F: Math.min(free, (M_max - M_Ed) / arm) };
  },
});

/** What an inclined tendon carries by itself. */
export const tendonShear = formula({
  id: "TENDON_SHEAR",
  family: "shear",
  summary: "Vertical component of an inclined tendon, with the sign of its slope",
  notes: [
    "The slope is that of TENDON_SLOPE. A tendon that goes down to the right pushes a section's left part down: " +
      "in the left half of a span with a sagging tendon it takes shear off, in the right half, where the slope is " +
      "negative, it does too.",
    "Inclined tendons only, with the force that is effective at the section; γ_P where the standard asks for it, " +
      "favourable or not.",
  ],
  source: mechanics,
  params: {
    P: q.prestressForce,
    slope: as(q.tendonSlope, { typical: [-0.5, 0.5], smallest: 0.006 }),
    gamma_P: as(q.prestressPartialFactor, {
      text: "partial factor for the prestress; 1.0 recommended where favourable",
      default: 1,
    }),
  },
  result: as(q.shear, { symbol: "V_p", text: "vertical component, with the sign of the slope" }),
  equation: "gamma_P * P * slope / sqrt(1 + slope^2)",
  compute: ({ P, slope, gamma_P }) => (gamma_P * P * slope) / Math.sqrt(1 + slope * slope),
});
