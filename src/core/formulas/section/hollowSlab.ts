import { choosing } from "../../choosing.ts";
import { formula, stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { anyProperty, oneCallForAll, sectionProperty } from "./property.ts";

const params = { b: q.sectionWidth, h: q.sectionHeight, n: q.voidCount, d: q.voidDiameter, y_v: q.voidHeight };
const limits = ({
  b,
  h,
  n,
  d,
}: {
  readonly b: number;
  readonly h: number;
  readonly n: number;
  readonly d: number;
}) => ({
  d: {
    max: Math.min(0.98 * h, (0.98 * b) / n),
    because: "room for the voids side by side with concrete between and around them",
  },
  y_v: { min: d / 2, max: h - d / 2, because: "voids inside the height" },
});
interface Slab {
  readonly b: number;
  readonly h: number;
  readonly n: number;
  readonly d: number;
  readonly y_v: number;
}
function compute({ b, h, n, d, y_v }: Slab): {
  readonly A_v: number;
  readonly A: number;
  readonly y_b: number;
  readonly I: number;
} {
  const A_v = (n * Math.PI * d ** 2) / 4;
  const A = b * h - A_v;
  const y_b = ((b * h * h) / 2 - A_v * y_v) / A;
  return {
    A_v,
    A,
    y_b,
    I: (b * h ** 3) / 12 + b * h * (h / 2 - y_b) ** 2 - (n * Math.PI * d ** 4) / 64 - A_v * (y_v - y_b) ** 2,
  };
}

const A_v = { symbol: "A_v", unit: "mm²", text: "area of the voids", equation: "n * pi * d^2 / 4" } as const;
const A = { symbol: "A", unit: "mm²", text: "area", equation: "b * h - A_v" } as const;
const y_b = {
  symbol: "y_b",
  unit: "mm",
  text: "height of the centroid above the soffit",
  equation: "(b * h * h / 2 - A_v * y_v) / A",
} as const;
const I = {
  symbol: "I",
  unit: "mm⁴",
  text: "second moment of area about the centroid",
  equation: "b * h^3 / 12 + b * h * (h / 2 - y_b)^2 - n * pi * d^4 / 64 - A_v * (y_v - y_b)^2",
} as const;
const shared = {
  family: "section",
  source: mechanics,
  params,
  limits,
  unpublished: "Geometry of a rectangle and circles; tests compare it with the section net of round holes.",
} as const;
const notes = [
  "A slab or plank of rectangular outline with n equal round voids in one row. Other outlines and voids: OUTLINE_SECTION.",
];

const properties = {
  AREA: stepwise({
    ...shared,
    id: "HOLLOW_SLAB",
    summary: "Area of a slab with round voids",
    result: q.area,
    steps: { A_v, A },
    compute: (v) => {
      const s = compute(v);
      return { A_v: s.A_v, A: s.A };
    },
  }),
  CENTROID: stepwise({
    ...shared,
    id: "HOLLOW_SLAB",
    summary: "Height of the centroid above the soffit of a slab with round voids",
    result: q.centroidHeight,
    steps: { A_v, A, y_b },
    compute: (v) => {
      const s = compute(v);
      return { A_v: s.A_v, A: s.A, y_b: s.y_b };
    },
  }),
  INERTIA: stepwise({
    ...shared,
    id: "HOLLOW_SLAB",
    summary: "Second moment of area of a slab with round voids about the horizontal axis through the centroid",
    result: q.secondMoment,
    steps: { A_v, A, y_b, I },
    compute,
  }),
  PERIMETER: formula({
    ...shared,
    id: "HOLLOW_SLAB",
    summary: "Drying perimeter of a slab with round voids: the outer surface and a share of the inner",
    notes: ["The inner surface counts with the share s, none of it where s is left out."],
    params: {
      ...params,
      s: as(q.share, { text: "share of the inner surface that dries: 0 none, 1 all of it", default: 0 }),
    },
    result: q.perimeter,
    equation: "2 * (b + h) + s * n * pi * d",
    compute: ({ b, h, n, d, s }) => 2 * (b + h) + s * n * Math.PI * d,
  }),
};

/** Slabs with round voids in one row. */
export const hollowSlab = choosing({
  id: "HOLLOW_SLAB",
  family: "section",
  summary: "Area, centroid, second moment or drying perimeter of a slab with round voids",
  notes,
  by: { property: sectionProperty },
  ignored: oneCallForAll,
  as: properties,
  order: ["b", "h", "n", "d", "y_v", "property", "s"],
  result: anyProperty,
});
