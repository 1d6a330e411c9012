import { choosing } from "../../choosing.ts";
import { stepwise } from "../../formula.ts";
import { as, type Quantity } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { around, partAbove, widthAt } from "./around.ts";
import { outline, outlineArea, outlineCentroid, outlineInertia, outlinePerimeter } from "./outline.ts";
import { polygon, type Point } from "./polygon.ts";
import { levelProperty, outlineProperty } from "./property.ts";

const level = as(q.heightAboveSoffit, { symbol: "y", text: "height in the coordinates of the outline" });
const notes = [
  "The outline closes by itself; either way round will do. A void is joined to the outside by a slit: " +
    "the points run to it and back along the same line.",
];

const infinite = [-Infinity, Infinity] as const;
const areaBelow = (points: readonly Point[], y: number): number => around(points, (x) => x, -Infinity, y);
const lateralCentroid = (points: readonly Point[]): number =>
  around(points, (x) => (x * x) / 2, ...infinite) / around(points, (x) => x, ...infinite);

/** Shoelace area of points in order, without looking whether they cross. */
function shoelace(points: readonly Point[]): number {
  return Math.abs(
    points.reduce((sum, p, i) => {
      const next = points[(i + 1) % points.length]!;
      return sum + p.x * next.y - next.x * p.y;
    }, 0) / 2,
  );
}

/** What lies below a height: what lies above it in the mirror. */
const partBelow = (points: readonly Point[], level: number): readonly Point[] =>
  partAbove(
    points.map(({ x, y }) => ({ x, y: -y })),
    -level,
  ).map(({ x, y }) => ({ x, y: -y }));

/** A second value. The difference is judged by its size; slivers, which rounding of the heights blurs, by a millionth of the whole. */
const against = (value: number, whole: number): readonly [number, number] => [value, value + 1e-6 * whole];

/** The width by pairing the crossings from the left, a little above and below. */
function widthByCrossings(points: readonly Point[], y: number): number {
  const beside = (above: boolean): number => {
    const at = points
      .flatMap((p, i) => {
        const next = points[(i + 1) % points.length]!;
        const [a, b] = above ? [p.y <= y, next.y <= y] : [p.y < y, next.y < y];
        return a === b ? [] : [p.x + ((next.x - p.x) * (y - p.y)) / (next.y - p.y)];
      })
      .sort((a, b) => a - b);
    return at.reduce((sum, x, i) => sum + (i % 2 === 0 ? -x : x), 0);
  };
  return Math.min(beside(true), beside(false));
}

interface Kind {
  readonly summary: string;
  readonly notes?: readonly string[];
  readonly result: Quantity;
  readonly governing: string;
  readonly compute: (points: readonly Point[], y: number) => number;
  /** A second way and what its difference is measured by. */
  readonly again: (points: readonly Point[], y: number) => readonly [value: number, scale: number];
  readonly unpublished: string;
}

/** Trapezia of the edges in x: moments about the vertical axis, apart from the rule in y. */
function byStrips(points: readonly Point[], f: (a: Point, b: Point) => number): number {
  const clockwise = points.reduce((sum, p, i) => {
    const next = points[(i + 1) % points.length]!;
    return sum + p.x * next.y - next.x * p.y;
  }, 0);
  const sum = points.reduce((total, p, i) => total + f(p, points[(i + 1) % points.length]!), 0);
  return clockwise < 0 ? -sum : sum;
}
const cross = (a: Point, b: Point): number => a.x * b.y - b.x * a.y;
const reach = (points: readonly Point[]): number => Math.max(...points.map((p) => Math.abs(p.x)), 1);
const rise = (points: readonly Point[]): number => Math.max(...points.map((p) => Math.abs(p.y)), 1);

const width: Kind = {
  summary: "Width of a section given point by point at a height",
  notes: ["At a step, as between web and flange, the narrower side counts. Voids are not counted."],
  result: q.widthAtLevel,
  governing: "b(y) = \\sum_i \\pm x_i(y)",
  compute: widthAt,
  again: (points, y) => [widthByCrossings(points, y), reach(points)],
  unpublished: "Geometry; tests compare it with rectangles and with the crossings paired from the left.",
};

const areaBelowLevel: Kind = {
  summary: "Area of a section given point by point below a height",
  result: q.partArea,
  governing: "A(y) = \\int_{\\eta<y} dA",
  compute: (points, y) => Math.max(0, areaBelow(points, y)),
  again: (points, y) => against(shoelace(partBelow(points, y)), shoelace(points)),
  unpublished: "Geometry; tests compare it with rectangles and with the outline cut in two.",
};

const firstMoment: Kind = {
  summary: "First moment of the part of a section beyond a height, about the centroid of the whole",
  notes: ["The part above and the part below have the same moment without sign; it is given positive."],
  result: q.firstMoment,
  governing: "S(y) = \\int_{\\eta>y} (\\eta - y_b)\\,dA",
  compute: (points, y) => {
    const { y: centroid } = polygon(points, "outline", "the outline");
    // The part that does not hold the centroid: small ones keep their digits.
    const [from, to] = y >= centroid ? [y, Infinity] : [-Infinity, y];
    return Math.abs(around(points, (x, eta) => x * (eta - centroid), from, to));
  },
  again: (points, y) => {
    const { y: centroid } = polygon(points, "outline", "the outline");
    const part = y >= centroid ? partAbove(points, y) : partBelow(points, y);
    const moved = part.map((p) => ({ x: p.x, y: p.y - centroid }));
    const S = Math.abs(byStrips(moved, (p, next) => (cross(p, next) * (p.y + next.y)) / 6));
    return against(S, shoelace(points) * rise(points));
  },
  unpublished: "Geometry; tests compare it with rectangles and with the part cut off as a polygon.",
};

const lateralCentroidKind: Kind = {
  summary: "Horizontal coordinate of the centroid of a section given point by point",
  result: q.lateralOffset,
  governing: "z_s = \\frac{1}{A}\\int z\\,dA",
  compute: lateralCentroid,
  again: (points) => [byStrips(points, (a, b) => (cross(a, b) * (a.x + b.x)) / 6) / shoelace(points), reach(points)],
  unpublished: "Geometry; tests compare it with the sum of triangles from the origin.",
};

const lateralInertia: Kind = {
  summary: "Second moment of area about the vertical axis through the centroid, for weak-axis bending",
  result: as(q.secondMoment, {
    symbol: "I_z",
    text: "second moment of area about the vertical axis through the centroid",
  }),
  governing: "I_z = \\int (z - z_s)^2\\,dA",
  compute: (points) => {
    const z = lateralCentroid(points);
    return around(points, (x) => (x - z) ** 3 / 3, ...infinite);
  },
  again: (points) => {
    const z = lateralCentroid(points);
    const about = byStrips(points, (a, b) => (cross(a, b) * (a.x * a.x + a.x * b.x + b.x * b.x)) / 12);
    return [about - shoelace(points) * z * z, shoelace(points) * reach(points) ** 2];
  },
  unpublished: "Geometry; tests compare it with the sum of triangles from the origin.",
};

const productInertia: Kind = {
  summary: "Product moment of area about the axes through the centroid; 0 for a section symmetrical about one of them",
  notes: ["Where it is not 0, bending about the horizontal axis alone is not what the loads cause."],
  result: q.productMoment,
  governing: "I_{yz} = \\int (y - y_b)(z - z_s)\\,dA",
  compute: (points) => {
    const z = lateralCentroid(points);
    const { y } = polygon(points, "outline", "the outline");
    return around(points, (x, eta) => ((x - z) ** 2 / 2) * (eta - y), ...infinite);
  },
  again: (points) => {
    const A = shoelace(points);
    const about = byStrips(
      points,
      (a, b) => (cross(a, b) * (a.x * b.y + 2 * a.x * a.y + 2 * b.x * b.y + b.x * a.y)) / 24,
    );
    const { y } = polygon(points, "outline", "the outline");
    return [about - A * lateralCentroid(points) * y, A * reach(points) * rise(points)];
  },
  unpublished: "Geometry; tests compare it with the sum of triangles from the origin.",
};

/** What the declarations of both kinds have in common. */
function common(kind: Kind) {
  return {
    family: "section",
    summary: kind.summary,
    ...(kind.notes && { notes: kind.notes }),
    source: mechanics,
    result: kind.result,
    steps: { value: { symbol: kind.result.symbol, unit: kind.result.unit, governing: kind.governing } },
    unpublished: kind.unpublished,
  } as const;
}
function computed(kind: Kind, points: readonly Point[], y: number): { readonly value: number } {
  polygon(points, "outline", "the outline");
  return { value: kind.compute(points, y) };
}
function difference(kind: Kind, points: readonly Point[], y: number, value: number): number {
  const [again, scale] = kind.again(points, y);
  return (value - again) / scale;
}

const atLevel = (kind: Kind) =>
  stepwise({
    ...common(kind),
    id: "OUTLINE_AT_LEVEL",
    params: { outline, y: level },
    limits: ({ outline: points }) => ({
      y: {
        min: Math.min(...points.map((p) => p.y)),
        max: Math.max(...points.map((p) => p.y)),
        because: "the height of the section",
      },
    }),
    compute: ({ outline: points, y }) => computed(kind, points, y),
    proof: ({ outline: points, y }, { value }) => difference(kind, points, y, value),
  });
const ofWhole = (kind: Kind) =>
  stepwise({
    ...common(kind),
    id: "OUTLINE_SECTION",
    params: { outline },
    compute: ({ outline: points }) => computed(kind, points, 0),
    proof: ({ outline: points }, { value }) => difference(kind, points, 0, value),
  });

/** What shear and cracking need of a section given point by point. */
export const outlineAtLevel = choosing({
  id: "OUTLINE_AT_LEVEL",
  family: "section",
  summary: "Width, area below or first moment of a section given point by point, at a height",
  notes,
  by: { property: levelProperty },
  as: { WIDTH: atLevel(width), AREA_BELOW: atLevel(areaBelowLevel), FIRST_MOMENT: atLevel(firstMoment) },
  order: ["outline", "y", "property"],
  result: q.levelProperty,
});

/** Sections given point by point. */
export const outlineSection = choosing({
  id: "OUTLINE_SECTION",
  family: "section",
  summary: "Area, centroid, second moment or another property of a section given point by point",
  notes: [
    "The outline closes by itself from the last point to the first; either way round will do.",
    "Heights run upward; measured from the soffit they give y_b above the soffit.",
    "The properties about the vertical axis are not asked with voids: join a void to the outside by a " +
      "slit, along which the points run to it and back.",
  ],
  by: { property: outlineProperty },
  as: {
    AREA: outlineArea,
    CENTROID: outlineCentroid,
    INERTIA: outlineInertia,
    PERIMETER: outlinePerimeter,
    LATERAL_CENTROID: ofWhole(lateralCentroidKind),
    LATERAL_INERTIA: ofWhole(lateralInertia),
    PRODUCT_INERTIA: ofWhole(productInertia),
  },
  order: ["outline", "property", "voids"],
  result: q.sectionProperty,
});
