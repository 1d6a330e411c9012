import { stepwise } from "../../formula.ts";
import { valueBetween, valueFor } from "../../lookup.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

const part = choice({
  key: "crackedPart",
  symbol: "part",
  text: "part of the section that cracks",
  values: [
    { value: "WEB", text: "rectangular section, or web of a T, I or box section" },
    { value: "FLANGE", text: "flange of a T, I or box section" },
  ],
});
const isWeb = { WEB: 1, FLANGE: 0 };
const sizeFactors = [
  [300, 1],
  [800, 0.65],
] as const;

/** Steel that takes over the tension when the first crack opens. */
export const minCrackReinforcementEn1992 = stepwise({
  id: "MIN_CRACK_REINFORCEMENT_EN1992_2004",
  family: "limits",
  summary: "Min. reinforcement to control cracks in the tension zone, tendons nearby counted",
  notes: [
    "Not needed where 7.3.2(4) holds: TENSION_LIMIT_EN1992_2004 with NO_MIN_REINFORCEMENT.",
    "A_ct is the concrete under tension just before the first crack. A_p' counts within 150 mm of the " +
      "bars or tendons; Δσ_p is 0 where the tendons are not counted on.",
    "The expressions (7.1) and (7.2) were read in a national text; (7.3) and the factor k are recalled, " +
      "with (7.2) and k confirmed second-hand.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "7.3.2(2), (3) (7.1) to (7.3)", basis: "memory-high" },
  empirical: "lengths in mm and factors stand in the standard's own expressions",
  params: {
    A_ct: as(q.partArea, {
      symbol: "A_ct",
      text: "area of the concrete tension zone before the first crack",
      above: 0,
    }),
    size: as(q.sectionHeight, {
      max: 30000,
      symbol: "h",
      text: "height of the section or web; for a flange its width",
    }),
    A_p: as(q.bondedTendonArea, { symbol: "A_p'", text: "bonded tendons in the effective tension zone, 0 for none" }),
    f_cteff: q.effectiveTensileStrength,
    xi_1: q.bondRatio,
    sigma_c: as(q.fibreStress, {
      symbol: "σ_c",
      text: "mean concrete stress of the part, N/(b·h), compression positive; not used for a flange",
    }),
    F_cr: as(q.forceInZone, {
      text: "tension force of the flange just before the first crack, from f_ct,eff; not used for a web",
    }),
    sigma_s: q.reinforcementStress,
    dsigma_p: q.stressChange,
    part,
  },
  result: as(q.barArea, { symbol: "A_s,min", text: "min. area of reinforcement in the tension zone" }),
  steps: {
    web: { symbol: "web", unit: "–", text: "1 for a web", lookup: { of: "part", values: isWeb } },
    k: {
      symbol: "k",
      unit: "–",
      clause: "7.3.2(2)",
      lookup: { of: "size", points: sizeFactors },
      text: "linear between 300 and 800 mm",
    },
    h_star: { symbol: "h*", unit: "mm", equation: "min(size, 1000)" },
    k_1: { symbol: "k_1", unit: "–", equation: "sigma_c >= 0 ? 1.5 : 2 * h_star / (3 * size)" },
    k_web: {
      symbol: "k_c,w",
      unit: "–",
      clause: "(7.2)",
      equation: "f_cteff == 0 ? 0 : min(1, max(0, 0.4 * (1 - sigma_c / (k_1 * (size / h_star) * f_cteff))))",
    },
    k_flange: {
      symbol: "k_c,f",
      unit: "–",
      clause: "(7.3)",
      equation: "f_cteff == 0 ? 0.5 : max(0.5, 0.9 * F_cr / (A_ct * f_cteff))",
    },
    k_c: { symbol: "k_c", unit: "–", equation: "web == 1 ? k_web : k_flange" },
    A_min: {
      symbol: "A_s,min",
      unit: "mm²",
      clause: "(7.1)",
      equation: "max(0, (k_c * k * f_cteff * A_ct - xi_1 * A_p * dsigma_p) / sigma_s)",
    },
  },
  compute: ({ part: which, f_cteff, A_ct, size, sigma_c, F_cr, sigma_s, xi_1, A_p, dsigma_p }) => {
    const web = valueFor(isWeb, which);
    const k = valueBetween(sizeFactors, size);
    const h_star = Math.min(size, 1000);
    const k_1 = sigma_c >= 0 ? 1.5 : (2 * h_star) / (3 * size);
    const free = 0.4 * (1 - sigma_c / (k_1 * (size / h_star) * f_cteff));
    const k_web = f_cteff === 0 ? 0 : Math.min(1, Math.max(0, free));
    const k_flange = f_cteff === 0 ? 0.5 : Math.max(0.5, (0.9 * F_cr) / (A_ct * f_cteff));
    const k_c = web === 1 ? k_web : k_flange;
    const A_min = Math.max(0, (k_c * k * f_cteff * A_ct - xi_1 * A_p * dsigma_p) / sigma_s);
    return { web, k, h_star, k_1, k_web, k_flange, k_c, A_min };
  },
  unpublished: "no published result was found; a hand calculation stands in the tests",
});
