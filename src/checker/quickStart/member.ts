import type { Trial } from "./trial.ts";

/** A limit that a trial sheet sets: a moment, a factor on the force, and the stresses allowed, compression positive. */
interface Condition {
  readonly M: number;
  readonly r: number;
  readonly fc: number;
  readonly ft: number;
}

/** What a trial sheet says of the section at midspan, the loads, the losses and the limits. kN, kN·m, mm, m, MPa. */
export interface Member {
  readonly A: number;
  readonly I: number;
  readonly yb: number;
  readonly h: number;
  readonly L: number;
  /** Force of one strand at midspan after immediate losses. */
  readonly perStrand: number;
  /** At midspan. */
  readonly selfWeightMoment: number;
  /** The limits of all stages at a distance from the end. */
  readonly conditionsAt: (x: number) => readonly Condition[];
}

/** Distance kept from every limit, MPa: strands are whole numbers, and losses change a little with their layout. */
const spare = 0.1;

/** Reads the member from a trial sheet with so many strands; `force`: the row of the force that acts at midspan. */
export function memberOf(trial: Trial, strands: number, force: "P0" | "Pact1", h: number, L: number): Member {
  const [middle] = trial.numbers("midNo");
  const mid = (id: string): number => trial.numbers(id)[middle! - 1]!;
  const stage = (id: string): readonly number[] => trial.numbers(id);
  const [fc, ft, late, onSpan, onS, onQ] = ["fc", "ft", "late", "onSpan", "onS", "onQ"].map(stage) as [
    readonly number[],
    readonly number[],
    readonly number[],
    readonly number[],
    readonly number[],
    readonly number[],
  ];
  const moments = [mid("Mg"), mid("Ms"), mid("Mq")] as const;
  const left = mid("Pinf") / mid("P0");
  const factors = [...trial.numbers("rsup"), ...trial.numbers("rinf")];
  const conditionsAt = (x: number): readonly Condition[] => {
    // Uniform loads on two supports.
    const share = (4 * x * (L - x)) / L ** 2;
    return fc.flatMap((_, i) =>
      factors.map((factor): Condition => ({
        M: share * (onSpan[i]! * moments[0] + onS[i]! * moments[1] + onQ[i]! * moments[2]),
        r: factor * (late[i] === 1 ? left : 1),
        fc: fc[i]! - spare,
        ft: ft[i]! + spare,
      })),
    );
  };
  return {
    A: mid("Anet"),
    I: mid("Inet"),
    yb: mid("ynet"),
    h,
    L,
    perStrand: mid(force) / strands,
    selfWeightMoment: moments[0],
    conditionsAt,
  };
}

/** From which eccentricity to which a force keeps all conditions; the first is larger where none does. */
export function eccentricities(
  { A, I, yb, h }: Pick<Member, "A" | "I" | "yb" | "h">,
  P: number,
  conditions: readonly Condition[],
): readonly [from: number, to: number] {
  let [from, to] = [yb - h, yb];
  for (const { M, r, fc, ft } of conditions) {
    const force = r * P * 1000;
    const moment = M * 1e6;
    const mean = force / A;
    // Bottom: σ = P/A + (P e − M) y_b/I; top: σ = P/A − (P e − M) (h − y_b)/I.
    const [bottom, top] = [I / yb, I / (h - yb)];
    from = Math.max(from, (moment + (ft - mean) * bottom) / force, (moment - (fc - mean) * top) / force);
    to = Math.min(to, (moment + (fc - mean) * bottom) / force, (moment - (ft - mean) * top) / force);
  }
  return [from, to];
}

/** The same member with every limit further away by so many MPa. */
export const loosened = (member: Member, by: number): Member =>
  by === 0
    ? member
    : {
        ...member,
        conditionsAt: (x) => member.conditionsAt(x).map((one) => ({ ...one, fc: one.fc + by, ft: one.ft - by })),
      };
