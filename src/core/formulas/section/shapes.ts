import { formula, type Formula } from "../../formula.ts";
import { as, type Parameters, type Quantity, type Values } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import type { Limits } from "../../formula.ts";
import { mechanics } from "../mechanics.ts";

/** Values of a section's shape; each as what the engineer reads and as code. */
interface Shape<P extends Parameters> {
  readonly id: string;
  readonly name: string;
  readonly params: P;
  readonly limits?: (values: Values<P>) => Limits<P>;
  readonly area: Property<P>;
  readonly centroid: Property<P>;
  readonly inertia: Property<P>;
  readonly perimeter: Property<P>;
}
interface Property<P extends Parameters> {
  readonly equation: string;
  readonly compute: (values: Values<P>) => number;
  readonly unpublished?: string;
}

const properties: readonly { readonly key: "area" | "centroid" | "inertia" | "perimeter"; readonly suffix: string; readonly text: string; readonly result: Quantity }[] = [
  { key: "area", suffix: "AREA", text: "Area", result: q.area },
  { key: "centroid", suffix: "CENTROID", text: "Height of the centroid above the soffit", result: q.centroidHeight },
  { key: "inertia", suffix: "INERTIA", text: "Second moment of area about the horizontal axis through the centroid", result: q.secondMoment },
  { key: "perimeter", suffix: "PERIMETER", text: "Drying perimeter: the whole outer surface", result: q.perimeter },
];

/** The four functions of one shape. */
export function shapeFormulas<const P extends Parameters>(shape: Shape<P>): readonly Formula<P>[] {
  return properties.map(({ key, suffix, text, result }) =>
    formula<P>({
      id: `${shape.id}_${suffix}`,
      family: "section",
      summary: `${text} of ${shape.name}`,
      source: mechanics,
      params: shape.params,
      ...(shape.limits && { limits: shape.limits }),
      result,
      unpublished: "Geometry of rectangles; tests compare it with the polygon rule and, for the I-section, with published sections.",
      ...shape[key],
    }),
  );
}

const width = (symbol: string, text: string): Quantity => as(q.sectionWidth, { symbol, text });
const thickness = (symbol: string, text: string): Quantity => as(q.sectionThickness, { symbol, text });

export const rectangle = shapeFormulas({
  id: "RECTANGLE",
  name: "a rectangle",
  params: { b: q.sectionWidth, h: q.sectionHeight },
  area: { equation: "b * h", compute: ({ b, h }) => b * h },
  centroid: { equation: "h / 2", compute: ({ h }) => h / 2 },
  inertia: { equation: "b * h^3 / 12", compute: ({ b, h }) => (b * h ** 3) / 12 },
  perimeter: { equation: "2 * (b + h)", compute: ({ b, h }) => 2 * (b + h) },
});

const tArea = "(b_f * t_f + b_w * (h - t_f))";
const tFirst = "(b_f * t_f * (h - t_f / 2) + b_w * (h - t_f)^2 / 2)";
export const tSection = shapeFormulas({
  id: "T_SECTION",
  name: "a T-section with the flange on top",
  params: { h: q.sectionHeight, b_f: width("b_f", "width of the flange"), t_f: thickness("t_f", "thickness of the flange"), b_w: width("b_w", "width of the web") },
  limits: ({ h, b_f }) => ({ t_f: { max: h, because: "the height h" }, b_w: { max: b_f, because: "the flange width b_f" } }),
  area: { equation: tArea, compute: (v) => parts(tParts(v)).A },
  centroid: { equation: `${tFirst} / ${tArea}`, compute: (v) => parts(tParts(v)).y },
  inertia: { equation: `b_f * t_f^3 / 12 + b_f * t_f * (h - t_f / 2)^2 + b_w * (h - t_f)^3 / 3 - ${tFirst}^2 / ${tArea}`, compute: (v) => parts(tParts(v)).I },
  perimeter: { equation: "2 * (h + b_f)", compute: ({ h, b_f }) => 2 * (h + b_f) },
});

const iArea = "(b_top * t_top + b_w * (h - t_top - t_bot) + b_bot * t_bot)";
const iFirst = "(b_top * t_top * (h - t_top / 2) + b_w * (h - t_top - t_bot) * (h - t_top + t_bot) / 2 + b_bot * t_bot^2 / 2)";
export const iSection = shapeFormulas({
  id: "I_SECTION",
  name: "an I-section",
  params: {
    h: q.sectionHeight,
    b_top: width("b_top", "width of the top flange"), t_top: thickness("t_top", "thickness of the top flange"),
    b_w: width("b_w", "width of the web"),
    b_bot: width("b_bot", "width of the bottom flange"), t_bot: thickness("t_bot", "thickness of the bottom flange"),
  },
  limits: ({ h, b_top, b_bot, t_top }) => ({
    t_top: { max: h, because: "the height h" },
    t_bot: { max: h - t_top, because: "the height below the top flange" },
    b_w: { max: Math.min(b_top, b_bot), because: "the narrower flange" },
  }),
  area: { equation: iArea, compute: (v) => parts(iParts(v)).A },
  centroid: { equation: `${iFirst} / ${iArea}`, compute: (v) => parts(iParts(v)).y },
  inertia: {
    equation: `b_top * t_top^3 / 12 + b_top * t_top * (h - t_top / 2)^2 + b_w * (h - t_top - t_bot)^3 / 12 + b_w * (h - t_top - t_bot) * ((h - t_top + t_bot) / 2)^2 + b_bot * t_bot^3 / 3 - ${iFirst}^2 / ${iArea}`,
    compute: (v) => parts(iParts(v)).I,
  },
  perimeter: { equation: "2 * (h + b_top + b_bot - b_w)", compute: ({ h, b_top, b_bot, b_w }) => 2 * (h + b_top + b_bot - b_w) },
});

const boxArea = "(b * h - (b - 2 * t_w) * (h - t_top - t_bot))";
const boxFirst = "(b * h^2 / 2 - (b - 2 * t_w) * (h - t_top - t_bot) * (h - t_top + t_bot) / 2)";
export const boxSection = shapeFormulas({
  id: "BOX_SECTION",
  name: "a box with one rectangular void",
  params: { b: q.sectionWidth, h: q.sectionHeight, t_top: thickness("t_top", "thickness of the top slab"), t_bot: thickness("t_bot", "thickness of the bottom slab"), t_w: thickness("t_w", "thickness of each web") },
  limits: ({ b, h, t_top }) => ({
    t_top: { max: h, because: "the height h" },
    t_bot: { max: h - t_top, because: "the height below the top slab" },
    t_w: { max: b / 2, because: "half the width b" },
  }),
  area: { equation: boxArea, compute: (v) => parts(boxParts(v)).A },
  centroid: { equation: `${boxFirst} / ${boxArea}`, compute: (v) => parts(boxParts(v)).y },
  inertia: {
    equation: `b * h^3 / 3 - (b - 2 * t_w) * (h - t_top - t_bot)^3 / 12 - (b - 2 * t_w) * (h - t_top - t_bot) * ((h - t_top + t_bot) / 2)^2 - ${boxFirst}^2 / ${boxArea}`,
    compute: (v) => parts(boxParts(v)).I,
  },
  perimeter: { equation: "2 * (b + h)", compute: ({ b, h }) => 2 * (b + h) },
});

/** A rectangle of a section: width (negative for a void), lower edge, upper edge. */
type Part = readonly [width: number, from: number, to: number];

function tParts({ h, b_f, t_f, b_w }: { readonly h: number; readonly b_f: number; readonly t_f: number; readonly b_w: number }): readonly Part[] {
  return [[b_w, 0, h - t_f], [b_f, h - t_f, h]];
}
function iParts(v: { readonly h: number; readonly b_top: number; readonly t_top: number; readonly b_w: number; readonly b_bot: number; readonly t_bot: number }): readonly Part[] {
  return [[v.b_bot, 0, v.t_bot], [v.b_w, v.t_bot, v.h - v.t_top], [v.b_top, v.h - v.t_top, v.h]];
}
function boxParts(v: { readonly b: number; readonly h: number; readonly t_top: number; readonly t_bot: number; readonly t_w: number }): readonly Part[] {
  return [[v.b, 0, v.h], [2 * v.t_w - v.b, v.t_bot, v.h - v.t_top]];
}

function parts(all: readonly Part[]): { readonly A: number; readonly y: number; readonly I: number } {
  let A = 0;
  let S = 0;
  for (const [b, from, to] of all) {
    A += b * (to - from);
    S += (b * (to - from) * (to + from)) / 2;
  }
  const y = S / A;
  // About the centroid from the start: no difference of large numbers.
  let I = 0;
  for (const [b, from, to] of all) I += (b * (to - from) ** 3) / 12 + b * (to - from) * ((to + from) / 2 - y) ** 2;
  return { A, y, I };
}
