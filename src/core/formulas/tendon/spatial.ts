import { InputError, NoResult } from "../../errors.ts";
import { stepwise, type Formula } from "../../formula.ts";
import { as, format } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { frictionLaws } from "../friction/laws.ts";
import { mechanics } from "../mechanics.ts";
import { controlPoints, jackingEnd, type ControlPoint } from "./controlPoints.ts";
import { integrate } from "./integrate.ts";
import { breaks, left, profile, right, slopeAt, slopeBeside, within, type Profile } from "./profile.ts";
import { angleInSpace, checkSegments, lengthOf, segmentsTable, withinLength } from "./segments.ts";

const x = as(q.controlX, { text: "distance from the left end of the tendon" });
const planPoints = {
  ...controlPoints,
  key: "planPoints",
  symbol: "plan",
  text: "control points of the tendon in plan from left to right, with the offset from a line along the span; same ends as in elevation",
  columns: {
    ...controlPoints.columns,
    e: as(q.eccentricity, { symbol: "y", text: "offset in plan from a line along the span" }),
  },
};
const notes = [
  "The tendon is described twice, in elevation and in plan, each by control points; both descriptions begin and end at the same x.",
  "Curvatures of both views are taken together at each place, √(κ_v² + κ_h²), as is done for flat tendons.",
];

interface Views {
  readonly v: Profile;
  readonly h: Profile;
}

function views(points: readonly ControlPoint[], plan: readonly ControlPoint[]): Views {
  const [v, h] = [profile(points), profile(plan)];
  const slack = 1e-9 * (right(v) - left(v));
  if (Math.abs(left(v) - left(h)) > slack || Math.abs(right(v) - right(h)) > slack) {
    throw new InputError(
      "plan",
      `the tendon runs from x = ${format(left(v) / 1000)} to ${format(right(v) / 1000)} m in elevation but from ${format(left(h) / 1000)} to ${format(right(h) / 1000)} m in plan; both must be the same`,
    );
  }
  return { v, h };
}

const stops = ({ v, h }: Views): readonly number[] => [...new Set([...breaks(v), ...breaks(h)])].sort((a, b) => a - b);

/** Rate of turning of one view at x: e''/(1 + e'²). */
function turning(p: Profile, at: number): number {
  const s = p.find(({ to }) => at < to) ?? p.at(-1)!;
  return (s.end - s.start) / (s.to - s.from) / (1 + slopeAt(p, at) ** 2);
}

/** Kink of one view at x, without sign. */
function kink(p: Profile, at: number): number {
  const i = p.findIndex(({ to }) => to === at);
  const next = p[i + 1];
  return i < 0 || !next ? 0 : Math.abs(Math.atan(next.start) - Math.atan(p[i]!.end));
}

function angleBetween(w: Views, a: number, b: number): number {
  const smooth = integrate((at) => angleInSpace(turning(w.v, at), turning(w.h, at)), a, b, stops(w));
  return stops(w).reduce(
    (sum, at) => (at > a && at <= b ? sum + angleInSpace(kink(w.v, at), kink(w.h, at)) : sum),
    smooth,
  );
}

/** The same by short chords of both directions: the change of each view's angle over many small steps. */
function angleBySteps(w: Views, a: number, b: number): number {
  const at = [a, ...stops(w).filter((s) => s > a && s < b), b];
  const n = 256;
  // The error of chords falls with the square of the step: two step widths leave it out.
  const sum = (count: number, from: number, to: number): number => {
    let total = 0;
    const angle = (p: Profile, s: number): number => Math.atan(slopeBeside(p, s, (from + to) / 2));
    for (let i = 0; i < count; i++) {
      const [l, r] = [from + ((to - from) * i) / count, from + ((to - from) * (i + 1)) / count];
      total += angleInSpace(angle(w.v, r) - angle(w.v, l), angle(w.h, r) - angle(w.h, l));
    }
    return total;
  };
  const smooth = at
    .slice(1)
    .reduce((total, to, i) => total + (to > at[i]! ? (4 * sum(2 * n, at[i]!, to) - sum(n, at[i]!, to)) / 3 : 0), 0);
  return stops(w).reduce(
    (total, s) => (s > a && s <= b ? total + angleInSpace(kink(w.v, s), kink(w.h, s)) : total),
    smooth,
  );
}

const tendonAngleSpatial = stepwise({
  id: "TENDON_ANGLE_SPATIAL",
  family: "tendon",
  summary:
    "Sum of angle changes in space of a tendon curved in elevation and in plan, from one place to another further right",
  notes: [
    ...notes,
    "Reverse curvature adds. Kinks count where they are passed or where the interval ends on them, not where it begins.",
  ],
  source: mechanics,
  params: { points: controlPoints, plan: planPoints, x_1: as(x, { symbol: "x_1" }), x_2: as(x, { symbol: "x_2" }) },
  limits: ({ x_1 }) => ({ x_2: { min: x_1, because: "x_1" } }),
  result: q.angle,
  steps: {
    alpha: {
      symbol: "α",
      unit: "rad",
      governing:
        "\\alpha = \\int_{x_1}^{x_2} \\sqrt{\\alpha_v'^2 + \\alpha_h'^2}\\,dx + \\sum_{kinks}\\sqrt{\\Delta\\alpha_v^2 + \\Delta\\alpha_h^2}",
    },
  },
  compute: ({ points, plan, x_1, x_2 }) => {
    const w = views(points, plan);
    return { alpha: angleBetween(w, within(w.v, x_1, "x_1"), within(w.v, x_2, "x_2")) };
  },
  proof: ({ points, plan, x_1, x_2 }, { alpha }) => {
    const w = views(points, plan);
    return (alpha - angleBySteps(w, within(w.v, x_1), within(w.v, x_2))) / (1 + alpha);
  },
  unpublished: "No published number found; a tendon straight in plan gives TENDON_ANGLE, which is checked.",
});

/** Curvature of the curve (x, e, y) in space at x, on the stretch on which another place lies, from its first and second derivatives. */
function curvature({ v, h }: Views, at: number, beside: number, bend_v: number, bend_h: number): number {
  const [a, b] = [slopeBeside(v, at, beside), slopeBeside(h, at, beside)];
  return Math.sqrt(bend_v ** 2 + bend_h ** 2 + (a * bend_h - b * bend_v) ** 2) / (1 + a * a + b * b) ** 1.5;
}

function smallestRadius(w: Views): number {
  const all = stops(w);
  const stretch = all.slice(1).flatMap((to, i) => {
    const from = all[i]!;
    const middle = (from + to) / 2;
    const bend = (p: Profile): number => turning(p, middle) * (1 + slopeAt(p, middle) ** 2);
    const [bv, bh] = [bend(w.v), bend(w.h)];
    const all2 = bv * bv + bh * bh;
    // Its numerator is the same all along a stretch of two parabolas: the sharpest place is where the tendon is steepest to neither side.
    const level = all2 === 0 ? middle : middle - (slopeAt(w.v, middle) * bv + slopeAt(w.h, middle) * bh) / all2;
    return [curvature(w, Math.min(Math.max(level, from), to), middle, bv, bh)];
  });
  return 1 / Math.max(...stretch);
}

const tendonMinRadiusSpatial = stepwise({
  id: "TENDON_MIN_RADIUS_SPATIAL",
  family: "tendon",
  summary: "Smallest radius of curvature in space of a tendon curved in elevation and in plan; kinks not counted",
  notes: [notes[0]!, "A tendon of straight lines has none: no result."],
  source: mechanics,
  params: { points: controlPoints, plan: planPoints },
  result: q.radius,
  steps: {
    R: {
      symbol: "R_min",
      unit: "m",
      governing: "R = \\min\\frac{|r'|^3}{|r' \\times r''|},\\quad r = (x,\\ e(x),\\ y(x))",
    },
  },
  compute: ({ points, plan }) => {
    const R = smallestRadius(views(points, plan));
    if (R === Infinity) throw new NoResult("the tendon is made of straight lines and has no radius");
    return { R };
  },
  /** The circle through three neighbouring points of the curve, all along it: none is smaller, one is as small. */
  proof: ({ points, plan }, { R }) => {
    const w = views(points, plan);
    const all = stops(w);
    let least = Infinity;
    for (const [i, to] of all.slice(1).entries()) {
      const from = all[i]!;
      const middle = (from + to) / 2;
      const bend = (p: Profile): number => (slopeBeside(p, to, middle) - slopeBeside(p, from, middle)) / (to - from);
      const r = (at: number): number => 1 / curvature(w, at, middle, bend(w.v), bend(w.h));
      // Golden section on the stretch, and its ends.
      let [a, b] = [from, to];
      least = Math.min(least, r(a), r(b));
      for (let n = 0; n < 80; n++) {
        const [c, d] = [b - 0.618033988749895 * (b - a), a + 0.618033988749895 * (b - a)];
        if (r(c) < r(d)) b = d;
        else a = c;
      }
      least = Math.min(least, r((a + b) / 2));
    }
    return R / least - 1;
  },
  unpublished: "No published number found; a tendon straight in plan gives TENDON_MIN_RADIUS, which is checked.",
});

const ofSegments = frictionLaws.map(
  (law) =>
    stepwise({
      id: `TENDON_ANGLE_SEGMENTS${law.suffix}`,
      family: "tendon",
      summary: `Sum of angle changes in space of a tendon of segments, from the jacking end to x; range of segments as for friction with ${law.says}`,
      notes: [
        "Each segment turns by √(α_v² + α_h²), evenly along it; one of length 0 at once. μ and k of the range do not enter.",
      ],
      source: law.follows,
      params: { segments: segmentsTable(`tendonSegments${law.suffix}`, law.k), end: jackingEnd, x },
      result: q.angle,
      steps: {
        alpha: { symbol: "α", unit: "rad", governing: "\\alpha = \\sum_i \\sqrt{\\alpha_{v,i}^2 + \\alpha_{h,i}^2}" },
      },
      compute: ({ segments, end, x: at }) => {
        checkSegments(segments);
        return { alpha: turned(segments, end, withinLength(lengthOf(segments), at)) };
      },
      /** From both ends to x: together the whole, but for an angle at x itself. */
      proof: ({ segments, end, x: at }, { alpha }) => {
        const L = lengthOf(segments);
        const whole = segments.reduce((sum, s) => sum + Math.sqrt(s.alpha_v ** 2 + s.alpha_h ** 2), 0);
        const behind = turned(segments, end === "LEFT" ? "RIGHT" : "LEFT", withinLength(L, at), 1e-11 * L);
        return (alpha + behind - whole) / (1 + whole);
      },
      unpublished: "A sum; SPATIAL_ANGLE for each segment.",
    }) as unknown as Formula,
);

/** Angle from an end to a place, or to just before it. */
function turned(
  segments: readonly { readonly l: number; readonly alpha_v: number; readonly alpha_h: number }[],
  end: "LEFT" | "RIGHT",
  at: number,
  before = 0,
): number {
  const L = lengthOf(segments);
  const reach = (end === "LEFT" ? at : L - at) - before;
  let from = 0;
  return (end === "LEFT" ? segments : [...segments].reverse()).reduce((sum, { l, alpha_v, alpha_h }) => {
    const part = l === 0 ? (reach >= from ? 1 : 0) : Math.min(Math.max((reach - from) / l, 0), 1);
    from += l;
    return sum + part * angleInSpace(alpha_v, alpha_h);
  }, 0);
}

export const spatialFormulas: readonly Formula[] = [
  tendonAngleSpatial,
  tendonMinRadiusSpatial,
  ...ofSegments,
] as unknown as readonly Formula[];
