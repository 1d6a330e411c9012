import { cautions } from "../../cautions.ts";
import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { shorteningMember } from "./member.ts";
import { greatestForce, nonePublished, picked, programme, programmeNotes, row } from "./programme.ts";
import { compensated, stressedInRounds } from "./rounds.ts";

export const jackingForceCompensated = stepwise({
  id: "JACKING_FORCE_COMPENSATED",
  family: "stressing",
  summary: "Jacking force of one tendon so that every tendon keeps the force wanted once all are stressed",
  notes: [
    ...programmeNotes,
    "The force is that at the section looked at: friction and draw-in come on top. Every limit of the jacking stress holds for it.",
    cautions.stressing,
  ],
  source: mechanics,
  params: { tendons: programme, ...shorteningMember, row },
  result: { ...q.prestressForce, symbol: "P_0,j", text: "jacking force", min: -1e6 },
  steps: {
    P_0: {
      symbol: "P_0,j",
      unit: "kN",
      governing:
        "P_{0,j} = P_j + A_{p,j}\\frac{E_p}{E_c}\\sum_{i\\ later}\\left[\\frac{P_{0,i}}{A} + \\frac{P_{0,i} " +
        "e_i e_j}{I} - \\frac{P_i}{\\sum P}\\frac{M_g e_j}{I}\\right]",
    },
  },
  compute: ({ tendons: all, row: number, ...member }) => ({ P_0: compensated(all, member).get(picked(all, number))! }),
  /** Stresses them all with these forces, one operation after another: what is left must be what was wanted. */
  proof: ({ tendons: all, row: number, ...member }, { P_0 }) => {
    const jack = new Map([...compensated(all, member), [picked(all, number), P_0]]);
    const left = stressedInRounds(all, member, 1, (t) => jack.get(t)!);
    return (
      Math.max(...all.map((t) => Math.abs(left.get(t)! - t.P))) / (greatestForce(all) + Math.max(...jack.values()))
    );
  },
  unpublished: nonePublished,
});
