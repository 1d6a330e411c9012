import { NoResult } from "../../errors.ts";
import { formula, stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { controlPoints, jackingEnd } from "./controlPoints.ts";
import { integrate } from "./integrate.ts";
import {
  angleBetween,
  angleByCurvature,
  angleFrom,
  breaks,
  distanceFrom,
  eccentricityAt,
  fromEnd,
  left,
  profile,
  right,
  slopeAt,
  smallestRadius,
  within,
} from "./profile.ts";

const x = as(q.controlX, { text: "distance from the left end of the tendon" });
const notes = [
  "Between control points the tendon is straight or a parabola e(x) whose slope changes linearly.",
  "Eccentricity positive below the centroid.",
];

export const tendonEccentricity = stepwise({
  id: "TENDON_ECCENTRICITY",
  family: "tendon",
  summary: "Eccentricity of a tendon at x, positive below the centroid",
  notes,
  source: mechanics,
  params: { points: controlPoints, x },
  result: q.eccentricity,
  steps: {
    e: {
      symbol: "e(x)",
      unit: "mm",
      governing: "e(x) = e_i + e'_i (x - x_i) + \\frac{e'_{i+1} - e'_i}{2\\,(x_{i+1} - x_i)} (x - x_i)^2",
    },
  },
  compute: ({ points, x: at }) => {
    const p = profile(points);
    return { e: eccentricityAt(p, within(p, at)) };
  },
  /** From the first point along the integral of the slope. */
  proof: ({ points, x: at }, { e }) => {
    const p = profile(points);
    const there = points[0]!.e + integrate((s) => slopeAt(p, s), left(p), within(p, at), breaks(p));
    return (e - there) / (1 + Math.max(...points.map((c) => Math.abs(c.e))));
  },
});

export const tendonSlope = stepwise({
  id: "TENDON_SLOPE",
  family: "tendon",
  summary: "Slope of a tendon at x, positive where it goes down to the right",
  notes: [...notes, "At a kink the slope to the right of it."],
  source: mechanics,
  params: { points: controlPoints, x },
  result: q.tendonSlope,
  steps: {
    slope: {
      symbol: "e'(x)",
      unit: "–",
      governing: "e'(x) = e'_i + (e'_{i+1} - e'_i)\\,\\frac{x - x_i}{x_{i+1} - x_i}",
    },
  },
  compute: ({ points, x: at }) => {
    const p = profile(points);
    return { slope: slopeAt(p, within(p, at)) };
  },
  /** Derivative of the parabola through three points of the segment. */
  proof: ({ points, x: at }, { slope }) => {
    const p = profile(points);
    const a = within(p, at);
    const to = breaks(p).find((b) => b > a) ?? right(p);
    const from = breaks(p)
      .filter((b) => b < to)
      .at(-1)!;
    const u = (a - from) / (to - from);
    const [e_0, e_m, e_1] = [from, (from + to) / 2, to].map((place) => eccentricityAt(p, place)) as [
      number,
      number,
      number,
    ];
    const derivative = (e_0 * (4 * u - 3) + e_m * (4 - 8 * u) + e_1 * (4 * u - 1)) / (to - from);
    return (slope - derivative) / (1 + Math.abs(derivative));
  },
  unpublished: "Derivative of the eccentricity, which is checked.",
});

export const tendonAngle = stepwise({
  id: "TENDON_ANGLE",
  family: "tendon",
  summary: "Sum of absolute angle changes of a tendon from one place to another further right",
  notes: [
    "Exact angles, arctan of the slope; reverse curvature adds.",
    "Kinks at control points count where they are passed or where the interval ends on them, not where it begins: angles of adjoining intervals add up.",
  ],
  source: mechanics,
  params: { points: controlPoints, x_1: as(x, { symbol: "x_1" }), x_2: as(x, { symbol: "x_2" }) },
  limits: ({ x_1 }) => ({ x_2: { min: x_1, because: "x_1" } }),
  result: q.angle,
  steps: {
    alpha: {
      symbol: "α",
      unit: "rad",
      governing: "\\alpha = \\int_{x_1}^{x_2} \\frac{|e''|}{1 + e'^2}\\,dx + \\sum_{kinks} |\\Delta\\arctan e'|",
    },
  },
  compute: ({ points, x_1, x_2 }) => {
    const p = profile(points);
    return { alpha: angleBetween(p, within(p, x_1, "x_1"), within(p, x_2, "x_2")) };
  },
  proof: ({ points, x_1, x_2 }, { alpha }) => {
    const p = profile(points);
    return (alpha - angleByCurvature(p, within(p, x_1), within(p, x_2))) / (1 + alpha);
  },
});

export const tendonAngleFromJack = stepwise({
  id: "TENDON_ANGLE_FROM_JACK",
  family: "tendon",
  summary: "Sum of absolute angle changes of a tendon from the jacking end to x",
  notes: [
    "Exact angles, arctan of the slope; reverse curvature adds; a kink at x itself counts, one at the jack does not.",
  ],
  source: mechanics,
  params: { points: controlPoints, x, end: jackingEnd },
  result: q.angle,
  steps: {
    alpha: {
      symbol: "α",
      unit: "rad",
      governing: "\\alpha = \\int_{jack}^{x} \\frac{|e''|}{1 + e'^2}\\,dx + \\sum_{kinks} |\\Delta\\arctan e'|",
    },
  },
  compute: ({ points, x: at, end }) => {
    const p = profile(points);
    return { alpha: angleFrom(p, within(p, at), end) };
  },
  proof: ({ points, x: at, end }, { alpha }) => {
    const p = fromEnd(profile(points), end);
    const a = distanceFrom(profile(points), within(profile(points), at), end);
    return (alpha - angleByCurvature(p, left(p), left(p) + a)) / (1 + alpha);
  },
  unpublished: "TENDON_ANGLE counted from the jack, which is checked.",
});

export const distanceFromJack = stepwise({
  id: "DISTANCE_FROM_JACK",
  family: "tendon",
  summary: "Distance along the span from the jacking end of a tendon to x",
  notes: ["Measured along x, as friction formulas take it for flat tendons."],
  source: mechanics,
  params: { points: controlPoints, x, end: jackingEnd },
  result: q.distanceFromJack,
  steps: { s: { symbol: "s", unit: "m", governing: "s = x - x_{left}\\ \\text{or}\\ x_{right} - x" } },
  compute: ({ points, x: at, end }) => {
    const p = profile(points);
    return { s: distanceFrom(p, within(p, at), end) };
  },
  proof: ({ points, x: at, end }, { s }) => {
    const p = profile(points);
    return (s + distanceFrom(p, within(p, at), end === "LEFT" ? "RIGHT" : "LEFT")) / (right(p) - left(p)) - 1;
  },
  unpublished: "A difference of coordinates.",
});

export const tendonLength = stepwise({
  id: "TENDON_LENGTH",
  family: "tendon",
  summary: "Length of a tendon along its curve",
  source: mechanics,
  params: { points: controlPoints },
  result: q.tendonLength,
  steps: { L: { symbol: "L", unit: "m", governing: "L = \\int \\sqrt{1 + e'^2}\\,dx" } },
  compute: ({ points }) => {
    const p = profile(points);
    return { L: integrate((s) => Math.hypot(1, slopeAt(p, s)), left(p), right(p), breaks(p)) };
  },
  /** Closed form of the arc of a parabola. */
  proof: ({ points }, { L }) => {
    const primitive = (t: number): number => (t * Math.hypot(1, t) + Math.asinh(t)) / 2;
    const closed = profile(points).reduce((sum, s) => {
      const bend = (s.end - s.start) / (s.to - s.from);
      return (
        sum +
        (Math.abs(s.end - s.start) < 1e-6
          ? (s.to - s.from) * Math.hypot(1, (s.start + s.end) / 2)
          : (primitive(s.end) - primitive(s.start)) / bend)
      );
    }, 0);
    return L / closed - 1;
  },
  unpublished: "Arc length; the closed form of the parabola's arc is the second way.",
});

export const tendonMinRadius = stepwise({
  id: "TENDON_MIN_RADIUS",
  family: "tendon",
  summary: "Smallest radius of curvature of a tendon; kinks not counted",
  notes: ["A tendon of straight lines has none: no result."],
  source: mechanics,
  params: { points: controlPoints },
  result: q.radius,
  steps: { R: { symbol: "R_min", unit: "m", governing: "R = \\min\\frac{(1 + e'^2)^{3/2}}{|e''|}" } },
  compute: ({ points }) => {
    const R = smallestRadius(profile(points));
    if (R === Infinity) throw new NoResult("the tendon is made of straight lines and has no radius");
    return { R };
  },
  /** Sampled at the ends of each segment and where it is level. */
  proof: ({ points }, { R }) => {
    const sampled = profile(points).flatMap((s) => {
      const bend = (s.end - s.start) / (s.to - s.from);
      const level = bend === 0 ? s.from : Math.min(s.to, Math.max(s.from, s.from - s.start / bend));
      return [s.from, level, s.to].map((at) => (1 + (s.start + bend * (at - s.from)) ** 2) ** 1.5 / Math.abs(bend));
    });
    return R / Math.min(...sampled) - 1;
  },
});

export const spatialAngle = formula({
  id: "SPATIAL_ANGLE",
  family: "tendon",
  summary: "Angle change of a tendon curved in plan and elevation at once",
  notes: ["For a stretch in which both curvatures are uniform; small slopes."],
  source: mechanics,
  params: {
    alpha_v: as(q.angle, { symbol: "α_v", text: "angle change in elevation" }),
    alpha_h: as(q.angle, { symbol: "α_h", text: "angle change in plan" }),
  },
  result: q.angle,
  equation: "sqrt(alpha_v^2 + alpha_h^2)",
  compute: ({ alpha_v, alpha_h }) => Math.sqrt(alpha_v * alpha_v + alpha_h * alpha_h),
  unpublished: "Common practice, no published number found.",
});

export const tendonFormulas = [
  tendonEccentricity,
  tendonSlope,
  tendonAngle,
  tendonAngleFromJack,
  distanceFromJack,
  tendonLength,
  tendonMinRadius,
  spatialAngle,
];
