import { InputError } from "../../errors.ts";
import { format, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mostPathRows } from "../tendon/controlPoints.ts";
import { integralFrom } from "../tendon/integrate.ts";
import { pieceAt } from "../tendon/pieces.ts";
import type { FallingStress } from "./search.ts";

/** The stress after friction at a few places. */
export const stations = table({
  key: "stressAlongTendon",
  symbol: "σ(s)",
  text: "stress along the tendon from the jack",
  columns: { s: q.distanceFromJack, sigma: q.tendonStress },
  minRows: 2,
  maxRows: mostPathRows,
});

/** Why the functions of a table stand beside those of a path. */
export const apart =
  "A function of its own beside that of a path: the stress is given, so there is no friction and no jack to state.";

export function throughStations(rows: readonly { readonly s: number; readonly sigma: number }[]): FallingStress {
  if (rows[0]!.s !== 0)
    throw new InputError(
      "stations",
      `the first station lies at ${format(rows[0]!.s / 1000)} m from the jack; it must be 0 m`,
    );
  rows.forEach((row, i) => {
    const before = rows[i - 1];
    if (before && row.s <= before.s)
      throw new InputError(
        "stations",
        `station ${i + 1} at ${format(row.s / 1000)} m does not lie beyond station ${i} at ` +
          `${format(before.s / 1000)} m; distances must increase`,
      );
    if (before && row.sigma > before.sigma)
      throw new InputError(
        "stations",
        `the stress rises from ${format(before.sigma)} MPa at station ${i} to ${format(row.sigma)} MPa at ` +
          `station ${i + 1}; after friction it must fall from the jack`,
      );
  });
  const pieces = rows.slice(1).map((b, i) => ({ a: rows[i]!, b, to: b.s }));
  const stress = (s: number): number => {
    const { a, b } = pieceAt(pieces, s);
    return a.sigma + ((b.sigma - a.sigma) * (s - a.s)) / (b.s - a.s);
  };
  const breaks = rows.map((row) => row.s);
  return { stress, length: rows.at(-1)!.s, breaks, area: integralFrom(stress, breaks) };
}
