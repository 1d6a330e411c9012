import { operations, type Member, type Wanted } from "./rounds.ts";
import { stressBy } from "./stressBy.ts";

/** Loss of stress of a tendon from the list of all changes of force since it was last stressed. */
export function lossByChanges(all: readonly Wanted[], member: Member, rounds: number, t: Wanted): number {
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
