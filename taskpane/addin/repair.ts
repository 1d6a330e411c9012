import { lostText, type LostCell, type Repaired } from "../../src/hosts/index.ts";

/** What has happened to formulas that met the program without the functions, and what helps. */
export function lostSentences(cells: readonly LostCell[]): string {
  return (
    `This workbook was opened while the Kernbook functions were not loaded: ${lostText(cells)} lost them and show ` +
    "#NAME? or an old value. " +
    "“Repair the formulas” enters these formulas anew and compares their values with those that were stored. Nothing else changes."
  );
}

const count = (n: number): string => (n === 1 ? "1 formula" : `${n.toLocaleString("en-GB")} formulas`);

/** What the repair came to. */
export function repairedSentences({ cells, differ, still, locked }: Repaired): string {
  return [
    ...(cells > 0 ? [`${count(cells)} compute again.`] : []),
    ...(differ.length > 0
      ? [
          `${lostText(differ.map(({ cell }) => cell))} show another value than the one stored: ` +
            "check what changed before you use the sheet.",
        ]
      : []),
    ...(still.length > 0
      ? [
          `${lostText(still)} still show #NAME?: this version of Kernbook lacks a function. Load the version the sheet was built with.`,
        ]
      : []),
    ...locked.map(
      ({ sheet, why }) =>
        `“${sheet}” was left alone: its protection could not be removed (${why}). Remove it, then repair again.`,
    ),
  ].join(" ");
}
