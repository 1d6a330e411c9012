import { quotedSheet, splitSheet } from "../address/sheetPrefix.ts";
import { isReference, piecesOf } from "./pieces.ts";

/** What formulas mention beyond their own sheet's cells. */
export interface Mentioned {
  readonly sheets: Set<string>;
  readonly names: Set<string>;
}

/** Adds the other sheets and the names that a formula mentions. */
export function addMentioned(formula: string, { sheets, names }: Mentioned): void {
  for (const piece of piecesOf(formula)) {
    if (!isReference(piece)) continue;
    const { sheet, rest } = splitSheet(piece.text);
    if (sheet !== undefined && !sheet.includes("[")) sheets.add(sheet);
    if (piece.kind === "name") names.add(rest);
  }
}

/** The other sheets a formula mentions. */
export function sheetsIn(formula: string): readonly string[] {
  if (!formula.includes("!")) return [];
  const mentioned: Mentioned = { sheets: new Set(), names: new Set() };
  addMentioned(formula, mentioned);
  return [...mentioned.sheets];
}

/** The names a formula uses without saying a sheet. */
export function namesIn(formula: string): readonly string[] {
  const names = piecesOf(formula).filter(({ kind, text }) => kind === "name" && !text.includes("!"));
  return [...new Set(names.map(({ text }) => text))];
}

/** Every word of a formula that can be a name, also one that is written like a function or a cell. */
export function wordsIn(formula: string): readonly string[] {
  return piecesOf(formula).flatMap((piece) =>
    isReference(piece) || piece.kind === "function" || piece.kind === "other" ? [splitSheet(piece.text).rest] : [],
  );
}

/** The functions a formula calls, as they are written. */
export function functionsIn(formula: string): readonly string[] {
  return piecesOf(formula).flatMap(({ kind, text }) => (kind === "function" ? [text] : []));
}

/** The formula as it reads on another sheet: references that say no sheet, and the names of the sheet's own, are given this one. */
export function qualified(formula: string, sheet: string, ownNames: ReadonlySet<string>): string {
  return piecesOf(formula)
    .map(({ kind, text }) => {
      const own = kind === "cells" || (kind === "name" && ownNames.has(text.toLowerCase()));
      return own && !text.includes("!") ? `${quotedSheet(sheet)}!${text}` : text;
    })
    .join("");
}
