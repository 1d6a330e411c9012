import { cautions } from "../../cautions.ts";
import { InputError, NoResult } from "../../errors.ts";
import { stepwise } from "../../formula.ts";
import { as, format, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { compensated, operations, stressedInRounds, type Member, type Wanted } from "./rounds.ts";
import { stressBy } from "./stressBy.ts";

export const programmeTendons = table({
  key: "stressingProgramme",
  symbol: "tendons",
  text: "tendons with their order of stressing, the force wanted in each and its area",
  columns: {
    order: q.stressingOrder,
    P: as(q.prestressForce, { text: "force wanted in the tendon", above: 0 }),
    e: q.eccentricity,
    A_p: q.tendonArea,
  },
  minRows: 1,
});
export const programmeMember = {
  A: q.area,
  I: q.secondMoment,
  M_g: as(q.moment, { symbol: "M_g", text: "self-weight moment" }),
  E_p: q.tendonModulus,
  E_c: as(q.elasticModulusConcrete, { symbol: "E_c(t)", text: "modulus of elasticity of the concrete at stressing" }),
};
const row = as(q.tendonCount, { symbol: "row", text: "row of the tendon looked at in the range" });

function picked(all: readonly Wanted[], number: number): Wanted {
  const t = all[number - 1];
  if (!t) throw new InputError("row", `row = ${format(number)} is not in the range; allowed: 1 to ${all.length}`);
  return t;
}

const basis = [
  "As ELASTIC_SHORTENING_SEQUENCE: each force shortens the concrete by itself alone, the self-weight moment becomes active in proportion to the force wanted, and tendons of the same order do not shorten each other.",
  "What the steel that loses force gives back to the concrete is left out, as there: of the order of n A_p/A of the loss.",
];
const none = "No published number found; tests stress the tendons one after another and look at what is left.";
const spread = (all: readonly Wanted[]): number => Math.max(...all.map(({ P }) => P));

/** Mean over all tendons of a range, whatever their places and forces. */
export const elasticShorteningMean = stepwise({
  id: "ELASTIC_SHORTENING_SEQUENCE_MEAN",
  family: "elastic",
  summary: "Mean loss of stress of all post-tensioned tendons of a range by those stressed after each; loss positive",
  notes: ["Weighted by the area of the tendons: it is the loss of force of all of them over their area.", basis[0]!],
  source: mechanics,
  params: { tendons: programmeTendons, ...programmeMember },
  result: q.elasticLoss,
  steps: {
    loss: {
      symbol: "Δσ_el,m",
      unit: "MPa",
      governing: "\\Delta\\sigma_{el,m} = \\frac{\\sum_j A_{p,j}\\,\\Delta\\sigma_{el,j}}{\\sum_j A_{p,j}}",
    },
  },
  compute: ({ tendons: all, ...member }) => {
    const left = stressedInRounds(all, member, 1, ({ P }) => P);
    const [lost, area] = [all.reduce((sum, t) => sum + t.P - left.get(t)!, 0), all.reduce((sum, t) => sum + t.A_p, 0)];
    return { loss: lost / area };
  },
  /** Pair by pair: what each later tendon takes from each earlier one. */
  proof: ({ tendons: all, E_p, E_c, ...member }, { loss }) => {
    const whole = all.reduce((sum, t) => sum + t.P, 0);
    const pairs = all.flatMap((j) =>
      all
        .filter((i) => i.order > j.order)
        .map((i) => j.A_p * (E_p / E_c) * stressBy(i.P, i.e, i.P / whole, j.e, member)),
    );
    const area = all.reduce((sum, t) => sum + t.A_p, 0);
    return (
      (loss * area - pairs.reduce((sum, p) => sum + p, 0)) /
      (area + pairs.reduce((sum, p) => sum + Math.abs(p), 0) + whole * 1e-6)
    );
  },
  unpublished: none,
});

export const compensatedJackingForce = stepwise({
  id: "JACKING_FORCE_COMPENSATED",
  family: "stressing",
  summary: "Jacking force of one tendon so that every tendon keeps the force wanted once all are stressed",
  notes: [
    ...basis,
    "The force is that at the section looked at: friction and draw-in come on top. Every limit of the jacking stress holds for it.",
    cautions.stressing,
  ],
  source: mechanics,
  params: { tendons: programmeTendons, row, ...programmeMember },
  result: { ...q.prestressForce, symbol: "P_0,j", text: "jacking force", min: -1e6 },
  steps: {
    P_0: {
      symbol: "P_0,j",
      unit: "kN",
      governing:
        "P_{0,j} = P_j + A_{p,j}\\frac{E_p}{E_c}\\sum_{i\\ later}\\left[\\frac{P_{0,i}}{A} + \\frac{P_{0,i} e_i e_j}{I} - \\frac{P_i}{\\sum P}\\frac{M_g e_j}{I}\\right]",
    },
  },
  compute: ({ tendons: all, row: number, ...member }) => ({ P_0: compensated(all, member).get(picked(all, number))! }),
  /** Stresses them all with these forces, one operation after another: what is left must be what was wanted. */
  proof: ({ tendons: all, row: number, ...member }, { P_0 }) => {
    const jack = new Map([...compensated(all, member), [picked(all, number), P_0]]);
    const left = stressedInRounds(all, member, 1, (t) => jack.get(t)!);
    return Math.max(...all.map((t) => Math.abs(left.get(t)! - t.P))) / (spread(all) + Math.max(...jack.values()));
  },
  unpublished: none,
});

export const elasticLossAfterRounds = stepwise({
  id: "ELASTIC_LOSS_RESTRESSED",
  family: "stressing",
  summary: "Loss of stress left in one tendon after all were stressed and stressed again in order; loss positive",
  notes: [
    "Every round brings each tendon to the force wanted, in order; 1 round is ELASTIC_SHORTENING_SEQUENCE. Each further round leaves less.",
    basis[1]!,
    "Only while the tendons can still be gripped and are not grouted.",
    cautions.stressing,
  ],
  source: mechanics,
  params: { tendons: programmeTendons, row, rounds: q.roundCount, ...programmeMember },
  result: q.elasticLoss,
  steps: {
    loss: {
      symbol: "Δσ_el,j",
      unit: "MPa",
      governing:
        "\\Delta P_j^{(m)} = -A_{p,j}\\frac{E_p}{E_c}\\sum_{i\\ after\\ j}\\Delta\\sigma_{c,j}(\\Delta P_i^{(m)})",
    },
  },
  compute: ({ tendons: all, row: number, rounds, ...member }) => {
    const t = picked(all, number);
    const left = stressedInRounds(all, member, rounds, ({ P }) => P).get(t)!;
    if (!Number.isFinite(left))
      throw new NoResult(
        "stressing again does not settle: what the tendons take from each other grows from round to round; there is too much steel for this section",
      );
    return { loss: (t.P - left) / t.A_p };
  },
  /** The same by the changes of force alone: every change is noted, and each tendon's loss is what the changes after its own last one take. */
  proof: ({ tendons: all, row: number, rounds, ...member }, { loss }) => {
    const t = picked(all, number);
    return (lossByChanges(all, member, rounds, t) - loss) / (1 + Math.abs(loss) + (1e-3 * spread(all)) / t.A_p);
  },
  unpublished: none,
});

/** Loss of stress of a tendon from the list of all changes of force since it was last stressed. */
function lossByChanges(all: readonly Wanted[], member: Member, rounds: number, t: Wanted): number {
  const whole = all.reduce((sum, { P }) => sum + P, 0);
  const order = operations(all);
  const changes: { readonly of: Wanted; readonly dP: number; readonly share: number; readonly at: number }[] = [];
  const since = (j: Wanted, from: number, to: number): number =>
    changes.reduce(
      (sum, c) =>
        c.at > from && c.at < to ? sum + (member.E_p / member.E_c) * stressBy(c.dP, c.of.e, c.share, j.e, member) : sum,
      0,
    );
  for (let at = 0; at < rounds * order.length; at++) {
    const round = Math.floor(at / order.length);
    const group = order[at % order.length]!;
    const now = group.map((j) => ({
      of: j,
      dP: round === 0 ? j.P : j.A_p * since(j, at - order.length, at),
      share: round === 0 ? j.P / whole : 0,
      at,
    }));
    changes.push(...now);
  }
  const last = (rounds - 1) * order.length + order.findIndex((group) => group.includes(t));
  return since(t, last, Infinity);
}

export const programmeFormulas = [elasticShorteningMean, compensatedJackingForce, elasticLossAfterRounds];
