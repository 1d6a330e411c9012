import { parse, tokenize } from "@borgar/fx";
import type { FormulaNode } from "./tree.ts";

/** A text that is no formula; the message is the reader's. */
export class UnreadableFormula extends Error {
  override readonly name = "UnreadableFormula";
}

/** Reads a formula with its `=`. Throws UnreadableFormula where it is none. */
export function parseFormula(formula: string): FormulaNode {
  const tokens = tokenize(formula, { mergeRefs: true });
  try {
    return parse(tokens);
  } catch (error) {
    // The reader throws plain errors, and those for nothing else.
    throw new UnreadableFormula((error as Error).message, { cause: error });
  }
}
