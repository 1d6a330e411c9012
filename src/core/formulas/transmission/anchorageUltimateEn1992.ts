import { formula, stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

const clause = "8.10.2.3";
const lengths = {
  l_pt2: as(q.transmissionLength, { symbol: "l_pt2", text: "upper design value of the transmission length", above: 0 }),
  l_bpd: as(q.transmissionLength, { symbol: "l_bpd", text: "anchorage length", above: 0 }),
};

/** Is the anchorage to be checked at all? */
export const anchorageCheckEn1992 = formula({
  id: "ANCHORAGE_CHECK_REQUIRED_EN1992_2004",
  family: "transmission",
  summary:
    "Whether anchorage by bond is to be checked in the ultimate state at a section: 1 where the tension " +
    "in the concrete exceeds the lower tensile strength, 0 where not",
  notes: [
    "σ_ct is the greatest tension of the section under the ultimate loads, computed on the uncracked " +
      "section, a positive number (0 where all of it is compressed).",
  ],
  source: { key: "EN1992-1-1:2004", clause: `${clause}(1)`, basis: "seen", readIn: "CE:2021" },
  params: { f_ctk005: as(q.concreteTensileStrengthLower, { above: 0 }), sigma_ct: q.ultimateTension },
  result: q.required,
  equation: "sigma_ct > f_ctk005 ? 1 : 0",
  compute: ({ sigma_ct, f_ctk005 }) => (sigma_ct > f_ctk005 ? 1 : 0),
  unpublished: "one comparison",
});

/** What the bond holds at x. */
export const anchoredStressEn1992 = stepwise({
  id: "ANCHORED_STRESS_EN1992_2004",
  family: "transmission",
  summary: "Tendon stress that bond can anchor in the ultimate state between the beginning of bond and x",
  notes: [
    "Rises in a straight line to σ_pm∞ over l_pt2, then in a flatter one to σ_pd at l_bpd; beyond it " +
      "stays at σ_pd. The two lines of Fig. 8.17 were recalled, not read.",
    "x counts from where bond begins: the end of the member, or the end of a debonded length. At a crack " +
      "nearest the end x is the distance of that crack.",
  ],
  source: { key: "EN1992-1-1:2004", clause: `${clause}(4)`, basis: "seen", readIn: "CE:2021" },
  params: {
    ...lengths,
    sigma_pmInf: as(q.tendonStress, { symbol: "σ_pm∞", text: "prestress after all losses" }),
    sigma_pd: as(q.tendonStress, {
      symbol: "σ_pd",
      text: "tendon stress of the ultimate state for which l_bpd was computed",
    }),
    x: q.bondedDistance,
  },
  limits: ({ l_pt2, sigma_pmInf }) => ({
    l_bpd: { min: l_pt2, because: "the transmission length, of which the anchorage length is an extension" },
    sigma_pd: { min: sigma_pmInf, because: "the prestress after all losses" },
  }),
  result: as(q.tendonStress, { symbol: "σ_p,anch", text: "tendon stress that bond can anchor" }),
  steps: {
    first: { symbol: "x_1", unit: "–", text: "part of the transmission length", equation: "min(x / l_pt2, 1)" },
    second: {
      symbol: "x_2",
      unit: "–",
      text: "part of the rest of the anchorage length",
      equation: "x <= l_pt2 ? 0 : x >= l_bpd ? 1 : (x - l_pt2) / (l_bpd - l_pt2)",
    },
    sigma: { symbol: "σ_p,anch", unit: "MPa", equation: "first * sigma_pmInf + second * (sigma_pd - sigma_pmInf)" },
  },
  compute: ({ x, l_pt2, l_bpd, sigma_pmInf, sigma_pd }) => {
    const first = Math.min(x / l_pt2, 1);
    const second = x <= l_pt2 ? 0 : x >= l_bpd ? 1 : (x - l_pt2) / (l_bpd - l_pt2);
    return { first, second, sigma: first * sigma_pmInf + second * (sigma_pd - sigma_pmInf) };
  },
  unpublished: "two straight lines; tests hold it against the anchorage length",
});

/** What the cracked section asks of the tendon. */
export const crackedSectionStressEn1992 = stepwise({
  id: "TENDON_STRESS_CRACKED_SECTION_EN1992_2004",
  family: "transmission",
  summary:
    "Stress that a cracked section asks of the tendons in the ultimate state, from bending and the tension of inclined cracks",
  notes: [
    "To be held by ANCHORED_STRESS_EN1992_2004 at the same crack; steel beside the tendons is left out " +
      "(its force may be taken off M_Ed/z).",
    "The tension by shear is 0.5 V_Ed (cot θ − cot α), 6.2.3(7); M_Ed/z with it need not exceed " +
      "M_Ed,max/z. α is the slope of the shear reinforcement: 0 for vertical stirrups.",
    "8.10.2.3 asks for a cracked section with the effects of shear; which paragraph asks it, and which " +
      "one of 6.2.3 and 9.2.1.3 it refers to, was recalled and is uncertain. The force itself is the " +
      "equilibrium of a truss.",
  ],
  source: { key: "EN1992-1-1:2004", clause: `${clause}, paragraph uncertain; 6.2.3(7) (6.18)`, basis: "memory-medium" },
  params: {
    z: q.leverArm,
    A_p: q.tendonArea,
    M_Ed: as(q.moment, { symbol: "M_Ed", text: "design moment at the crack, sagging positive", min: 0 }),
    V_Ed: q.shearForce,
    cot_theta: q.cotangent,
    cot_alpha: as(q.cotangent, {
      symbol: "cot α",
      text: "cotangent of the slope of the shear reinforcement; 0: vertical",
      min: 0,
      max: 1,
      default: 0,
      typical: [0, 1],
      smallest: 0.02,
      valid: { range: [0, 1], where: "EN 1992-1-1:2004 9.2.2(1)" },
    }),
  },
  result: as(q.tendonStress, { symbol: "σ_p,req", text: "tendon stress the cracked section asks for" }),
  steps: {
    bending: { symbol: "F_M", unit: "kN", text: "tension by bending", equation: "M_Ed / z" },
    shear: {
      symbol: "ΔF_td",
      unit: "kN",
      text: "tension by shear",
      clause: "(6.18)",
      equation: "0.5 * V_Ed * (cot_theta - cot_alpha)",
    },
    sigma: { symbol: "σ_p,req", unit: "MPa", equation: "(bending + max(shear, 0)) / A_p" },
  },
  compute: ({ M_Ed, V_Ed, z, A_p, cot_theta, cot_alpha }) => {
    const bending = M_Ed / z;
    const shear = 0.5 * V_Ed * (cot_theta - cot_alpha);
    return { bending, shear, sigma: (bending + Math.max(shear, 0)) / A_p };
  },
  unpublished: "statics of a truss; no published result was found",
});
