import { cautions } from "../../cautions.ts";
import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { rubbing, rubbingNotes } from "../friction/alongPath.ts";
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
import { corners } from "../jacking/bothEndsProof.ts";
import { mechanics } from "../mechanics.ts";
import { bySimpson, integrate } from "../tendon/integrate.ts";
import { lockedOff, wholeSlip } from "./letDown.ts";

export const tendonMeanStress = stepwise({
  id: "TENDON_MEAN_STRESS",
  family: "drawIn",
  summary: "Mean tendon stress over the length after friction and draw-in, and after letting down where there was one",
  notes: [
    jackNotes.both,
    jackNotes.drawIn,
    jackNotes.letDown,
    "A draw-in of 0 gives the mean before lock-off.",
    ...rubbingNotes,
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
    sigma_lo: jacking.sigma_lo,
    sigma_r: jacking.sigma_r,
    slip_r: jacking.slip_r,
  },
  limits: letDownLimit,
  cautions: idle,
  result: q.tendonStress,
  steps: {
    sigma_m: { symbol: "σ_p,m", unit: "MPa", governing: "\\sigma_{p,m} = \\frac{1}{L}\\int_0^L \\sigma'(x)\\,dx" },
  },
  compute: (v) => {
    const end = oneJack(v);
    if (end) {
      const tendon = pulledFrom(v, end);
      const { level, length } = lockedOff(tendon, v);
      const left = (s: number): number => Math.min(tendon.stress(s), 2 * level - tendon.stress(s));
      const breaks = [...tendon.breaks, length].sort((a, b) => a - b);
      return { sigma_m: integrate(left, 0, tendon.length, breaks) / tendon.length };
    }
    const both = jackedFrom(v);
    const { level } = seated(both, slipsOf(v), v.E_p);
    const whole = integrate((at) => after(both, level, at), 0, both.length, corners(both, level).breaks);
    return { sigma_m: whole / both.length };
  },
  /** What letting down and draw-ins take together is Δ·E_p, wherever they take it. */
  proof: (v, { sigma_m }) => {
    const end = oneJack(v);
    if (end) {
      const tendon = pulledFrom(v, end);
      const whole = bySimpson(tendon.stress, 0, tendon.length, tendon.breaks);
      return (sigma_m * tendon.length + wholeSlip(tendon, v) * v.E_p) / whole - 1;
    }
    const both = jackedFrom(v);
    const slip = slipsOf(v);
    const whole = bySimpson((at) => before(both, at), 0, both.length, corners(both, sigmasOf(v)).breaks);
    return (sigma_m * both.length + (slip.LEFT + slip.RIGHT) * v.E_p) / whole - 1;
  },
  unpublished: "The friction law and the area rule put together; each is checked where it stands alone.",
});
