import { InputError } from "../../errors.ts";
import { byChoice, stepwise } from "../../formula.ts";
import { as, orBlank } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { method } from "../is1343/choices.ts";
import { factors } from "./choices.ts";

/** 6.2.2(1): regions cracked in bending, without links. */
export const shearCrackedEn1992 = stepwise({
  id: "SHEAR_RESISTANCE_CRACKED_EN1992_2004",
  family: "shear",
  summary: "Shear resistance without links of a region cracked in bending",
  notes: [
    "A_sl is the tension steel anchored beyond the section; bonded tendons may be counted. b_w is the smallest " +
      "width in the zone of tension.",
    "σ_cp is limited to 0.2 f_cd. 0.18/γ_C, 0.15 and 0.035 are the recommended values, nationally determined.",
    "The vertical component of the tendons is taken from the shear force, not added here: see TENDON_SHEAR.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "6.2.2(1) (6.2), (6.3N)", basis: "seen" },
  params: {
    b_w: as(q.sectionWidth, { symbol: "b_w", text: "width of the web", min: 1 }),
    d: as(q.effectiveDepth, { min: 10 }),
    A_sl: as(q.barArea, { symbol: "A_sl", text: "anchored tension steel, 0 for none" }),
    f_ck: q.concreteStrength,
    sigma_cp: q.meanCompression,
    gamma_C: factors.gamma_C,
    alpha_cc: factors.alpha_cc,
  },
  result: as(q.shearForce, { symbol: "V_Rd,c", text: "shear resistance without links" }),
  steps: {
    k: { symbol: "k", unit: "–", text: "factor of the depth", equation: "min(1 + sqrt(200 / d), 2)" },
    rho: { symbol: "ρ_l", unit: "–", text: "ratio of tension steel", equation: "min(A_sl / (b_w * d), 0.02)" },
    sigma: {
      symbol: "σ_cp'",
      unit: "MPa",
      text: "compression that counts",
      equation: "min(sigma_cp, 0.2 * alpha_cc * f_ck / gamma_C)",
    },
    v_min: { symbol: "v_min", unit: "MPa", clause: "(6.3N)", equation: "0.035 * k^1.5 * sqrt(f_ck)" },
    v: {
      symbol: "v_Rd,c",
      unit: "MPa",
      text: "shear strength",
      clause: "(6.2)",
      equation: "max(0.18 / gamma_C * k * (100 * rho * f_ck)^(1/3), v_min) + 0.15 * sigma",
    },
    V: { symbol: "V_Rd,c", unit: "kN", equation: "max(v, 0) * b_w * d" },
  },
  compute: ({ b_w, d, A_sl, f_ck, sigma_cp, gamma_C, alpha_cc }) => {
    const k = Math.min(1 + Math.sqrt(200 / d), 2);
    const rho = Math.min(A_sl / (b_w * d), 0.02);
    const sigma = Math.min(sigma_cp, (0.2 * alpha_cc * f_ck) / gamma_C);
    const v_min = 0.035 * k ** 1.5 * Math.sqrt(f_ck);
    const v = Math.max((0.18 / gamma_C) * k * Math.cbrt(100 * rho * f_ck), v_min) + 0.15 * sigma;
    return { k, rho, sigma, v_min, v, V: Math.max(v, 0) * b_w * d };
  },
  empirical: "the standard's own fit over strength in MPa and depth in mm",
  unpublished: "no published figure whose source was read was found; one is second-hand",
});

/** 6.2.2(2): regions that bending does not crack. */
export const shearUncrackedEn1992 = stepwise({
  id: "SHEAR_RESISTANCE_UNCRACKED_EN1992_2004",
  family: "shear",
  summary: "Shear resistance without links of a region that bending does not crack, at the centroid",
  notes: [
    "Holds for single spans where the tension by bending stays below f_ctk,0.05/γ_C; no check nearer to the " +
      "support than the line at 45° from its inner edge to the centroid.",
    "Pre-tensioned: σ_cp is that of the fully transmitted prestress, reduced by α_l = l_x/l_pt2; l_x counts from " +
      "the start of the transmission length.",
    "S is the first moment of the part above the centroid, b_w the width there less ducts. Where the width " +
      "varies take SHEAR_RESISTANCE_WEB_EN1992_2004.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "6.2.2(2) (6.4)", basis: "seen" },
  params: {
    I: q.secondMoment,
    S: as(q.firstMoment, { text: "first moment of the part above the centroid, about it", min: 1 }),
    b_w: as(q.sectionWidth, { symbol: "b_w", text: "width of the web at the centroid, less ducts", min: 1 }),
    f_ctd: q.designTension,
    sigma_cp: as(q.meanCompression, { min: 0, typical: [0, 30] }),
    method,
    l_x: orBlank(
      as(q.bondedDistance, { symbol: "l_x", text: "distance from the start of transmission" }),
      "post-tensioned",
    ),
    l_pt2: orBlank(
      as(q.transmissionLength, { symbol: "l_pt2", text: "upper design value of the transmission length", min: 1 }),
      "post-tensioned",
    ),
  },
  result: as(q.shearForce, { symbol: "V_Rd,c", text: "shear resistance without links" }),
  steps: {
    alpha_l: {
      symbol: "α_l",
      unit: "–",
      text: "part of the prestress that is transmitted",
      ...byChoice("method", { PRE: "min(l_x / l_pt2, 1)", POST: "1" }),
    },
    V: {
      symbol: "V_Rd,c",
      unit: "kN",
      clause: "(6.4)",
      equation: "I * b_w / S * sqrt(f_ctd^2 + alpha_l * sigma_cp * f_ctd)",
    },
  },
  compute: ({ I, S, b_w, f_ctd, sigma_cp, method: way, l_x, l_pt2 }) => {
    if (way === "PRE" && (l_x === undefined || l_pt2 === undefined))
      throw new InputError("l_x", "l_x or l_pt2 is missing; a pre-tensioned member needs both");
    const alpha_l = way === "PRE" ? Math.min(l_x! / l_pt2!, 1) : 1;
    return { alpha_l, V: ((I * b_w) / S) * Math.sqrt(f_ctd ** 2 + alpha_l * sigma_cp * f_ctd) };
  },
  unpublished: "no published figure whose source was read was found; one is second-hand",
});
