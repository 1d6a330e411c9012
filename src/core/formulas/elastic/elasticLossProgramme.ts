import { cautions } from "../../cautions.ts";
import { NoResult } from "../../errors.ts";
import { stepwise } from "../../formula.ts";
import { orBlank } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { lossByChanges } from "./lossByChanges.ts";
import { shorteningMember } from "./member.ts";
import { greatestForce, nonePublished, picked, programme, programmeNotes, row } from "./programme.ts";
import { stressedInRounds, type Wanted } from "./rounds.ts";

/** The tendons whose mean is asked: one, or all. */
const asked = (all: readonly Wanted[], number: number | undefined): readonly Wanted[] =>
  number === undefined ? all : [picked(all, number)];

const areaOf = (tendons: readonly Wanted[]): number => tendons.reduce((sum, t) => sum + t.A_p, 0);

export const elasticLossProgramme = stepwise({
  id: "ELASTIC_LOSS_PROGRAMME",
  family: "elastic",
  summary:
    "Loss of stress of one tendon of a stressing programme, or the mean of all, by those stressed after it; loss positive",
  notes: [
    "Every round brings each tendon to the force wanted, in order; with 1 round each is stressed once. Each further round leaves less.",
    "The mean is weighted by the area of the tendons: it is the loss of force of all of them over their area.",
    ...programmeNotes,
    "A function of its own beside ELASTIC_LOSS_SEQUENCE, because the mean and further rounds need the areas of the tendons.",
    "More than 1 round only while the tendons can still be gripped and are not grouted.",
    cautions.stressing,
  ],
  source: mechanics,
  params: {
    tendons: programme,
    ...shorteningMember,
    rounds: q.roundCount,
    row: orBlank(row, "the mean of all tendons"),
  },
  result: q.elasticLoss,
  steps: {
    loss: {
      symbol: "Δσ_el",
      unit: "MPa",
      governing:
        "\\Delta P_j^{(m)} = -A_{p,j}\\frac{E_p}{E_c}\\sum_{i\\ after\\ j}\\Delta\\sigma_{c,j}(\\Delta " +
        "P_i^{(m)}),\\quad \\Delta\\sigma_{el,m} = \\frac{\\sum_j A_{p,j}\\,\\Delta\\sigma_{el,j}}{\\sum_j " +
        "A_{p,j}}",
    },
  },
  compute: ({ tendons: all, row: number, rounds, ...member }) => {
    const of = asked(all, number);
    const left = stressedInRounds(all, member, rounds, ({ P }) => P);
    const lost = of.reduce((sum, t) => sum + t.P - left.get(t)!, 0);
    if (!Number.isFinite(lost))
      throw new NoResult(
        "stressing again does not settle: what the tendons take from each other grows from round to round; " +
          "there is too much steel for this section",
      );
    return { loss: lost / areaOf(of) };
  },
  /**
   * The same by the changes of force alone: every change is noted, and each tendon's loss is what the changes after its
   * own last one take.
   */
  proof: ({ tendons: all, row: number, rounds, ...member }, { loss }) => {
    const of = asked(all, number);
    const losses = of.map((t) => t.A_p * lossByChanges(all, member, rounds, t));
    const sum = losses.reduce((total, lost) => total + lost, 0);
    const size = losses.reduce((total, lost) => total + Math.abs(lost), 0);
    const area = areaOf(of);
    return (sum - loss * area) / (area + size + 1e-3 * greatestForce(all) * of.length);
  },
  unpublished: nonePublished,
});
