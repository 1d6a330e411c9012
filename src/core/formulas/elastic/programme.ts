import { InputError } from "../../errors.ts";
import { as, format, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import type { Wanted } from "./rounds.ts";

export const programme = table({
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
  maxRows: 200,
});
export const row = as(q.tendonCount, { symbol: "row", text: "row of the tendon looked at in the range" });

/** The tendon in a row of the range. */
export function picked(all: readonly Wanted[], number: number): Wanted {
  const t = all[number - 1];
  if (!t) throw new InputError("row", `row = ${format(number)} is not in the range; allowed: 1 to ${all.length}`);
  return t;
}

export const programmeNotes = [
  "As ELASTIC_LOSS_SEQUENCE: each force shortens the concrete by itself alone, the self-weight moment " +
    "becomes active in proportion to the force wanted, and tendons of the same order do not shorten each " +
    "other.",
  "What the steel that loses force gives back to the concrete is left out, as there: of the order of n A_p/A of the loss.",
];
export const nonePublished =
  "No published number found; tests stress the tendons one after another and look at what is left.";

export const greatestForce = (all: readonly Wanted[]): number => Math.max(...all.map(({ P }) => P));
