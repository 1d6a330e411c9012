import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { direction, embedded, tensioning } from "../en1992/detailingChoices.ts";

const coverFactors = { DUCT: 1, STRAND: 1.5, INDENTED_WIRE: 2.5 };
const isDuct = { DUCT: 1, STRAND: 0, INDENTED_WIRE: 0 };

/** Cover that bond and durability ask for. */
export const nominalCoverEn1992 = stepwise({
  id: "NOMINAL_COVER_EN1992_2004",
  family: "limits",
  summary: "Nominal cover of a duct or pre-tensioned tendon: for bond and durability, with the allowance for deviation",
  notes: [
    "For bond, circular ducts: their diameter, no more than 80 mm. Strand and plain wire: 1.5 diameters; " +
      "indented wire: 2.5. Nationally determined; the values are the recommended ones, from memory.",
    "c_min,dur comes from Table 4.5N or the National Annex, with all reductions and additions. Ends of " +
      "pre-tensioned members and anchorages have rules of their own.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "4.4.1.1(2) (4.1), 4.4.1.2(2), (3)", basis: "memory-high" },
  empirical: "80 and 10 stand for mm",
  params: {
    phi: q.embeddedDiameter,
    c_dur: as(q.barCover, { symbol: "c_min,dur", text: "min. cover for durability" }),
    embedded,
    dc_dev: as(q.barCover, {
      symbol: "Δc_dev",
      text: "allowance for deviation; recommended 10 mm",
      default: 10,
      typical: [0, 30],
    }),
  },
  result: as(q.cover, { symbol: "c_nom", text: "nominal cover", min: 0 }),
  steps: {
    duct: { symbol: "duct", unit: "–", text: "1 for a duct", lookup: { of: "embedded", values: isDuct } },
    factor: { symbol: "c/φ", unit: "–", lookup: { of: "embedded", values: coverFactors } },
    c_b: {
      symbol: "c_min,b",
      unit: "mm",
      clause: "4.4.1.2(3)",
      equation: "duct == 1 ? min(factor * phi, 80) : factor * phi",
    },
    c_min: { symbol: "c_min", unit: "mm", clause: "(4.2)", equation: "max(c_b, c_dur, 10)" },
    c_nom: { symbol: "c_nom", unit: "mm", clause: "(4.1)", equation: "c_min + dc_dev" },
  },
  compute: ({ embedded: what, phi, c_dur, dc_dev }) => {
    const duct = valueFor(isDuct, what);
    const factor = valueFor(coverFactors, what);
    const c_b = duct === 1 ? Math.min(factor * phi, 80) : factor * phi;
    const c_min = Math.max(c_b, c_dur, 10);
    return { duct, factor, c_b, c_min, c_nom: c_min + dc_dev };
  },
  unpublished: "no published result was found; its cases are tested",
});

const isPost = { PRE_TENSIONED: 0, POST_TENSIONED: 1 };
const isHorizontal = { HORIZONTAL: 1, VERTICAL: 0 };

/** Room that the concrete needs between tendons. */
export const minClearSpacingEn1992 = stepwise({
  id: "MIN_CLEAR_SPACING_EN1992_2004",
  family: "limits",
  summary: "Min. clear spacing of ducts or of pre-tensioned strands, horizontal or vertical",
  notes: [
    "Pre-tensioned: 2φ and d_g + 5 mm, at least 20 mm, horizontally; 2φ and d_g vertically.",
    "Ducts: φ and d_g + 5 mm, at least 50 mm, horizontally; φ and d_g, at least 40 mm, vertically.",
    "From memory; the figures themselves were not read.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "8.10.1.2, 8.10.1.3 Figures 8.14, 8.15", basis: "memory-high" },
  empirical: "5, 20, 40 and 50 stand for mm",
  params: { phi: q.embeddedDiameter, d_g: q.aggregateSize, tensioning, direction },
  result: as(q.clearDistance, { max: 2000 }),
  steps: {
    post: { symbol: "post", unit: "–", text: "1 for ducts", lookup: { of: "tensioning", values: isPost } },
    side: { symbol: "side", unit: "–", text: "1 side by side", lookup: { of: "direction", values: isHorizontal } },
    pre: {
      symbol: "a_pre",
      unit: "mm",
      clause: "Figure 8.14",
      equation: "side == 1 ? max(2 * phi, d_g + 5, 20) : max(2 * phi, d_g)",
    },
    duct: {
      symbol: "a_post",
      unit: "mm",
      clause: "Figure 8.15",
      equation: "side == 1 ? max(phi, d_g + 5, 50) : max(phi, d_g, 40)",
    },
    a: { symbol: "a", unit: "mm", equation: "post == 1 ? duct : pre" },
  },
  compute: ({ tensioning: way, direction: which, phi, d_g }) => {
    const post = valueFor(isPost, way);
    const side = valueFor(isHorizontal, which);
    const pre = side === 1 ? Math.max(2 * phi, d_g + 5, 20) : Math.max(2 * phi, d_g);
    const duct = side === 1 ? Math.max(phi, d_g + 5, 50) : Math.max(phi, d_g, 40);
    return { post, side, pre, duct, a: post === 1 ? duct : pre };
  },
  unpublished: "no published result was found; its cases are tested",
});
