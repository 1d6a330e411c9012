import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { idle, jackedFrom, jacking, jackNotes } from "../jacking/arguments.ts";
import { nullPointError } from "../jacking/bothEndsProof.ts";
import { mechanics } from "../mechanics.ts";
import { leftEnd } from "../tendon/course.ts";
import { rubbing, rubbingNotes, withExponent } from "./alongPath.ts";
import { followsFriction } from "./wobble.ts";

export const nullPoint = stepwise({
  id: "NULL_POINT",
  family: "friction",
  summary: "Null point of a tendon jacked from both ends, where the stresses of both jacks meet; x as in the path",
  notes: [jackNotes.both, "Where the stresses of both jacks are the same over a length, its middle.", ...rubbingNotes],
  source: mechanics,
  sourceFollows: followsFriction,
  params: { ...rubbing, sigma0: jacking.sigma0, sigma_r: jacking.sigma_r },
  cautions: (v) => idle({ ...v, jacks: "BOTH" }),
  result: { ...q.controlX, symbol: "x_0", text: "null point, from the left end" },
  steps: {
    x_0: {
      symbol: "x_0",
      unit: "m",
      ...withExponent("\\sigma_{p0} e^{-\\lambda_l(x_0)} = \\sigma_{p0,r} e^{-\\lambda_r(L - x_0)}"),
    },
  },
  compute: (v) => ({ x_0: jackedFrom(v).nullPoint.x + leftEnd(v.path) }),
  proof: (v, { x_0 }) => nullPointError(jackedFrom(v), x_0 - leftEnd(v.path)),
  unpublished:
    "No published number of a tendon jacked from both ends found; tests compare it with the tendon jacked from one end.",
});
