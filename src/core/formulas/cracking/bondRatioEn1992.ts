import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { tendonSurface } from "../en1992/bondChoices.ts";
import { tensioning } from "../en1992/detailingChoices.ts";

const isPre = { PRE_TENSIONED: 1, POST_TENSIONED: 0 };
const pre = { STRAND: 0.6, INDENTED_WIRE: 0.7 };
const post50 = { STRAND: 0.5, INDENTED_WIRE: 0.6 };
const post70 = { STRAND: 0.25, INDENTED_WIRE: 0.3 };

/** How much better do bars bond than tendons? */
export const adjustedBondRatioEn1992 = stepwise({
  id: "ADJUSTED_BOND_RATIO_EN1992_2004",
  family: "limits",
  summary: "Adjusted ratio of bond strength of tendons and bars, ξ_1",
  notes: [
    "φ_s is the largest bar; 0 where tendons alone control the cracks: then ξ_1 = √ξ.",
    "φ_p is 1.6·√A_p for bundles and 1.75 φ_wire for single strands of seven wires.",
    "Between C50/60 and C70/85 ξ of post-tensioned tendons is interpolated.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "7.3.2(3) (7.5), Table 6.2", basis: "seen", readIn: "CE:2021" },
  empirical: "50 and 20 stand for MPa",
  params: {
    phi_s: as(q.barDiameter, { text: "diameter of the largest bar; 0: tendons only", min: 0 }),
    phi_p: as(q.embeddedDiameter, { symbol: "φ_p", text: "equivalent diameter of the tendon" }),
    f_ck: q.concreteStrength,
    tensioning,
    surface: tendonSurface,
  },
  result: q.bondRatio,
  steps: {
    isPre: { symbol: "pre", unit: "–", text: "1 for pre-tensioned", lookup: { of: "tensioning", values: isPre } },
    xi_pre: { symbol: "ξ_pre", unit: "–", clause: "Table 6.2", lookup: { of: "surface", values: pre } },
    xi_50: { symbol: "ξ_50", unit: "–", text: "up to C50/60", lookup: { of: "surface", values: post50 } },
    xi_70: { symbol: "ξ_70", unit: "–", text: "from C70/85 on", lookup: { of: "surface", values: post70 } },
    xi: {
      symbol: "ξ",
      unit: "–",
      equation: "isPre == 1 ? xi_pre : xi_50 + (xi_70 - xi_50) * min(1, max(0, (f_ck - 50) / 20))",
    },
    xi_1: { symbol: "ξ_1", unit: "–", clause: "(7.5)", equation: "phi_s > 0 ? sqrt(xi * phi_s / phi_p) : sqrt(xi)" },
  },
  compute: ({ tensioning: way, surface, f_ck, phi_s, phi_p }) => {
    const pretensioned = valueFor(isPre, way);
    const xi_pre = valueFor(pre, surface);
    const xi_50 = valueFor(post50, surface);
    const xi_70 = valueFor(post70, surface);
    const between = xi_50 + (xi_70 - xi_50) * Math.min(1, Math.max(0, (f_ck - 50) / 20));
    const xi = pretensioned === 1 ? xi_pre : between;
    const xi_1 = phi_s > 0 ? Math.sqrt((xi * phi_s) / phi_p) : Math.sqrt(xi);
    return { isPre: pretensioned, xi_pre, xi_50, xi_70, xi, xi_1 };
  },
  unpublished: "no published result was found; a hand calculation stands in the tests",
});
