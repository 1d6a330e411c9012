import type { Address, Area } from "../../cells/index.ts";
import { parseA1Ref, stringifyA1Ref, tokenize, tokenTypes } from "@borgar/fx";

interface Range {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

/** A piece of a formula; `range` where it names cells of the formula's own sheet. */
export interface Piece {
  readonly type: string;
  readonly text: string;
  readonly range?: Range;
  readonly reference?: NonNullable<ReturnType<typeof parseA1Ref>>;
}

const references: ReadonlySet<string> = new Set([tokenTypes.REF_RANGE, tokenTypes.REF_BEAM, tokenTypes.REF_TERNARY]);

function piece(type: string, text: string): Piece {
  const reference = references.has(type) ? parseA1Ref(text) : undefined;
  const { context, range } = (reference ?? {}) as {
    readonly context?: readonly string[];
    readonly range?: Partial<Record<keyof Range, number | null>>;
  };
  if (!reference || !range || context?.length) return { type, text };
  const { top, left, bottom, right } = range;
  // Whole rows and columns stay as they are.
  if (typeof top !== "number" || typeof left !== "number" || typeof bottom !== "number" || typeof right !== "number")
    return { type, text };
  return { type, text, reference, range: { top, left, bottom, right } };
}

/** A formula, with its `=`, in pieces. */
export function piecesOf(formula: string): readonly Piece[] {
  return tokenize(formula).map(({ type, value }) => piece(type, value));
}

function movedPiece({ text, reference, range }: Piece, rows: number): string {
  if (!reference || !range) return text;
  return stringifyA1Ref({
    ...reference,
    range: { ...(reference as { readonly range: Range }).range, top: range.top + rows, bottom: range.bottom + rows },
  });
}

/** The formula for a sheet on which everything stands `rows` rows further down. */
export function movedDown(pieces: readonly Piece[], rows: number): string {
  return pieces.map((one) => movedPiece(one, rows)).join("");
}

/**
 * The formula without its `=`, each reference and name replaced by what `said` gives for it, else as it stands `rows` rows further down. Arguments stand apart by
 * semicolons, since symbols have commas of their own.
 */
export function inWords(
  pieces: readonly Piece[],
  rows: number,
  said: (what: { readonly area: Area } | { readonly name: string }) => string | undefined,
): string {
  return pieces
    .filter(({ type }) => type !== tokenTypes.FX_PREFIX)
    .map((one) => {
      const { type, text, range } = one;
      if (range)
        return (
          said({
            area: {
              row: range.top,
              column: range.left,
              rows: range.bottom - range.top + 1,
              columns: range.right - range.left + 1,
            },
          }) ?? movedPiece(one, rows)
        );
      if (type === tokenTypes.OPERATOR && text === ",") return "; ";
      return (type === tokenTypes.REF_NAMED ? said({ name: text }) : undefined) ?? text;
    })
    .join("");
}

/** Is the formula at one cell the same as at another: does each reference mean the same cells, or those as far away? */
export function sameAs(a: readonly Piece[], atA: Address, b: readonly Piece[], atB: Address): boolean {
  if (a.length !== b.length) return false;
  const [down, right] = [atB.row - atA.row, atB.column - atA.column];
  return a.every(({ text, range: x }, i) => {
    const { text: other, range: y } = b[i]!;
    if (!x || !y) return text === other;
    const same = (p: number, q: number, by: number): boolean => p === q || p + by === q;
    return (
      same(x.top, y.top, down) &&
      same(x.bottom, y.bottom, down) &&
      same(x.left, y.left, right) &&
      same(x.right, y.right, right)
    );
  });
}
