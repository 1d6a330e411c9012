import { NoResult } from "../../errors.ts";
import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { controlPoints, planPoints, type ControlPoint } from "./controlPoints.ts";
import { profile, slopeBeside, smallestRadius, type Profile } from "./profile.ts";
import { curvature, planNote, smallestRadiusInSpace, stops, views } from "./views.ts";

export const tendonMinRadius = stepwise({
  id: "TENDON_MIN_RADIUS",
  family: "tendon",
  summary: "Smallest radius of curvature of a tendon, in space where it is curved in plan too; kinks not counted",
  notes: [planNote, "A tendon of straight lines has none: no result."],
  source: mechanics,
  params: { points: controlPoints, plan: planPoints },
  result: q.radius,
  steps: {
    R: {
      symbol: "R_min",
      unit: "m",
      governing:
        "R = \\min\\frac{(1 + e'^2)^{3/2}}{|e''|},\\quad \\text{in space } \\min\\frac{|r'|^3}{|r' \\times " +
        "r''|},\\ r = (x,\\ e(x),\\ y(x))",
    },
  },
  compute: ({ points, plan }) => {
    const R = plan.length === 0 ? smallestRadius(profile(points)) : smallestRadiusInSpace(views(points, plan));
    if (R === Infinity) throw new NoResult("the points are joined by straight lines, which have no radius");
    return { R };
  },
  proof: ({ points, plan }, { R }) =>
    R / (plan.length === 0 ? sampledRadius(points) : searchedRadius(points, plan)) - 1,
});

/** Sampled at the ends of each segment and where it is level. */
function sampledRadius(points: readonly ControlPoint[]): number {
  const sampled = profile(points).flatMap((s) => {
    const bend = (s.end - s.start) / (s.to - s.from);
    const level = bend === 0 ? s.from : Math.min(s.to, Math.max(s.from, s.from - s.start / bend));
    return [s.from, level, s.to].map((at) => (1 + (s.start + bend * (at - s.from)) ** 2) ** 1.5 / Math.abs(bend));
  });
  return Math.min(...sampled);
}

/** The circle through three neighbouring points of the curve, all along it: none is smaller, one is as small. */
function searchedRadius(points: readonly ControlPoint[], plan: readonly ControlPoint[]): number {
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
  return least;
}
