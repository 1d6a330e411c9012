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
import { reachError } from "../jacking/bothEndsProof.ts";
import { mechanics } from "../mechanics.ts";
import { areaNotes, areaRule } from "./areaRule.ts";
import { lockedOff, wholeSlip } from "./letDown.ts";
import { lengthError } from "./search.ts";

export const drawInLength = stepwise({
  id: "DRAW_IN",
  family: "drawIn",
  summary: "Length of tendon affected by the draw-in of an anchorage, and by letting down before it",
  notes: [
    ...areaNotes,
    jackNotes.drawIn,
    jackNotes.passing,
    jackNotes.letDown,
    "With a draw-in of 0 the length over which letting down alone lowers the stress.",
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
    anchorage: jacking.anchorage,
    sigma_lo: jacking.sigma_lo,
    sigma_r: jacking.sigma_r,
    slip_r: jacking.slip_r,
  },
  limits: letDownLimit,
  cautions: idle,
  result: { ...q.controlX, symbol: "l_a", text: "length affected by the draw-in" },
  steps: { length: { symbol: "l_a", unit: "m", ...areaRule } },
  compute: (v) => {
    const end = endOf(v);
    if (oneJack(v)) return { length: lockedOff(pulledFrom(v, end), v).length };
    return { length: seated(jackedFrom(v), slipsOf(v), v.E_p).reach[end] };
  },
  proof: (v, { length }) => {
    const end = endOf(v);
    if (!oneJack(v)) return reachError(jackedFrom(v), end, length, slipsOf(v), v.E_p);
    const tendon = pulledFrom(v, end);
    return lengthError(tendon, length, wholeSlip(tendon, v), v.E_p);
  },
  unpublished:
    "The published results take the fall of stress as straight between a few points; they stand at the " +
    "forms for a table and for a uniform fall.",
});
