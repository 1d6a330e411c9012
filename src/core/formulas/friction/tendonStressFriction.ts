import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { idle, jackedFrom, jacking, jackNotes, oneJack, pulledFrom, sigmasOf } from "../jacking/arguments.ts";
import { before } from "../jacking/bothEnds.ts";
import { frictionAgain } from "../jacking/bothEndsProof.ts";
import { mechanics } from "../mechanics.ts";
import { distanceTo } from "../tendon/course.ts";
import { exponentFromBehind, rubbing, rubbingNotes, withExponent } from "./alongPath.ts";
import { frictionClause } from "./wobble.ts";

export const tendonStressFriction = stepwise({
  id: "TENDON_STRESS_FRICTION",
  family: "friction",
  summary: "Tendon stress at x after friction, before draw-in",
  notes: [
    ...rubbingNotes,
    jackNotes.both,
    jackNotes.kink,
    "A function of its own beside TENDON_STRESS_DRAW_IN, so that no stress before draw-in is taken for one after it.",
  ],
  source: mechanics,
  sourceFollows: frictionClause,
  params: {
    ...rubbing,
    jacks: jacking.jacks,
    sigma0: jacking.sigma0,
    x: jacking.x,
    sigma_r: jacking.sigma_r,
  },
  cautions: idle,
  result: q.tendonStress,
  steps: {
    sigma: { symbol: "σ_p,μ", unit: "MPa", ...withExponent("\\sigma = \\sigma_{p0}\\,e^{-\\lambda}") },
  },
  compute: (v) => {
    const end = oneJack(v);
    if (end) return { sigma: pulledFrom(v, end).stress(distanceTo(v.path, v.x, end)) };
    return { sigma: before(jackedFrom(v), distanceTo(v.path, v.x, "LEFT")) };
  },
  /** λ seen from the dead end. */
  proof: (v, { sigma }) => {
    const end = oneJack(v);
    if (end) return sigma / (v.sigma0 * Math.exp(-exponentFromBehind(v, end, distanceTo(v.path, v.x, end)))) - 1;
    const again = frictionAgain(v, sigmasOf(v), distanceTo(v.path, v.x, "LEFT"), jackedFrom(v).length);
    return sigma / Math.max(again.LEFT, again.RIGHT) - 1;
  },
  unpublished: "The friction law along a path; it is checked where it stands alone and for segments.",
});
