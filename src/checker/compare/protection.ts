import { cellsOf, type Address } from "../../cells/index.ts";
import type { SheetRules } from "../../hosts/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { standing } from "../recognise/standing.ts";
import { labels } from "./cells.ts";
import type { Finding } from "./finding.ts";

/** Formulas that can be typed over, and inputs nobody can type into. */
export function protectionFindings(recognised: Recognised, locked: SheetRules["locked"]): readonly Finding[] {
  const { plan } = recognised;
  if (!locked.flat().includes(true))
    return [
      {
        kind: "protection off",
        grade: "note",
        what: "The sheet is not protected: formulas can be typed over. This comparison shows where that was done.",
      },
    ];
  const labelOf = labels(recognised);
  const keyOf = ({ row, column }: Address): number => row * plan.columns + column;
  const open = new Set(plan.unlocked.flatMap((area) => cellsOf(area).map(keyOf)));
  return plan.cells.flatMap((cell): readonly Finding[] => {
    const at = standing(recognised, cell);
    const isLocked = at && locked[at.row]?.[at.column];
    if (!at || isLocked === undefined) return [];
    const isOpen = open.has(keyOf(cell));
    if (isOpen !== isLocked) return [];
    const finding = { at, label: labelOf(cell) };
    if (!isOpen && !isLocked && cell.formula !== undefined)
      return [
        {
          ...finding,
          kind: "cell open",
          grade: "look",
          what: "The formula can be typed over although the sheet is protected.",
          expected: "protected",
          found: "open",
        },
      ];
    if (isOpen && isLocked)
      return [
        {
          ...finding,
          kind: "cell locked",
          grade: "note",
          what: "Nobody can type into the input: it is protected like a formula.",
          expected: "open",
          found: "protected",
        },
      ];
    return [];
  });
}
