import { a1, areaOf, piecesOf, readCells, splitSheet, type Address } from "../../cells/index.ts";
import { columns } from "../../sheet/index.ts";

/** What a refusal looks at: a sheet's cells, and which of them may be typed in. */
export interface LookedAt {
  readonly formula: (at: Address) => string;
  readonly text: (at: Address) => string;
  readonly open: (at: Address) => boolean;
  readonly columns: number;
}

const mostInputs = 4;
/** Cells followed back from a formula: the inputs next to it are told, not all that the sheet has. */
const mostFollowed = 400;

function cellsIn(formula: string): readonly Address[] {
  return piecesOf(formula).flatMap(({ kind, text }): readonly Address[] => {
    if (kind !== "cells") return [];
    const { sheet, rest } = splitSheet(text);
    const read = sheet === undefined ? readCells(rest) : undefined;
    const area = read && areaOf(read);
    return area ? [{ row: area.row, column: area.column }] : [];
  });
}

/** The nearest input cells that a formula follows from. */
function inputsOf(of: LookedAt, from: Address): readonly Address[] {
  const seen = new Set<string>();
  const found: Address[] = [];
  let ring: readonly Address[] = [from];
  while (ring.length > 0 && found.length < mostInputs && seen.size < mostFollowed) {
    const next: Address[] = [];
    for (const at of ring)
      for (const cell of cellsIn(of.formula(at))) {
        const key = a1(cell);
        if (seen.has(key)) continue;
        seen.add(key);
        if (of.open(cell) && cell.column !== columns.mark) found.push(cell);
        else next.push(cell);
      }
    ring = next;
  }
  return found.slice(0, mostInputs);
}

/** "H40 (span)"; the address alone where its row has no words. */
function named({ text }: LookedAt, at: Address): string {
  const words = at.column === columns.value ? text({ row: at.row, column: columns.description }).trim() : "";
  return words === "" ? a1(at) : `${a1(at)} (${words})`;
}

/** Why a cell of a built sheet cannot be typed in, and which cell can. */
export function whyLocked(of: LookedAt, at: Address): string {
  const cell = a1(at);
  if (of.formula(at) !== "") {
    const inputs = inputsOf(of, at).map((input) => named(of, input));
    if (inputs.length === 0) return `${cell} holds a formula: the sheet computes it from fixed values.`;
    return `${cell} holds a formula. It follows from ${inputs.join(", ")}: type there.`;
  }
  const inRow = Array.from({ length: of.columns }, (_, column) => ({ row: at.row, column }));
  const open = inRow.filter((one) => one.column !== columns.mark && of.open(one));
  const text = of.text(at).trim();
  const what = text === "" ? "is an empty cell of the template" : "holds a text of the template";
  if (inRow.some((one) => of.text(one).startsWith("as built:")))
    return `${cell} shapes the sheet: its rows were built for it. Change it under Build, “Change configuration or standard”.`;
  if (open[0]) return `${cell} ${what}. The input of this row is ${named(of, open[0])}.`;
  return `${cell} ${what}: nothing is typed here. Inputs are the framed cells; Ctrl+G goes to one by name.`;
}
