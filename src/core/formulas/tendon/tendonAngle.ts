import { stepwise } from "../../formula.ts";
import { as, orBlank } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { InputError } from "../../errors.ts";
import { mechanics } from "../mechanics.ts";
import { planPoints, type ControlPoint } from "./controlPoints.ts";
import { courseFrom, distanceTo, turnsOf } from "./course.ts";
import { jackingEnd, otherEnd, type End } from "./ends.ts";
import { path, pathNotes, type PathRows } from "./pathRange.ts";
import { angleByCurvature, fromEnd, left, profile } from "./profile.ts";
import { angleInSpace } from "./segments.ts";
import { angleBySteps, angleInViews, planNote, views, type Views } from "./views.ts";

const x = as(q.controlX, { text: "distance from the left end of the tendon" });

interface Asked {
  readonly path: PathRows;
  readonly jack: End;
  readonly x: number;
  readonly x_1: number | undefined;
  readonly plan: readonly ControlPoint[];
}

/** From where to where, counted from the jack. */
function stretchOf(v: Asked): { readonly from: number; readonly to: number } {
  return {
    from: v.x_1 === undefined ? 0 : distanceTo(v.path, v.x_1, v.jack, "x_1"),
    to: distanceTo(v.path, v.x, v.jack),
  };
}

/** The two views seen from the jack, so that it stands at 0. */
function viewsFrom({ path: rows, plan, jack }: Asked): Views {
  if (rows.is !== "points")
    throw new InputError(
      "plan",
      `plan is given beside ${rows.is}, which hold the angle in plan themselves; only control points take a second range`,
    );
  const { v, h } = views(rows.rows, plan);
  const seen = { v: fromEnd(v, jack), h: fromEnd(h, jack) };
  const shift = left(seen.v);
  const atZero = (p: Views["v"]): Views["v"] => p.map((s) => ({ ...s, from: s.from - shift, to: s.to - shift }));
  return { v: atZero(seen.v), h: atZero(seen.h) };
}

export const tendonAngle = stepwise({
  id: "TENDON_ANGLE",
  family: "tendon",
  summary: "Sum of absolute angle changes of a tendon from the jack to x, or from a place x1 on; in space",
  notes: [
    "Exact angles, arctan of the slope; reverse curvature adds.",
    "Kinks and angles at one place count where they are passed or where the interval ends on them, seen " +
      "from the jack; not where it begins: angles of adjoining intervals add up.",
    planNote,
    ...pathNotes,
    "μ and k of segments do not enter.",
  ],
  source: mechanics,
  params: {
    path,
    jack: jackingEnd,
    x,
    x_1: orBlank(
      as(x, { symbol: "x_1", text: "place from which the angle counts, on the jack's side of x" }),
      "the jack",
    ),
    plan: planPoints,
  },
  limits: ({ jack, x_1 }) => {
    if (x_1 === undefined) return {};
    return { x: { [jack === "LEFT" ? "min" : "max"]: x_1, because: "x1, from which the angle counts" } };
  },
  result: q.angle,
  steps: {
    alpha: {
      symbol: "α",
      unit: "rad",
      governing:
        "\\alpha = \\int_{x_1}^{x} \\sqrt{\\alpha_v'^2 + \\alpha_h'^2}\\,dx + \\sum_{kinks}\\sqrt{\\Delta\\alpha_v^2 + \\Delta\\alpha_h^2}",
    },
  },
  compute: (v) => {
    const { from, to } = stretchOf(v);
    if (v.plan.length > 0) return { alpha: angleInViews(viewsFrom(v), from, to) };
    const { angle } = courseFrom(v.path, v.jack);
    return { alpha: v.x_1 === undefined ? angle(to) : angle(to) - angle(from) };
  },
  proof: (v, { alpha }) => {
    const { from, to } = stretchOf(v);
    if (v.plan.length > 0) return (alpha - angleBySteps(viewsFrom(v), from, to)) / (1 + alpha);
    if (v.path.is === "points") {
      const p = fromEnd(profile(v.path.rows), v.jack);
      return (alpha - angleByCurvature(p, left(p) + from, left(p) + to)) / (1 + alpha);
    }
    // From both ends to the two places: together the whole.
    const whole = turnsOf(v.path).reduce((sum, t) => sum + angleInSpace(t.alpha_v, t.alpha_h), 0);
    const { angle, length } = courseFrom(v.path, otherEnd(v.jack));
    const behind = (s: number): number => angle(Math.max(length - s - 1e-11 * length, 0));
    const before = v.x_1 === undefined ? 0 : whole - behind(from);
    return (alpha + behind(to) + before - whole) / (1 + whole);
  },
});
