import { InputError } from "../../errors.ts";
import { stepwise } from "../../formula.ts";
import { as, format, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import {
  apart,
  boxRound,
  polygon,
  polygonByTrapezia,
  refuseOutside,
  refuseOverlap,
  type Moments,
  type Point,
} from "./polygon.ts";

/** Of the outline or of one void: enough for any section that is drawn point by point. */
const mostPoints = 500;
export const outline = table({
  key: "outline",
  symbol: "outline",
  text: "points of the outline, in order round the section",
  columns: { x: q.outlineX, y: q.outlineY },
  minRows: 3,
  maxRows: mostPoints,
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
    if (ring.length > mostPoints)
      throw new InputError("voids", `void ${n} has ${ring.length} points; at most ${mostPoints} are allowed`);
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
  const boxes = all.map(({ ring }) => boxRound(ring));
  all.forEach(({ name, ring }, i) => {
    refuseOutside(points, ring, name);
    for (let j = 0; j < i; j++) {
      if (apart(boxes[j]!, boxes[i]!)) continue;
      refuseOverlap(all[j]!.ring, ring, [all[j]!.name, name]);
    }
  });
  const hollow = holes.reduce((sum, v) => sum + v.A, 0);
  if (hollow >= whole.A)
    throw new InputError(
      "voids",
      `the voids have an area of ${format(hollow)} mm²; it must be below that of the outline, ${format(whole.A)} mm²`,
    );
  return { ...less(whole, holes), u: whole.u };
}

const shared = { id: "OUTLINE_SECTION", family: "section", source: mechanics, params: { outline, voids } } as const;

/** The section less its voids by another rule, for the proofs. */
const again = ({ outline: points, voids: voidPoints }: Given): Pick<Moments, "A" | "y" | "I"> =>
  less(
    polygonByTrapezia(points),
    hollows(voidPoints).map(({ ring }) => polygonByTrapezia(ring)),
  );
interface Given {
  readonly outline: readonly Point[];
  readonly voids: readonly VoidPoint[];
}

export const outlineArea = stepwise({
  ...shared,
  summary: "Area of a section given point by point, with voids",
  result: q.area,
  steps: {
    A: {
      symbol: "A",
      unit: "mm²",
      governing: "A = \\tfrac12\\left|\\sum_i (x_i y_{i+1} - x_{i+1} y_i)\\right| - \\sum A_{void}",
    },
  },
  compute: (v) => ({ A: section(v.outline, v.voids).A }),
  proof: (v, { A }) => {
    const other = again(v);
    return (A - other.A) / other.A;
  },
});

export const outlineCentroid = stepwise({
  ...shared,
  summary: "Height of the centroid of a section given point by point, with voids",
  result: q.centroidHeight,
  steps: {
    y: {
      symbol: "y_b",
      unit: "mm",
      governing: "y_b = \\frac{1}{6A}\\sum_i (x_i y_{i+1} - x_{i+1} y_i)(y_i + y_{i+1})",
    },
  },
  compute: (v) => ({ y: section(v.outline, v.voids).y }),
  proof: (v, { y }) => (y - again(v).y) / Math.max(...v.outline.map((p) => Math.abs(p.y))),
});

export const outlineInertia = stepwise({
  ...shared,
  summary: "Second moment of area about the horizontal axis through the centroid of a section given point by point",
  result: q.secondMoment,
  steps: {
    I: {
      symbol: "I",
      unit: "mm⁴",
      governing: "I = \\frac{1}{12}\\sum_i (x_i y_{i+1} - x_{i+1} y_i)(y_i^2 + y_i y_{i+1} + y_{i+1}^2) - A y_b^2",
    },
  },
  compute: (v) => ({ I: section(v.outline, v.voids).I }),
  proof: (v, { I }) => {
    const other = again(v);
    return (I - other.I) / (other.I + other.A * Math.max(...v.outline.map((p) => p.y ** 2)));
  },
});

export const outlinePerimeter = stepwise({
  ...shared,
  summary: "Perimeter of the outline of a section given point by point, voids not counted",
  result: q.perimeter,
  steps: {
    u: { symbol: "u", unit: "mm", governing: "u = \\sum_i \\sqrt{(x_{i+1}-x_i)^2 + (y_{i+1}-y_i)^2}" },
  },
  compute: (v) => ({ u: section(v.outline, v.voids).u }),
  proof: ({ outline: points }, { u }) => {
    const there = points.reduce(
      (sum, p, i) => sum + Math.sqrt((p.x - points.at(i - 1)!.x) ** 2 + (p.y - points.at(i - 1)!.y) ** 2),
      0,
    );
    return u / there - 1;
  },
  unpublished: "Sum of the edges; tests compare it with the standard shapes.",
});
