import { cautions } from "../../cautions.ts";
import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { rubbing, rubbingNotes } from "../friction/alongPath.ts";
import { followsFriction } from "../friction/wobble.ts";
import {
  endOf,
  idle,
  jackedFrom,
  jacking,
  jackNotes,
  letDownLimit,
  oneJack,
  pulledFrom,
  slipsOf,
} from "../jacking/arguments.ts";
import { seated } from "../jacking/bothEnds.ts";
import { areaError } from "../jacking/bothEndsProof.ts";
import { mechanics } from "../mechanics.ts";
import { areaNotes, areaRule } from "./areaRule.ts";
import { lockedOff, wholeSlip } from "./letDown.ts";
import { levelError } from "./search.ts";

export const drawInLevelStress = stepwise({
  id: "DRAW_IN",
  family: "drawIn",
  summary: "Stress at which the draw-in of an anchorage ends, after letting down where there was one",
  notes: [...areaNotes, jackNotes.drawIn, jackNotes.passing, jackNotes.letDown, ...rubbingNotes, cautions.stressing],
  source: mechanics,
  sourceFollows: followsFriction,
  params: {
    ...rubbing,
    E_p: q.tendonModulus,
    jacks: jacking.jacks,
    sigma0: jacking.sigma0,
    slip: jacking.slip,
    anchorage: jacking.anchorage,
    sigma_lo: jacking.sigma_lo,
    sigma_r: jacking.sigma_r,
    slip_r: jacking.slip_r,
  },
  limits: letDownLimit,
  cautions: idle,
  result: { ...q.tendonLevelStress },
  steps: { level: { symbol: "σ_a", unit: "MPa", ...areaRule } },
  compute: (v) => {
    const end = endOf(v);
    if (oneJack(v)) return { level: lockedOff(pulledFrom(v, end), v).level };
    return { level: seated(jackedFrom(v), slipsOf(v), v.E_p).level[end] };
  },
  proof: (v, { level }) => {
    const end = endOf(v);
    if (oneJack(v)) {
      const tendon = pulledFrom(v, end);
      return levelError(tendon, level, wholeSlip(tendon, v), v.E_p);
    }
    const both = jackedFrom(v);
    const levels = { ...seated(both, slipsOf(v), v.E_p).level, [end]: level };
    return areaError(both, levels, slipsOf(v), v.E_p);
  },
  unpublished:
    "The published results take the fall of stress as straight between a few points; they stand at the " +
    "forms for a table and for a uniform fall.",
});
