import { isReference, namespace, ourFunction, piecesOf, withoutPrefix } from "../../cells/index.ts";
import { hasSymbol, numberText } from "../../typeset/index.ts";
import type { Origin, OriginOf } from "./origin.ts";

/** A piece of a formula as it is shown: text as written, or cells with what they are called. */
export interface FormulaPiece {
  readonly text: string;
  readonly origin?: Origin;
}

/** A formula in pieces, its references apart. `originOf` knows those that stand for cells. */
export function shownPieces(formula: string, originOf: OriginOf): readonly FormulaPiece[] {
  return piecesOf(withoutPrefix(formula)).map((piece): FormulaPiece => {
    const origin = isReference(piece) ? originOf(piece.text) : undefined;
    const ours = piece.kind === "function" ? ourFunction(piece.text) : undefined;
    return { text: ours === undefined ? piece.text : namespace + ours, ...(origin && { origin }) };
  });
}

/** The symbol of the cells a piece stands for, where they have one; a piece of text as it is. */
export function symbolOf({ text, origin }: FormulaPiece): string {
  const symbol = origin?.label?.symbol ?? "";
  return hasSymbol(symbol) ? symbol : text;
}

/** The number that stands in the cells of a piece; a range and a text as written. */
export function numberOf({ text, origin }: FormulaPiece): string {
  const cell = origin?.contents.length === 1 && origin.contents[0]!.length === 1 ? origin.contents[0]![0]! : undefined;
  if (!cell) return text;
  if (cell.error) return cell.error.code;
  if (typeof cell.value === "number") return cell.value < 0 ? `(${numberText(cell.value)})` : numberText(cell.value);
  if (typeof cell.value === "boolean") return cell.value ? "TRUE" : "FALSE";
  return cell.value === null ? "0" : `"${cell.value}"`;
}
