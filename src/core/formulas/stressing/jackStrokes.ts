import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { nonePublished } from "./jack.ts";

export const jackStrokes = formula({
  id: "JACK_STROKES",
  family: "stressing",
  summary: "Number of strokes of the jack for an elongation",
  notes: [
    "Each regrip takes a draw-in into the jack's own grips: use the stroke that is left for the tendon.",
    cautions.stressing,
  ],
  source: mechanics,
  params: {
    stroke: q.jackStroke,
    elongation: as(q.elongation, { text: "elongation to be drawn, with slack and length in the jack", min: 0 }),
  },
  result: q.strokeCount,
  equation: "ceil(elongation / stroke)",
  compute: ({ elongation, stroke }) => {
    const strokes = elongation / stroke;
    const whole = Math.round(strokes);
    // What exceeds whole strokes by the last bits of a division alone takes no further stroke.
    return Math.abs(strokes - whole) <= 1e-12 * whole ? whole : Math.ceil(strokes);
  },
  unpublished: nonePublished,
});
