import { areaA1, type Address, type CellContent } from "../../cells/index.ts";

/** A cell whose formula calls functions of ours that the program did not know when it opened the workbook. */
export interface LostCell extends Address {
  readonly sheet: string;
  /** As it stands there now. */
  readonly formula: string;
  /** As it is to be entered anew. */
  readonly typed: string;
  /** What it shows now; undefined where it shows an error, so that nothing is left to compare with. */
  readonly stored?: CellContent["value"];
}

/** Before the names of our functions in workbooks that met a program without them; with the number of another add-in before it, too. */
const marks = /(?:'?\[[^\]]*\][^'!]*'?!)?_xldudf_(KERN)_/gi;
const later = /_xlfn\.(?=KERN\.)/gi;

/** The formula as it is typed, without the program's own marks before our functions. */
export function typedAnew(formula: string): string {
  return formula.replace(marks, (_all, namespace: string) => `${namespace.toUpperCase()}.`).replace(later, "");
}

/** Whether it is worth a closer look: the program's mark stands in the formula, or it gives #NAME?. */
export function mayBeLost({ formula, error }: CellContent): boolean {
  return formula !== undefined && (error?.code === "#NAME?" || typedAnew(formula) !== formula);
}

/** "3 cells on “Beam” (B4, B5, D9)" for each sheet. */
export function lostText(cells: readonly LostCell[]): string {
  const bySheet = new Map<string, LostCell[]>();
  for (const cell of cells) bySheet.set(cell.sheet, [...(bySheet.get(cell.sheet) ?? []), cell]);
  return [...bySheet]
    .map(([sheet, own]) => {
      const some = own.slice(0, 3).map(({ row, column }) => areaA1({ row, column, rows: 1, columns: 1 }, false));
      const more = own.length > some.length ? " …" : "";
      return `${own.length} ${own.length === 1 ? "cell" : "cells"} on “${sheet}” (${some.join(", ")}${more})`;
    })
    .join(", ");
}
