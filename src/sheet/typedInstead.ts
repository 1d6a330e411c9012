import { cellReference, type CellReference, type FormulaNode } from "../cells/index.ts";

/** The input whose value, once typed, goes before what a formula would work out: IF(ISNUMBER(input),input,…). */
export function typedInstead(tree: FormulaNode | undefined): CellReference | undefined {
  if (tree?.type !== "CallExpression" || tree.callee.name !== "IF") return undefined;
  const [asked, typed] = tree.arguments;
  if (asked?.type !== "CallExpression" || asked.callee.name !== "ISNUMBER") return undefined;
  const reference = cellReference(typed);
  return reference && cellReference(asked.arguments[0])?.id === reference.id ? reference : undefined;
}
