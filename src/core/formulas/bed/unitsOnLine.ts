import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

/** How many units a line takes. */
export const unitsOnLine = formula({
  id: "UNITS_ON_LINE",
  family: "bed",
  summary: "Number of units that fit on a long line, with the gaps between them",
  notes: ["What the stressing gear, the first and the last unit leave free at both ends holds no unit."],
  source: mechanics,
  params: {
    L_bed: q.bedLength,
    L_u: as(q.span, { symbol: "L_u", text: "length of one unit, end to end" }),
    gap: q.unitGap,
    ends: as(q.lineEnds, { default: 0 }),
  },
  limits: ({ L_bed }) => ({ ends: { max: L_bed, because: "the length of the line" } }),
  result: q.unitsOnLine,
  equation: "floor((L_bed - ends + gap) / (L_u + gap))",
  compute: ({ L_bed, L_u, gap, ends }) => {
    const exact = (L_bed - ends + gap) / (L_u + gap);
    const whole = Math.round(exact);
    // Units that fill the line to the last bits of a division fit.
    return Math.abs(exact - whole) <= 1e-12 * whole ? whole : Math.floor(exact);
  },
  unpublished: "a count of lengths; no published result was found",
});
