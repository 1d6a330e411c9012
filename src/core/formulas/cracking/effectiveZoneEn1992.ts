import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Height of the concrete that the steel near the fibre keeps under tension. */
export const effectiveTensionHeightEn1992 = formula({
  id: "EFFECTIVE_TENSION_HEIGHT_EN1992_2004",
  family: "limits",
  summary: "Height of the effective tension zone round the reinforcement, from the tensioned fibre",
  notes: ["The least of 2.5(h − d), (h − x)/3 and h/2. The middle one is for bending."],
  source: { key: "EN1992-1-1:2004", clause: "7.3.2(3)", basis: "memory-high" },
  params: {
    h: q.sectionHeight,
    a_s: as(q.tendonFromFibre, { symbol: "h−d", text: "distance of the bars from the tensioned fibre", above: 0 }),
    h_x: as(q.compressionDepth, { above: 0, symbol: "h−x", text: "depth of the tension zone" }),
  },
  result: as(q.heightAboveSoffit, { symbol: "h_c,ef", text: "height of the effective tension zone" }),
  equation: "min(2.5 * a_s, h_x / 3, h / 2)",
  compute: ({ h, a_s, h_x }) => Math.min(2.5 * a_s, h_x / 3, h / 2),
  unpublished: "the least of three; its cases are tested",
});

/** Tendons as bars of the same bond. */
export const equivalentTendonDiameterEn1992 = formula({
  id: "EQUIVALENT_TENDON_DIAMETER_EN1992_2004",
  family: "limits",
  summary: "Equivalent diameter of a bundled tendon for crack control, φ_p",
  notes: [
    "For a bundle. A single strand of seven wires may take 1.75 times the diameter of its wire; the value " +
      "by area is larger and on the safe side.",
  ],
  // The rule was read; under which number it stands is recalled, and a basis is no better than its weakest part.
  source: { key: "EN1992-1-1:2004", clause: "6.8.2(2), number recalled", basis: "memory-high" },
  params: { A_p: q.tendonArea },
  result: as(q.embeddedDiameter, { symbol: "φ_p", text: "equivalent diameter of the tendon", above: 0, max: 2000 }),
  equation: "1.6 * sqrt(A_p)",
  compute: ({ A_p }) => 1.6 * Math.sqrt(A_p),
  unpublished: "one product; no published result was found",
});
