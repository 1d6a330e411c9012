import { formula, stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

/** How much of the prestress bond has built up. */
export const bondFraction = stepwise({
  id: "BOND_FRACTION",
  family: "transmission",
  summary: "Part of the full prestress of a tendon that bond has built up at x, from both ends of the member; 0 to 1",
  notes: [
    "Rises in a straight line over the transmission length, from the end of the debonded length; the bond stress is taken as constant.",
    "Where the two ends overlap, the smaller counts.",
  ],
  source: mechanics,
  params: {
    L: as(q.span, { text: "length of the member" }),
    a_left: as(q.debondedLength, { symbol: "a_l", text: "length debonded from the left end" }),
    a_right: as(q.debondedLength, { symbol: "a_r", text: "length debonded from the right end" }),
    l_pt: as(q.transmissionLength, { above: 0 }),
    x: q.station,
  },
  limits: ({ L }) => ({ x: { max: L, because: "the length of the member" } }),
  result: q.bondFraction,
  steps: {
    left: { symbol: "β_l", unit: "–", text: "from the left end", equation: "max(0, min(1, (x - a_left) / l_pt))" },
    right: {
      symbol: "β_r",
      unit: "–",
      text: "from the right end",
      equation: "max(0, min(1, (L - x - a_right) / l_pt))",
    },
    beta: { symbol: "β", unit: "–", equation: "min(left, right)" },
  },
  compute: ({ x, L, a_left, a_right, l_pt }) => {
    const left = Math.max(0, Math.min(1, (x - a_left) / l_pt));
    const right = Math.max(0, Math.min(1, (L - x - a_right) / l_pt));
    return { left, right, beta: Math.min(left, right) };
  },
  unpublished: "a straight line; no published result was found",
});

/** Where a tendon has its full prestress. */
export const transmissionEnd = formula({
  id: "TRANSMISSION_END",
  family: "transmission",
  summary: "Distance from the member's end at which a tendon has its full prestress, in m",
  source: mechanics,
  params: { a: q.debondedLength, l_pt: q.transmissionLength },
  result: as(q.station, { text: "distance of the end of transmission from the member's end" }),
  equation: "a + l_pt",
  compute: ({ a, l_pt }) => a + l_pt,
  unpublished: "one sum; no published result was found",
});
