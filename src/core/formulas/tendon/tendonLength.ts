import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { courseFrom, turnsOf } from "./course.ts";
import { integrate } from "./integrate.ts";
import { path, pathNotes, type PathRows } from "./pathRange.ts";
import { profile } from "./profile.ts";

export const tendonLength = stepwise({
  id: "TENDON_LENGTH",
  family: "tendon",
  summary: "Length of a tendon along its curve",
  notes: pathNotes,
  source: mechanics,
  params: { path },
  result: q.tendonLength,
  steps: { L: { symbol: "L", unit: "m", governing: "L = \\int \\sqrt{1 + e'^2}\\,dx" } },
  compute: ({ path: rows }) => {
    const { stretch, length, breaks } = courseFrom(rows, "LEFT");
    return { L: integrate(stretch, 0, length, breaks) };
  },
  proof: ({ path: rows }, { L }) => L / closedLength(rows) - 1,
  unpublished: "Arc length; the closed form of the parabola's arc is the second way.",
});

/** Closed form of the arc of each parabola; the sum of the pieces of another path. */
function closedLength(rows: PathRows): number {
  if (rows.is !== "points") return turnsOf(rows).reduce((sum, { l }) => sum + l, 0);
  const primitive = (t: number): number => (t * Math.hypot(1, t) + Math.asinh(t)) / 2;
  return profile(rows.rows).reduce((sum, { from, to, start, end }) => {
    const bend = (end - start) / (to - from);
    if (Math.abs(end - start) < 1e-6) return sum + (to - from) * Math.hypot(1, (start + end) / 2);
    return sum + (primitive(end) - primitive(start)) / bend;
  }, 0);
}
