import { stressBy, type Shortening } from "./stressBy.ts";

/** A tendon of the stressing programme: the force wanted in it, its eccentricity and area. */
export interface Wanted {
  readonly order: number;
  readonly P: number;
  readonly e: number;
  readonly A_p: number;
}
export interface Member extends Shortening {
  readonly E_p: number;
  readonly E_c: number;
}

/** Tendons stressed in one operation, by their order. */
export function operations(all: readonly Wanted[]): readonly (readonly Wanted[])[] {
  const orders = [...new Set(all.map(({ order }) => order))].sort((a, b) => a - b);
  const groups = new Map(orders.map((order) => [order, [] as Wanted[]]));
  for (const t of all) groups.get(t.order)!.push(t);
  return [...groups.values()];
}

const total = (all: readonly Wanted[]): number => all.reduce((sum, { P }) => sum + P, 0);

/** Force that tendon t loses when another, at e, changes its force by dP and brings its share of the self-weight into action. */
export function lossOf(t: Wanted, dP: number, e: number, share: number, member: Member): number {
  return t.A_p * (member.E_p / member.E_c) * stressBy(dP, e, share, t.e, member);
}

/**
 * Jacking forces that leave the wanted force in every tendon: the last has it from the jack, each one before it gets besides what all
 * those after it will take, counted from the last back to the first.
 */
export function compensated(all: readonly Wanted[], member: Member): ReadonlyMap<Wanted, number> {
  const jack = new Map<Wanted, number>();
  const whole = total(all);
  for (const group of [...operations(all)].reverse()) {
    const later = [...jack];
    for (const t of group)
      jack.set(
        t,
        later.reduce((sum, [i, P]) => sum + lossOf(t, P, i.e, i.P / whole, member), t.P),
      );
  }
  return jack;
}

/** Forces left after every tendon was brought to its jacking force in order, and again in each further round to the wanted force. */
export function stressedInRounds(
  all: readonly Wanted[],
  member: Member,
  rounds: number,
  jack: (t: Wanted) => number,
): ReadonlyMap<Wanted, number> {
  const force = new Map<Wanted, number>();
  const whole = total(all);
  const order = operations(all);
  for (let round = 0; round < rounds; round++) {
    for (const group of order) {
      const changes = group.map((t) => ({ t, dP: jack(t) - (force.get(t) ?? 0) }));
      for (const [other, P] of force) {
        if (other.order === group[0]!.order) continue;
        force.set(
          other,
          changes.reduce((left, { t, dP }) => left - lossOf(other, dP, t.e, round === 0 ? t.P / whole : 0, member), P),
        );
      }
      for (const { t } of changes) force.set(t, jack(t));
    }
  }
  return force;
}
