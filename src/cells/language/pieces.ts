import { tokenize, tokenTypes, type Token } from "@borgar/fx";

/** What a piece of a formula is. `cells`: a cell, a range, whole columns or rows, with the sheet where it names one. */
export type PieceKind =
  | "prefix"
  | "cells"
  | "name"
  | "table"
  | "function"
  | "number"
  | "text"
  | "boolean"
  | "error"
  | "operator"
  | "blank"
  | "other";

/** A piece of a formula as written: all of them, one after another, are the formula. */
export interface Piece {
  readonly kind: PieceKind;
  readonly text: string;
}

const kinds: Readonly<Record<string, PieceKind>> = {
  [tokenTypes.FX_PREFIX]: "prefix",
  [tokenTypes.REF_RANGE]: "cells",
  [tokenTypes.REF_BEAM]: "cells",
  [tokenTypes.REF_NAMED]: "name",
  [tokenTypes.REF_STRUCT]: "table",
  [tokenTypes.FUNCTION]: "function",
  [tokenTypes.NUMBER]: "number",
  [tokenTypes.STRING]: "text",
  [tokenTypes.BOOLEAN]: "boolean",
  [tokenTypes.ERROR]: "error",
  [tokenTypes.OPERATOR]: "operator",
  [tokenTypes.WHITESPACE]: "blank",
  [tokenTypes.NEWLINE]: "blank",
};

const kindOf = ({ type }: Token): PieceKind => kinds[type] ?? "other";

export function pieceOf(token: Token): Piece {
  return { kind: kindOf(token), text: token.value };
}

/** Hands on a formula's pieces, one after another: for those who look at each formula once. */
export function eachPiece(formula: string, take: (kind: PieceKind, text: string) => void): void {
  for (const token of tokenize(formula, { mergeRefs: true })) take(kindOf(token), token.value);
}

const most = 20_000;
const known = new Map<string, readonly Piece[]>();

/** A formula, with or without its `=`, in pieces; read once, however often it is asked for. */
export function piecesOf(formula: string): readonly Piece[] {
  const before = known.get(formula);
  if (before) return before;
  const pieces = tokenize(formula, { mergeRefs: true }).map(pieceOf);
  if (known.size >= most) known.clear();
  known.set(formula, pieces);
  return pieces;
}

/** Whether a piece stands for cells: by address, by name or as part of a table. */
export function isReference({ kind }: Piece): boolean {
  return kind === "cells" || kind === "name" || kind === "table";
}

/** The formula without its `=`. */
export function withoutPrefix(formula: string): string {
  return formula.startsWith("=") ? formula.slice(1) : formula;
}

/** The formula with its `=`, without blanks around it. */
export function withPrefix(formula: string): string {
  const trimmed = formula.trim();
  return trimmed.startsWith("=") ? trimmed : `=${trimmed}`;
}
