import type { FormulaNode } from "./tree.ts";

/** A number written into the formula, such as `1000`, `10^6`, `1/1000`, `5%`. */
export function numberIn(node: FormulaNode | null): number | undefined {
  if (!node) return undefined;
  if (node.type === "Literal") return typeof node.value === "number" ? node.value : undefined;
  if (node.type === "UnaryExpression") {
    const inside = numberIn(node.arguments[0]!);
    if (inside === undefined) return undefined;
    return { "-": -inside, "+": inside, "%": inside / 100 }[node.operator];
  }
  if (node.type === "BinaryExpression") {
    const [a, b] = node.arguments.map(numberIn);
    if (a === undefined || b === undefined) return undefined;
    return { "+": a + b, "-": a - b, "*": a * b, "/": a / b, "^": a ** b }[node.operator];
  }
  if (node.type === "CallExpression" && node.callee.name?.toUpperCase() === "PI") return Math.PI;
  return undefined;
}
