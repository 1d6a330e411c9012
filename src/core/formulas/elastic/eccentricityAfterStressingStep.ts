import { NoResult } from "../../errors.ts";
import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { nonePublished } from "./programme.ts";
import { forceLeft, leftAfter, momentOf, resultants, scaleOf, stepNotes, stepParams, sumOf } from "./step.ts";

/** And where does it act? */
export const eccentricityAfterStressingStep = stepwise({
  id: "AFTER_STRESSING_STEP",
  family: "stressing",
  summary: "Eccentricity of the force of all post-tensioned tendons stressed up to a place in the order of stressing",
  notes: stepNotes,
  source: mechanics,
  params: stepParams,
  result: as(q.eccentricity, { symbol: "e_k", text: "eccentricity of the force of the tendons stressed so far" }),
  steps: {
    e_k: {
      symbol: "e_k",
      unit: "mm",
      governing: `e_k = \\frac{\\sum_{j \\le k} P_j^{(k)} e_j}{\\sum_{j \\le k} P_j^{(k)}},\\quad ${forceLeft}`,
    },
  },
  compute: ({ tendons: all, order, ...member }) => {
    const left = leftAfter(all, order, member);
    if (sumOf(left) <= 0)
      throw new NoResult(
        "the tendons stressed later take the whole force of those before them: there is too much steel for this section",
      );
    return { e_k: momentOf(left) / sumOf(left) };
  },
  proof: ({ tendons: all, order, ...member }, { e_k }) => {
    const { P, Pe } = resultants(all, order, member);
    const arm = Math.max(...all.map((t) => Math.abs(t.e)), 1);
    return (e_k * P - Pe) / (arm * scaleOf(all));
  },
  unpublished: nonePublished,
});
