import { parse, tokenize, tokenTypes, type Token } from "@borgar/fx";
import { bracesApart } from "./bracesApart.ts";
import { ourFunction } from "./ourFunction.ts";
import { pieceOf, withoutPrefix, type Piece } from "./pieces.ts";
import { templateReference, type TemplateReference } from "./templateReference.ts";
import { partsOf, replaced, type FormulaNode } from "./tree.ts";

/** A piece of a template's formula: a reference in braces, or what a piece of any formula is. */
export type TemplatePiece = Piece | TemplateReferencePiece;
interface TemplateReferencePiece {
  readonly kind: "template";
  readonly text: string;
  readonly reference: TemplateReference;
}

/** A call of one of our worksheet functions inside a template's formula. */
export interface TemplateCall {
  /** Without the namespace. */
  readonly id: string;
  readonly arguments: readonly (FormulaNode | null)[];
  /** Nothing else stands in the formula. */
  readonly whole: boolean;
}

/** A template's formula, read once for all who lay it out, check and write it. */
export interface TemplateFormula {
  readonly pieces: readonly TemplatePiece[];
  /** Its leaves are the template's references; undefined where the formula cannot be read. */
  readonly tree?: FormulaNode;
  /** Every part of the tree, outer ones first. */
  readonly parts: readonly FormulaNode[];
  /** The calls of our functions, outer ones first. */
  readonly calls: readonly TemplateCall[];
  readonly problems: readonly string[];
}

const inside = (braces: string): string => braces.slice(1, -1);

/** Whether a text constant holds what would be a reference outside of it. */
function holdsReference(text: string): boolean {
  const open = text.indexOf("{");
  const close = text.indexOf("}", open);
  return open >= 0 && close >= 0 && templateReference(text.slice(open + 1, close)) !== undefined;
}

const touchesName = (piece: TemplatePiece | undefined): boolean =>
  piece !== undefined && ["template", "name", "number", "cells", "other"].includes(piece.kind);

/** References that stand in a text, or right beside something that would make another name of them. */
const misplaced = (pieces: readonly TemplatePiece[]): boolean =>
  pieces.some(
    (piece, i) =>
      (piece.kind === "text" && holdsReference(piece.text)) ||
      (piece.kind === "template" && touchesName(pieces[i + 1])) ||
      (touchesName(piece) && pieces[i + 1]?.kind === "template"),
  );

function bracketsMatch(pieces: readonly TemplatePiece[]): boolean {
  let depth = 0;
  for (const { kind, text } of pieces) {
    if (kind === "operator" && text === "(") depth++;
    if (kind === "operator" && text === ")" && --depth < 0) return false;
  }
  return depth === 0;
}

function unread(pieces: readonly TemplatePiece[], problems: readonly string[]): TemplateFormula {
  return { pieces, parts: [], calls: [], problems };
}

function callsAmong(parts: readonly FormulaNode[]): readonly TemplateCall[] {
  return parts.flatMap((node, i): readonly TemplateCall[] => {
    const id = node.type === "CallExpression" ? ourFunction(node.callee.name ?? "") : undefined;
    return node.type === "CallExpression" && id !== undefined
      ? [{ id, arguments: node.arguments, whole: i === 0 }]
      : [];
  });
}

const nothing: TemplateReference = { kind: "shapeChanged" };

function read(formula: string): TemplateFormula {
  const references = new Map<string, TemplateReference>();
  const pieces: TemplatePiece[] = [];
  const tokens: Token[] = [];
  const problems: string[] = [];
  for (const { text, braces } of bracesApart(withoutPrefix(formula))) {
    if (!braces) {
      // Behind a reference a minus subtracts, and `=` compares.
      const [, ...found] = tokenize(`=${text}`, { mergeRefs: true, negativeNumbers: false });
      pieces.push(...found.map(pieceOf));
      tokens.push(...found);
      continue;
    }
    const reference = templateReference(inside(text));
    if (!reference) problems.push(`${text} is not a reference`);
    references.set(text, reference ?? nothing);
    pieces.push({ kind: "template", text, reference: reference ?? nothing });
    // To the parser it is a name.
    tokens.push({ type: tokenTypes.REF_NAMED, value: text });
  }
  if (misplaced(pieces)) problems.push("a reference stands inside a text or touches another name");
  if (!bracketsMatch(pieces)) return unread(pieces, [...problems, "its brackets do not match"]);
  try {
    const tree = replaced(parse(tokens), (node) => {
      const reference = references.get(node.value);
      return reference ? { type: "TemplateReference", text: node.value, reference } : node;
    });
    const parts = [...partsOf(tree)];
    return { pieces, tree, parts, calls: callsAmong(parts), problems };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return unread(pieces, [...problems, `it cannot be read as a formula (${why})`]);
  }
}

const known = new Map<string, TemplateFormula>();

/** Reads a template's formula, with or without `=`; each once. */
export function templateFormula(formula: string): TemplateFormula {
  const before = known.get(formula);
  if (before) return before;
  const made = read(formula);
  known.set(formula, made);
  return made;
}
