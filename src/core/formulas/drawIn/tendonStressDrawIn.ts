import { cautions } from "../../cautions.ts";
import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { exponentFromBehind, rubbing, rubbingNotes, withExponent } from "../friction/alongPath.ts";
import { followsFriction } from "../friction/wobble.ts";
import {
  idle,
  jackedFrom,
  jacking,
  jackNotes,
  letDownLimit,
  oneJack,
  pulledFrom,
  sigmasOf,
  slipsOf,
} from "../jacking/arguments.ts";
import { after, before, seated } from "../jacking/bothEnds.ts";
import { areaError, frictionAgain } from "../jacking/bothEndsProof.ts";
import { mechanics } from "../mechanics.ts";
import { distanceTo } from "../tendon/course.ts";
import { areaRule } from "./areaRule.ts";
import { lockedOff, wholeSlip } from "./letDown.ts";
import { levelError } from "./search.ts";

export const tendonStressDrawIn = stepwise({
  id: "TENDON_STRESS_DRAW_IN",
  family: "drawIn",
  summary: "Tendon stress at x after friction and draw-in, and after letting down where there was one",
  notes: [
    jackNotes.both,
    jackNotes.drawIn,
    jackNotes.passing,
    jackNotes.letDown,
    "A draw-in of 0 gives the stress before lock-off.",
    jackNotes.kink,
    ...rubbingNotes,
    jackNotes.overstress,
    cautions.stressing,
  ],
  source: mechanics,
  sourceFollows: followsFriction,
  params: {
    ...rubbing,
    E_p: q.tendonModulus,
    jacks: jacking.jacks,
    sigma0: jacking.sigma0,
    slip: jacking.slip,
    x: jacking.x,
    sigma_lo: jacking.sigma_lo,
    sigma_r: jacking.sigma_r,
    slip_r: jacking.slip_r,
  },
  limits: letDownLimit,
  cautions: idle,
  result: { ...q.tendonStress, min: -2500 },
  steps: {
    sigma_f: {
      symbol: "σ_p,μ",
      unit: "MPa",
      text: "stress after friction",
      ...withExponent("\\sigma = \\sigma_{p0}\\,e^{-\\lambda}"),
    },
    loss: { symbol: "Δσ_sl", unit: "MPa", text: "loss by letting down and draw-in", ...areaRule },
    sigma: { symbol: "σ_p", unit: "MPa", equation: "sigma_f - loss" },
  },
  compute: (v) => {
    const end = oneJack(v);
    if (end) {
      const tendon = pulledFrom(v, end);
      const sigma_f = tendon.stress(distanceTo(v.path, v.x, end));
      const loss = Math.max(2 * (sigma_f - lockedOff(tendon, v).level), 0);
      return { sigma_f, loss, sigma: sigma_f - loss };
    }
    const both = jackedFrom(v);
    const at = distanceTo(v.path, v.x, "LEFT");
    const sigma_f = before(both, at);
    const loss = sigma_f - after(both, seated(both, slipsOf(v), v.E_p).level, at);
    return { sigma_f, loss, sigma: sigma_f - loss };
  },
  /** The area rule, and the stress after friction found a second way. */
  proof: (v, { sigma }) => {
    const end = oneJack(v);
    if (end) {
      const tendon = pulledFrom(v, end);
      const { level } = lockedOff(tendon, v);
      const rubbed = v.sigma0 * Math.exp(-exponentFromBehind(v, end, distanceTo(v.path, v.x, end)));
      return Math.max(
        Math.abs(levelError(tendon, level, wholeSlip(tendon, v), v.E_p)),
        Math.abs(sigma - Math.min(rubbed, 2 * level - rubbed)) / v.sigma0,
      );
    }
    const both = jackedFrom(v);
    const at = distanceTo(v.path, v.x, "LEFT");
    const { level } = seated(both, slipsOf(v), v.E_p);
    const again = frictionAgain(v, sigmasOf(v), at, both.length);
    const left = Math.max(again.LEFT, again.RIGHT) - (before(both, at) - after(both, level, at));
    return Math.max(areaError(both, level, slipsOf(v), v.E_p), Math.abs(sigma - left) / v.sigma0);
  },
  unpublished: "The friction law and the area rule put together; each is checked where it stands alone.",
});
