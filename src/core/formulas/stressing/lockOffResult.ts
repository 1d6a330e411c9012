import { choosing } from "../../choosing.ts";
import { choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { lockOffJackingStress } from "./lockOffJackingStress.ts";
import { lockOffLoss } from "./lockOffLoss.ts";
import { lockOffStress } from "./lockOffStress.ts";

/** What locking off costs a straight tendon. */
export const lockOff = choosing({
  id: "LOCK_OFF",
  family: "stressing",
  summary:
    "Lock-off of a straight tendon without friction: the loss, the stress after it, or the jacking stress it takes",
  by: {
    result: choice({
      key: "lockOffResultName",
      symbol: "result",
      text: "what is wanted",
      values: [
        { value: "LOSS", text: "loss of stress at lock-off" },
        { value: "STRESS", text: "stress after lock-off, from the jacking stress" },
        { value: "JACKING_STRESS", text: "jacking stress, from the stress wanted after lock-off" },
      ],
    }),
  },
  as: { LOSS: lockOffLoss, STRESS: lockOffStress, JACKING_STRESS: lockOffJackingStress },
  order: ["L", "E_p", "slip", "result", "sigma"],
  joint: { sigma: q.lockOffInput },
  result: q.lockOffResult,
});
