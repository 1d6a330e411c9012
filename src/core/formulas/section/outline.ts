import { InputError } from "../../errors.ts";
import { stepwise, type Formula } from "../../formula.ts";
import { as, format, table, type Quantity } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { polygon, polygonByTrapezia, refuseOutside, refuseOverlap, type Moments, type Point } from "./polygon.ts";

export const outline = table({
  key: "outline",
  symbol: "outline",
  text: "points of the outline, in order round the section",
  columns: { x: q.outlineX, y: q.outlineY },
  minRows: 3,
  maxRows: 500,
});
const voids = table({
  key: "voids",
  symbol: "voids",
  text: "points of the voids, in order round each",
  columns: { n: as(q.rank, { symbol: "no.", text: "number of the void" }), x: q.outlineX, y: q.outlineY },
  minRows: 3,
  maxRows: 4000,
  optional: true,
});
type VoidPoint = Point & { readonly n: number };

interface Hollow {
  readonly name: string;
  readonly ring: readonly Point[];
}

function hollows(all: readonly VoidPoint[]): readonly Hollow[] {
  const byNumber = new Map<number, Point[]>();
  for (const p of all) {
    const ring = byNumber.get(p.n);
    if (ring) ring.push(p);
    else byNumber.set(p.n, [p]);
  }
  return [...byNumber].map(([n, ring]) => {
    if (ring.length < 3)
      throw new InputError(
        "voids",
        `void ${n} has ${ring.length} point${ring.length === 1 ? "" : "s"}; at least 3 are needed`,
      );
    return { name: `void ${n}`, ring };
  });
}

function less(
  whole: Pick<Moments, "A" | "y" | "I">,
  holes: readonly Pick<Moments, "A" | "y" | "I">[],
): Pick<Moments, "A" | "y" | "I"> {
  const A = holes.reduce((sum, v) => sum - v.A, whole.A);
  const y = holes.reduce((sum, v) => sum - v.A * v.y, whole.A * whole.y) / A;
  const I = holes.reduce((sum, v) => sum - v.I - v.A * (v.y - y) ** 2, whole.I + whole.A * (whole.y - y) ** 2);
  return { A, y, I };
}

function section(points: readonly Point[], voidPoints: readonly VoidPoint[]): Moments {
  const whole = polygon(points, "outline", "the outline");
  const all = hollows(voidPoints);
  const holes = all.map(({ name, ring }) => polygon(ring, "voids", name));
  all.forEach(({ name, ring }, i) => {
    refuseOutside(points, ring, name);
    for (const other of all.slice(0, i)) refuseOverlap(other.ring, ring, [other.name, name]);
  });
  const hollow = holes.reduce((sum, v) => sum + v.A, 0);
  if (hollow >= whole.A)
    throw new InputError(
      "voids",
      `the voids have an area of ${format(hollow)} mm²; it must be below that of the outline, ${format(whole.A)} mm²`,
    );
  return { ...less(whole, holes), u: whole.u };
}

const kinds: readonly {
  readonly suffix: string;
  readonly pick: "A" | "y" | "I" | "u";
  readonly text: string;
  readonly result: Quantity;
  readonly governing: string;
}[] = [
  {
    suffix: "AREA",
    pick: "A",
    text: "Area",
    result: q.area,
    governing: "A = \\tfrac12\\left|\\sum_i (x_i y_{i+1} - x_{i+1} y_i)\\right| - \\sum A_{void}",
  },
  {
    suffix: "CENTROID",
    pick: "y",
    text: "Height of the centroid",
    result: q.centroidHeight,
    governing: "y_b = \\frac{1}{6A}\\sum_i (x_i y_{i+1} - x_{i+1} y_i)(y_i + y_{i+1})",
  },
  {
    suffix: "INERTIA",
    pick: "I",
    text: "Second moment of area about the horizontal axis through the centroid",
    result: q.secondMoment,
    governing: "I = \\frac{1}{12}\\sum_i (x_i y_{i+1} - x_{i+1} y_i)(y_i^2 + y_i y_{i+1} + y_{i+1}^2) - A y_b^2",
  },
  {
    suffix: "PERIMETER",
    pick: "u",
    text: "Perimeter of the outline, voids not counted",
    result: q.perimeter,
    governing: "u = \\sum_i \\sqrt{(x_{i+1}-x_i)^2 + (y_{i+1}-y_i)^2}",
  },
];

/** Sections given point by point, with voids. */
export const outlineFormulas = kinds.map(
  ({ suffix, pick, text, result, governing }) =>
    stepwise({
      id: `OUTLINE_${suffix}`,
      family: "section",
      summary: `${text} of a section given point by point, with voids`,
      notes: [
        "The outline closes by itself from the last point to the first; either way round will do.",
        "Heights run upward; measured from the soffit they give y_b above the soffit.",
      ],
      source: mechanics,
      params: { outline, voids },
      result,
      steps: { [pick]: { symbol: result.symbol, unit: result.unit, governing } },
      compute: ({ outline: points, voids: voidPoints }) => ({
        [pick]: section(points, voidPoints as readonly VoidPoint[])[pick],
      }),
      proof: ({ outline: points, voids: voidPoints }, steps) => {
        if (pick === "u") {
          const there = points.reduce(
            (sum, p, i) => sum + Math.sqrt((p.x - points.at(i - 1)!.x) ** 2 + (p.y - points.at(i - 1)!.y) ** 2),
            0,
          );
          return steps[pick]! / there - 1;
        }
        const other = less(
          polygonByTrapezia(points),
          hollows(voidPoints as readonly VoidPoint[]).map(({ ring }) => polygonByTrapezia(ring)),
        );
        const scale =
          pick === "y"
            ? Math.max(...points.map((p) => Math.abs(p.y)))
            : pick === "I"
              ? other.I + other.A * Math.max(...points.map((p) => p.y ** 2))
              : other.A;
        return (steps[pick]! - other[pick]) / scale;
      },
      ...(pick === "u" && { unpublished: "Sum of the edges; tests compare it with the standard shapes." }),
    }) as unknown as Formula,
);
