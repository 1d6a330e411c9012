import type { Address, Area } from "../address/address.ts";
import { areaOf, cellsText, readCells, type ReadCells } from "../address/readCells.ts";
import { piecesOf, type Piece } from "./pieces.ts";

type OwnArea = ReadCells & Area;
const known = new WeakMap<Piece, OwnArea | "NONE">();

/**
 * The cells of the formula's own sheet that a piece names, read once; undefined for whole rows and columns, and for
 * anything else.
 */
function ownArea(piece: Piece): OwnArea | undefined {
  if (piece.kind !== "cells") return undefined;
  const before = known.get(piece);
  if (before) return before === "NONE" ? undefined : before;
  const read = readCells(piece.text);
  const area = read && areaOf(read);
  const own = read && area && read.sheet === undefined ? { ...read, ...area } : undefined;
  known.set(piece, own ?? "NONE");
  return own;
}

function movedPiece(piece: Piece, rows: number): string {
  const own = ownArea(piece);
  return own ? cellsText({ ...own, top: own.row + rows, bottom: own.row + own.rows - 1 + rows }) : piece.text;
}

/** Cells of another sheet, with its name as written. */
function movedOnOther({ text }: Piece, rows: number): string {
  const cut = text.lastIndexOf("!") + 1;
  const read = readCells(text.slice(cut));
  const area = read && areaOf(read);
  if (!read || !area) return text;
  return text.slice(0, cut) + cellsText({ ...read, top: area.row + rows, bottom: area.row + area.rows - 1 + rows });
}

/**
 * The formula for a sheet on which everything stands `rows` rows further down.
 * @param others further sheets, in small letters, on which it does so too
 */
export function movedDown(formula: string, rows: number, others: ReadonlySet<string> = new Set()): string {
  const onOther = (piece: Piece): boolean => {
    const sheet = piece.kind === "cells" && others.size > 0 ? readCells(piece.text)?.sheet : undefined;
    return sheet !== undefined && others.has(sheet.toLowerCase());
  };
  return piecesOf(formula)
    .map((piece) => (onOther(piece) ? movedOnOther(piece, rows) : movedPiece(piece, rows)))
    .join("");
}

/** A reference as it reads when the formula is filled into a cell further down and to the right; `#REF!` where it would leave the sheet. */
function filledReference(text: string, down: number, right: number): string {
  const cut = text.lastIndexOf("!") + 1;
  const read = readCells(text.slice(cut));
  if (!read) return text;
  const { fixed } = read;
  const moved = (at: number | null, by: number, still: boolean): number | null => (at === null || still ? at : at + by);
  const ends = {
    top: moved(read.top, down, fixed.top),
    left: moved(read.left, right, fixed.left),
    bottom: moved(read.bottom, down, fixed.bottom),
    right: moved(read.right, right, fixed.right),
  };
  if (Object.values(ends).some((at) => at !== null && at < 0)) return "#REF!";
  return text.slice(0, cut) + cellsText({ ...ends, fixed });
}

/** The formula as it reads when it is filled into a cell further down and to the right: what has no `$` moves along. */
export function filled(formula: string, down: number, right: number): string {
  return piecesOf(formula)
    .map(({ kind, text }) => (kind === "cells" ? filledReference(text, down, right) : text))
    .join("");
}

/**
 * The formula without its `=`, each reference and name replaced by what `said` gives for it, else as it stands `rows`
 * rows further down. Arguments stand apart by semicolons, since symbols have commas of their own.
 */
export function wordsOf(
  formula: string,
  rows: number,
  said: (what: { readonly area: Area } | { readonly name: string }) => string | undefined,
): string {
  return piecesOf(formula)
    .filter(({ kind }) => kind !== "prefix")
    .map((piece) => {
      const { kind, text } = piece;
      const own = ownArea(piece);
      if (own) return said({ area: own }) ?? movedPiece(piece, rows);
      if (kind === "operator" && text === ",") return "; ";
      return (kind === "name" ? said({ name: text }) : undefined) ?? text;
    })
    .join("");
}

/** Is the formula at one cell the same as at another: does each reference mean the same cells, or those as far away? */
export function sameFormula(a: string, atA: Address, b: string, atB: Address): boolean {
  const [ofA, ofB] = [piecesOf(a), piecesOf(b)];
  if (ofA.length !== ofB.length) return false;
  const [down, right] = [atB.row - atA.row, atB.column - atA.column];
  const same = (p: number, q: number, by: number): boolean => p === q || p + by === q;
  return ofA.every((piece, i) => {
    const other = ofB[i]!;
    const x = ownArea(piece);
    const y = ownArea(other);
    if (!x || !y) return piece.text === other.text;
    return (
      same(x.row, y.row, down) &&
      same(x.row + x.rows, y.row + y.rows, down) &&
      same(x.column, y.column, right) &&
      same(x.column + x.columns, y.column + y.columns, right)
    );
  });
}
