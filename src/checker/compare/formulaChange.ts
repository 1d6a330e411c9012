import { piecesOf as writtenPieces, type PieceKind as WrittenKind } from "../../cells/index.ts";
import type { FindingKind } from "./finding.ts";

type PieceKind = "text" | "number" | "cells" | "name" | "sign";
interface Piece {
  readonly kind: PieceKind;
  readonly text: string;
}

const kinds: Partial<Readonly<Record<WrittenKind, PieceKind>>> = {
  text: "text",
  number: "number",
  cells: "cells",
  name: "name",
  function: "name",
  boolean: "name",
};

/** The pieces of a formula in its compared form. */
function piecesOf(formula: string): readonly Piece[] {
  return writtenPieces(formula).map(({ kind, text }): Piece => {
    if (kind === "number") return { kind: "number", text: String(Number(text)) };
    return { kind: text === "#REF!" ? "cells" : (kinds[kind] ?? "sign"), text };
  });
}

interface FormulaChange {
  readonly kind: Extract<
    FindingKind,
    | "formula changed"
    | "constant changed"
    | "arguments in another order"
    | "range changed"
    | "other cells"
    | "lost cells"
  >;
  readonly what: string;
}

const list = (texts: readonly string[]): string => texts.join(", ");

/** In what two formulas differ, both in their compared form; undefined where only numbers are written in another way. */
export function formulaChange(expected: string, found: string): FormulaChange | undefined {
  const a = piecesOf(expected);
  const b = piecesOf(found);
  const differing =
    a.length === b.length
      ? a.flatMap((p, i) => (p.kind === b[i]!.kind && p.text === b[i]!.text ? [] : [[p, b[i]!] as const]))
      : undefined;
  if (differing?.length === 0) return undefined;
  if (b.some(({ text }) => text.endsWith("#REF!")) && !a.some(({ text }) => text.endsWith("#REF!")))
    return { kind: "lost cells", what: "The formula has lost a cell it referred to." };
  const sorted = (pieces: readonly Piece[]): string =>
    pieces
      .map(({ text }) => text)
      .sort()
      .join("\u0001");
  if (a.length === b.length && sorted(a) === sorted(b))
    return {
      kind: "arguments in another order",
      what: "The formula has the same parts in another order: arguments may be swapped.",
    };
  if (differing && differing.every(([p, q]) => p.kind === q.kind)) {
    const kinds = new Set(differing.map(([p]) => p.kind));
    if (kinds.size === 1 && kinds.has("number"))
      return {
        kind: "constant changed",
        what: `A number in the formula was changed: ${list(differing.map(([p, q]) => `${p.text} to ${q.text}`))}.`,
      };
    if (kinds.size === 1 && kinds.has("text"))
      return {
        kind: "constant changed",
        what: `A text in the formula was changed: ${list(differing.map(([p, q]) => `${p.text} to ${q.text}`))}.`,
      };
    if (kinds.size === 1 && kinds.has("cells")) {
      const ranges = differing.every(([p, q]) => p.text.includes(":") && q.text.includes(":"));
      const change = list(differing.map(([p, q]) => `${q.text} in place of ${p.text}`));
      return ranges
        ? { kind: "range changed", what: `The formula takes another range: ${change}.` }
        : { kind: "other cells", what: `The formula refers to other cells: ${change}.` };
    }
  }
  return { kind: "formula changed", what: "The formula was changed." };
}
