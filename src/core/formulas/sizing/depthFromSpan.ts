import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { practice } from "./usualSection.ts";

const ratios = { RECTANGLE: 15, T: 18, I: 20, BOX: 22 };

const section = choice({
  key: "sizedSection",
  symbol: "section",
  text: "kind of section",
  values: [
    { value: "RECTANGLE", text: "rectangle" },
    { value: "T", text: "T-section" },
    { value: "I", text: "I-section" },
    { value: "BOX", text: "box" },
  ],
});

/** A first depth from the span. */
export const depthFromSpan = stepwise({
  id: "DEPTH_FROM_SPAN",
  family: "sizing",
  summary: "Depth to start from, by the span of a simply supported prestressed beam, rounded up",
  notes: [
    "Common practice, no source: ratios of span to depth are 12 to 18 for rectangles, 15 to 22 for T-sections, 16 to 25 " +
      "for I-sections and 18 to 28 for boxes; one in the middle is taken. Heavy loads ask for more depth.",
  ],
  source: practice,
  params: { L: q.span, section, step: as(q.depthStep, { default: 50 }) },
  result: as(q.sectionHeight, { max: 20_000 }),
  steps: {
    ratio: { symbol: "L/h", unit: "–", text: "span over depth", lookup: { of: "section", values: ratios } },
    h: {
      symbol: "h",
      unit: "mm",
      governing: "h = \\left\\lceil \\frac{L}{(L/h)\\,\\Delta h} \\right\\rceil \\Delta h",
    },
  },
  compute: ({ L, section: named, step }) => {
    const ratio = valueFor(ratios, named);
    return { ratio, h: Math.ceil(L / ratio / step - 1e-9) * step };
  },
  /** A whole number of steps, enough, and one step less would not be. */
  proof: ({ L, step }, { ratio, h }) => {
    const enough = h * ratio >= L * (1 - 1e-8) && (h - step) * ratio < L * (1 + 1e-8);
    return enough ? Math.abs(h / step - Math.round(h / step)) : 1;
  },
  unpublished: "common practice without a source",
});
