import { cautions } from "../../cautions.ts";
import { InputError } from "../../errors.ts";
import { as, format } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { shorteningMember } from "./member.ts";
import { programme } from "./programme.ts";
import { lossOf, type Member, type Wanted } from "./rounds.ts";

/** Between the stressing of one tendon and the next. */
export const stepParams = {
  tendons: programme,
  ...shorteningMember,
  order: as(q.stressingOrder, { symbol: "k", text: "place in the order of stressing just reached" }),
};
export const stepNotes = [
  "Tendons of a later place are not stressed yet. Each tendon has its force after draw-in, less what " +
    "those stressed after it have taken so far by elastic shortening, as in ELASTIC_LOSS_SEQUENCE.",
  "In that shortening the self-weight moment becomes active in proportion to the force stressed. Where " +
    "less of it acts, tendons below the centroid lose more than this and those above it less, so that " +
    "tension at the top is not underestimated.",
  cautions.stressing,
];
/** The force left in a tendon, as TeX. */
export const forceLeft =
  "P_j^{(k)} = P_j - A_{p,j}\\frac{E_p}{E_c}\\sum_{j < i \\le k}\\left[\\frac{P_i}{A} + \\frac{P_i e_i " +
  "e_j}{I} - \\frac{P_i}{\\sum P}\\frac{M_g e_j}{I}\\right]";

interface Left {
  readonly t: Wanted;
  readonly P: number;
}

/** Forces of the tendons stressed so far. */
export function leftAfter(all: readonly Wanted[], order: number, member: Member): readonly Left[] {
  const stressed = all.filter((t) => t.order <= order);
  if (stressed.length === 0)
    throw new InputError(
      "order",
      `k (place in the order of stressing just reached) = ${format(order)} is before the first tendon; ` +
        `allowed: ${format(Math.min(...all.map((t) => t.order)))} or more`,
    );
  const whole = all.reduce((sum, { P }) => sum + P, 0);
  return stressed.map((t) => ({
    t,
    P: stressed
      .filter((i) => i.order > t.order)
      .reduce((left, i) => left - lossOf(t, i.P, i.e, i.P / whole, member), t.P),
  }));
}

/** The same by resultants: place after place, what each new group takes from all before it at once. */
export function resultants(
  all: readonly Wanted[],
  order: number,
  { A, I, M_g, E_p, E_c }: Member,
): { readonly P: number; readonly Pe: number } {
  const whole = all.reduce((sum, { P }) => sum + P, 0);
  const places = [...new Set(all.map((t) => t.order))].filter((place) => place <= order).sort((a, b) => a - b);
  return places.reduce(
    (sum, place) => {
      const now = all.filter((t) => t.order === place);
      const before = all.filter((t) => t.order < place);
      const steel = (power: number): number => before.reduce((s, t) => s + t.A_p * t.e ** power, 0);
      const P = now.reduce((s, t) => s + t.P, 0);
      const Pe = now.reduce((s, t) => s + t.P * t.e, 0);
      const bending = (Pe - (P / whole) * M_g) / I;
      const ratio = E_p / E_c;
      return {
        P: sum.P + P - ratio * ((P / A) * steel(0) + bending * steel(1)),
        Pe: sum.Pe + Pe - ratio * ((P / A) * steel(1) + bending * steel(2)),
      };
    },
    { P: 0, Pe: 0 },
  );
}

export const sumOf = (left: readonly Left[]): number => left.reduce((sum, { P }) => sum + P, 0);
export const momentOf = (left: readonly Left[]): number => left.reduce((sum, { t, P }) => sum + P * t.e, 0);
export const scaleOf = (all: readonly Wanted[]): number => all.reduce((sum, { P }) => sum + P, 0);
