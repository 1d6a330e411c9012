import { choosing } from "../../choosing.ts";
import { formula, stepwise } from "../../formula.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

/** Uniform load of a member's own weight. */
export const selfWeight = formula({
  id: "SELF_WEIGHT",
  family: "loading",
  summary: "Self-weight per metre of a member from its gross area",
  source: mechanics,
  params: { A: q.area, gamma_c: q.unitWeight },
  result: as(q.lineLoad, { symbol: "g" }),
  equation: "A * gamma_c",
  compute: ({ A, gamma_c }) => A * gamma_c,
  unpublished: "Area times unit weight.",
});

/** Moment of a simply supported span under a uniform load. */
const onEnds = formula({
  id: "MOMENT_UNIFORM",
  family: "loading",
  summary: "Bending moment at x of a simply supported span under a uniform load, sagging positive",
  source: mechanics,
  params: { w: q.lineLoad, L: q.span, x: q.station },
  limits: ({ L }) => ({ x: { min: 0, max: L, because: "the span" } }),
  result: q.moment,
  equation: "w * x * (L - x) / 2",
  compute: ({ w, L, x }) => (w * x * (L - x)) / 2,
});

/** Moment of a member lifted or stored on two supports away from its ends. */
const overhanging = stepwise({
  id: "MOMENT_UNIFORM",
  family: "loading",
  summary:
    "Bending moment at x of a member lifted or stored on two supports at distance a from its ends, sagging positive",
  notes: ["The supports stand symmetrically. Between the end and a support the moment is hogging, so negative."],
  source: mechanics,
  params: { w: q.lineLoad, L: as(q.span, { text: "length of the member" }), a: q.overhang, x: q.station },
  limits: ({ L }) => ({
    a: { max: L / 2, because: "half the length" },
    x: { max: L, because: "the length of the member" },
  }),
  result: q.moment,
  steps: {
    reaction: { symbol: "R", unit: "kN", equation: "w * L / 2", text: "reaction of each support" },
    M: {
      symbol: "M",
      unit: "kN·m",
      equation: "reaction * (max(x - a, 0) + max(x - (L - a), 0)) - w * x^2 / 2",
      text: "loads and reactions to the left of x",
    },
  },
  compute: ({ w, L, a, x }) => {
    const reaction = (w * L) / 2;
    return { reaction, M: reaction * (Math.max(x - a, 0) + Math.max(x - (L - a), 0)) - (w * x * x) / 2 };
  },
  unpublished: "Statics of a beam with two overhangs; tests compare it with an integration of the shear force.",
});

/** Moments of a uniform load, on supports at the ends or away from them. */
export const momentUniform = choosing({
  id: "MOMENT_UNIFORM",
  family: "loading",
  summary:
    "Bending moment at x under a uniform load, on supports at the ends or at a distance from them; sagging positive",
  by: {
    supports: choice({
      key: "uniformLoadSupports",
      symbol: "supports",
      text: "where the two supports stand",
      default: "ENDS",
      values: [
        { value: "ENDS", text: "at the ends" },
        { value: "OVERHANG", text: "at the distance a from both ends, as lifted or stored" },
      ],
    }),
  },
  as: { ENDS: onEnds, OVERHANG: overhanging },
  order: ["L", "w", "x", "supports", "a"],
  joint: { L: as(q.span, { text: "span, or length of the member" }) },
});
