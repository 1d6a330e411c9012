import { cautions } from "../../cautions.ts";
import { stepwise } from "../../formula.ts";
import { as, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

import { InputError } from "../../errors.ts";

const column = (name: "measured" | "calculated", text: string, above?: 0) =>
  table({
    key: `${name}Elongations`,
    symbol: name === "measured" ? "Δl_m" : "Δl_c",
    text,
    columns: {
      elongation: as(q.elongation, {
        symbol: name === "measured" ? "Δl_m" : "Δl_c",
        text: `${name} elongation${name === "measured" ? ", without slack" : ""}`,
        ...(above !== undefined && { above }),
      }),
    },
    minRows: 1,
  });

const total = (rows: readonly { readonly elongation: number }[]): number =>
  rows.reduce((sum, { elongation }) => sum + elongation, 0);

export const elongationDeviation = stepwise({
  id: "ELONGATION_DEVIATION",
  family: "stressing",
  summary:
    "Measured against calculated elongation of one tendon, or of all tendons of a section together, in " +
    "per cent; positive where more was measured",
  notes: [
    "Both over the same length, from the same force and before the same lock-off.",
    "A cell each for one tendon; a column each for the tendons of a section: their sums are compared, so long tendons count for more.",
    "More than expected: less friction, a broken wire or strand, slack left in. Less: more friction or a " +
      "blockage. Stop and find the cause beyond the tolerance.",
    cautions.stressing,
  ],
  source: mechanics,
  params: {
    measured: column("measured", "measured elongation of one tendon or of each, without slack"),
    calculated: column("calculated", "calculated elongation of one tendon or of each, in the same order", 0),
  },
  result: q.elongationDeviation,
  steps: {
    delta: {
      symbol: "δ",
      unit: "%",
      governing: "\\delta = 100\\left(\\frac{\\sum \\Delta l_m}{\\sum \\Delta l_c} - 1\\right)",
    },
  },
  compute: ({ measured, calculated }) => {
    if (measured.length !== calculated.length)
      throw new InputError(
        "measured",
        `measured has ${measured.length} tendons, calculated ${calculated.length}; both need the same tendons in the same order`,
      );
    return { delta: 100 * (total(measured) / total(calculated) - 1) };
  },
  /** The mean of each tendon's deviation, weighted by its calculated elongation. */
  proof: ({ measured, calculated }, { delta }) => {
    const weights = total(calculated);
    const terms = calculated.map(({ elongation: c }, i) => ((100 * (measured[i]!.elongation - c)) / c) * (c / weights));
    return (delta - terms.reduce((sum, t) => sum + t, 0)) / (100 + terms.reduce((sum, t) => sum + Math.abs(t), 0));
  },
});
