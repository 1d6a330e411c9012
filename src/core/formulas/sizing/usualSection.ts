import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import type { Source } from "../../sources.ts";

export const practice: Source = { key: "practice", basis: "practice" };

const dimension = choice({
  key: "usualDimension",
  symbol: "dimension",
  text: "section and dimension",
  values: [
    { value: "RECTANGLE_WIDTH", text: "rectangle: width" },
    { value: "T_FLANGE_WIDTH", text: "T-section: width of the flange" },
    { value: "T_FLANGE", text: "T-section: thickness of the flange" },
    { value: "T_WEB", text: "T-section: width of the web" },
    { value: "I_TOP_WIDTH", text: "I-section: width of the top flange" },
    { value: "I_TOP", text: "I-section: thickness of the top flange" },
    { value: "I_WEB", text: "I-section: width of the web" },
    { value: "I_BOTTOM_WIDTH", text: "I-section: width of the bottom flange" },
    { value: "I_BOTTOM", text: "I-section: thickness of the bottom flange" },
    { value: "BOX_WIDTH", text: "box: width" },
    { value: "BOX_TOP", text: "box: thickness of the top slab" },
    { value: "BOX_BOTTOM", text: "box: thickness of the bottom slab" },
    { value: "BOX_WEB", text: "box: thickness of each web" },
  ],
});
type Dimension = (typeof dimension)["values"][number]["value"];
type Figures = Readonly<Record<Dimension, number>>;

const shares: Figures = {
  RECTANGLE_WIDTH: 0.4,
  T_FLANGE_WIDTH: 1,
  T_FLANGE: 0.15,
  T_WEB: 0.25,
  I_TOP_WIDTH: 0.7,
  I_TOP: 0.15,
  I_WEB: 0.2,
  I_BOTTOM_WIDTH: 0.45,
  I_BOTTOM: 0.2,
  BOX_WIDTH: 1.2,
  BOX_TOP: 0.2,
  BOX_BOTTOM: 0.18,
  BOX_WEB: 0.2,
};
const least: Figures = {
  RECTANGLE_WIDTH: 200,
  T_FLANGE_WIDTH: 400,
  T_FLANGE: 100,
  T_WEB: 180,
  I_TOP_WIDTH: 300,
  I_TOP: 100,
  I_WEB: 160,
  I_BOTTOM_WIDTH: 250,
  I_BOTTOM: 120,
  BOX_WIDTH: 600,
  BOX_TOP: 150,
  BOX_BOTTOM: 150,
  BOX_WEB: 150,
};

/** A first section from its depth. */
export const usualSection = stepwise({
  id: "USUAL_SECTION",
  family: "sizing",
  summary: "A dimension of a section by usual proportions of its depth, rounded to 10 mm",
  notes: [
    "Common practice, no source: a section to start from. The member's own dimensions take its place.",
    "A share of the depth, and not less than concrete, cover and steel usually need.",
  ],
  source: practice,
  params: { h: q.sectionHeight, dimension },
  result: as(q.sectionPart, { min: 10 }),
  steps: {
    share: { symbol: "s", unit: "–", text: "share of the depth", lookup: { of: "dimension", values: shares } },
    min: {
      symbol: "d_min",
      unit: "mm",
      text: "least usual dimension",
      lookup: { of: "dimension", values: least },
    },
    d: {
      symbol: "d",
      unit: "mm",
      text: "rounded to 10 mm",
      governing:
        "d = 10\\,\\mathrm{mm} \\cdot \\mathrm{round}\\left(\\frac{\\max(s\\,h,\\ d_{min})}{10\\,\\mathrm{mm}}\\right)",
    },
  },
  compute: ({ h, dimension: named }) => {
    const share = valueFor(shares, named);
    const min = valueFor(least, named);
    return { share, min, d: 10 * Math.round(Math.max(share * h, min) / 10) };
  },
  /** The multiple of 10 mm that lies nearest: half a step away at most, and the upper one midway. */
  proof: ({ h }, { share, min, d }) => {
    const exact = Math.max(share * h, min);
    const off = d - exact;
    return (off > -5 - 1e-9 && off <= 5 + 1e-9 ? 0 : off) + Math.abs(d / 10 - Math.trunc(d / 10 + 0.5));
  },
  unpublished: "common practice without a source",
});
