import { templateFormula } from "../cells/index.ts";
import type { ShapedSheet } from "./shape.ts";

/** The row whose word a check says when it passes: OK, but another one while an input is missing. */
const passRow = "pass";

/**
 * A verdict's formula with that row's word in place of OK. Spreadsheets take an empty cell as 0, so that a formula alone
 * cannot tell whether a check passes because of what was typed or because nothing was.
 */
export function withheldWhileMissing(verdict: string, { subjects }: ShapedSheet): string {
  if (!subjects.has(passRow)) return verdict;
  return templateFormula(verdict)
    .pieces.map((piece) => (piece.kind === "text" && piece.text === '"OK"' ? `{${passRow}}` : piece.text))
    .join("");
}
