import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { controlPoints } from "./controlPoints.ts";
import { angleBetween, breaks, profile, slopeAt } from "./profile.ts";

/** Where a radius does not tell: a kink has none. */
export const tendonKinkAngle = stepwise({
  id: "TENDON_KINK_ANGLE",
  family: "tendon",
  summary: "Largest kink of a tendon at its control points; 0 where it is smooth",
  notes: [
    "The angle between the tangents on both sides of a control point. A duct cannot follow a kink: it wants a transition curve.",
  ],
  source: mechanics,
  params: { points: controlPoints },
  result: q.kinkAngle,
  steps: {
    kink: { symbol: "Δθ", unit: "rad", governing: "\\Delta\\theta = \\max_i |\\arctan e'_{i+} - \\arctan e'_{i-}|" },
  },
  compute: ({ points }) => {
    const p = profile(points);
    const kinks = p.slice(1).map((next, i) => Math.abs(Math.atan(next.start) - Math.atan(p[i]!.end)));
    return { kink: Math.max(0, ...kinks) };
  },
  /** The angle change of a stretch about each point, less what the slopes beside it change. */
  proof: ({ points }, { kink }) => {
    const p = profile(points);
    const inner = breaks(p).slice(1, -1);
    const found = inner.map((x, i) => {
      const gap = 1e-6 * Math.min(x - breaks(p)[i]!, breaks(p)[i + 2]! - x);
      return Math.abs(Math.atan(slopeAt(p, x + gap)) - Math.atan(slopeAt(p, x - gap)));
    });
    const total = angleBetween(p, breaks(p)[0]!, breaks(p).at(-1)!);
    if (kink > total + 1e-12) return kink;
    const nearest = Math.max(0, ...found);
    return Math.abs(kink - nearest) < 1e-5 ? 0 : kink - nearest;
  },
  unpublished: "A difference of two slopes.",
});
