import type { Assumed } from "./carryOver.ts";

/** What the preview says of a new member of a list that began as the one before it. */
export interface MemberAssumed {
  /** "tendon 4: as tendon 3 (24 values)" */
  readonly text: string;
  /** "tendon 4 lies where tendon 3 does and must be moved", where its place is among the values; empty otherwise. */
  readonly place: string;
}

/** Where a tendon or a row of strands lies: two of them can't lie in the same place. */
const placing: ReadonlySet<string> = new Set(["lift", "yEndIn", "yMidIn"]);

/** The new members, in their order; values over a member and something else count with the member. */
export function membersAssumed(assumed: readonly Assumed[]): readonly MemberAssumed[] {
  const members = new Map<string, Assumed[]>();
  for (const one of assumed) {
    if (one.as === undefined) continue;
    const member = one.where.split(",")[0]!;
    members.set(member, [...(members.get(member) ?? []), one]);
  }
  return [...members].map(([member, values]) => {
    const { as = "" } = values[0]!;
    const number = `${values.length} value${values.length === 1 ? "" : "s"}`;
    const lies = values.some(({ id }) => placing.has(id));
    return {
      text: `${member}: as ${as} (${number})`,
      place: lies ? `${member} lies where ${as} does and must be moved` : "",
    };
  });
}
