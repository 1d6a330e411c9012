import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { nonePublished } from "./programme.ts";
import { forceLeft, leftAfter, resultants, scaleOf, stepNotes, stepParams, sumOf } from "./step.ts";

/** What acts on the concrete between the stressing of one tendon and the next? */
export const forceAfterStressingStep = stepwise({
  id: "AFTER_STRESSING_STEP",
  family: "stressing",
  summary: "Force of all post-tensioned tendons stressed up to a place in the order of stressing",
  notes: stepNotes,
  source: mechanics,
  params: stepParams,
  result: { ...q.prestressForce, symbol: "P_k", text: "force of the tendons stressed so far", min: -1e6 },
  steps: { P_k: { symbol: "P_k", unit: "kN", governing: `P_k = \\sum_{j \\le k} P_j^{(k)},\\quad ${forceLeft}` } },
  compute: ({ tendons: all, order, ...member }) => ({ P_k: sumOf(leftAfter(all, order, member)) }),
  proof: ({ tendons: all, order, ...member }, { P_k }) => (P_k - resultants(all, order, member).P) / scaleOf(all),
  unpublished: nonePublished,
});
