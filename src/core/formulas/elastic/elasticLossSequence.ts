import { InputError } from "../../errors.ts";
import { stepwise } from "../../formula.ts";
import { as, format, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { shorteningMember } from "./member.ts";
import { stressBy } from "./stressBy.ts";

const tendons = table({
  key: "stressedTendons",
  symbol: "tendons",
  text: "tendons with their order of stressing",
  columns: { order: q.stressingOrder, P: as(q.prestressForce, { above: 0 }), e: q.eccentricity },
  minRows: 1,
});

/** Eccentricity of the tendons stressed in one operation, weighted by force. */
function centroidOf(
  all: readonly { readonly order: number; readonly P: number; readonly e: number }[],
  order: number,
): number {
  const group = all.filter((t) => t.order === order);
  if (group.length === 0)
    throw new InputError(
      "order",
      `j (place in the order of stressing) = ${format(order)} is not among the tendons; allowed: ` +
        `${[...new Set(all.map((t) => t.order))].sort((a, b) => a - b).join(", ")}`,
    );
  return group.reduce((sum, t) => sum + t.P * t.e, 0) / group.reduce((sum, t) => sum + t.P, 0);
}

/** Tendon by tendon: only those stressed later shorten the concrete under a tendon already anchored. */
export const elasticLossSequence = stepwise({
  id: "ELASTIC_LOSS_SEQUENCE",
  family: "elastic",
  summary: "Loss of stress of one post-tensioned tendon by the tendons stressed after it; loss positive",
  notes: [
    "The self-weight moment becomes active in proportion to the force stressed; with equal tendons at one " +
      "place the mean loss is then (n − 1)/2n of the loss by the final stress.",
    "Tendons of the same order are stressed together and do not shorten each other; the loss is that at " +
      "their common centroid, weighted by force. Gains by later tendons on the other side of the centroid " +
      "count as negative losses.",
  ],
  source: mechanics,
  params: {
    tendons,
    ...shorteningMember,
    order: as(q.stressingOrder, { symbol: "j", text: "place in the order of stressing of the tendon looked at" }),
  },
  result: q.elasticLoss,
  steps: {
    loss: {
      symbol: "Δσ_el,j",
      unit: "MPa",
      governing:
        "\\Delta\\sigma_{el,j} = \\frac{E_p}{E_c}\\sum_{i\\ later}\\left[\\frac{P_i}{A} + \\frac{P_i e_i " +
        "e_j}{I} - \\frac{P_i}{\\sum P}\\,\\frac{M_g e_j}{I}\\right]",
    },
  },
  unpublished: "The results found are recalled, not read; they are compared as such.",
  compute: ({ tendons: all, order, A, I, M_g, E_p, E_c }) => {
    const e_j = centroidOf(all, order);
    const total = all.reduce((sum, t) => sum + t.P, 0);
    const stress = all.reduce(
      (sum, t) => (t.order > order ? sum + stressBy(t.P, t.e, t.P / total, e_j, { A, I, M_g }) : sum),
      0,
    );
    return { loss: (E_p / E_c) * stress };
  },
  /** By resultants: force and moment of the later tendons at once. */
  proof: ({ tendons: all, order, A, I, M_g, E_p, E_c }, { loss }) => {
    const later = all.filter((t) => t.order > order);
    const e_j = centroidOf(all, order);
    const P = later.reduce((sum, t) => sum + t.P, 0);
    const Pe = later.reduce((sum, t) => sum + t.P * t.e, 0);
    const total = all.reduce((sum, t) => sum + t.P, 0);
    const parts = [P / A, (Pe * e_j) / I, ((P / total) * M_g * e_j) / I].map((s) => (E_p / E_c) * s);
    return (loss - (parts[0]! + parts[1]! - parts[2]!)) / (1 + parts.reduce((sum, s) => sum + Math.abs(s), 0));
  },
});
