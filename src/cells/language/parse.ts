import { parse, tokenize } from "@borgar/fx";
import type { FormulaNode } from "./tree.ts";

/** Reads a formula with its `=`. Throws where it is no formula that can be read. */
export function parseFormula(formula: string): FormulaNode {
  return parse(tokenize(formula, { mergeRefs: true }));
}
