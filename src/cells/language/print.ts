import type { FormulaNode, ReferenceNode, TemplateReferenceNode } from "./tree.ts";

const strength: Readonly<Record<string, number>> = {
  "=": 1,
  "<": 1,
  ">": 1,
  "<=": 1,
  ">=": 1,
  "<>": 1,
  "&": 2,
  "+": 3,
  "-": 3,
  "*": 4,
  "/": 4,
  "^": 5,
  ",": 8,
  " ": 9,
  ":": 10,
};
const before = 6;

function strengthOf(node: FormulaNode): number {
  if (node.type === "BinaryExpression") return strength[node.operator] ?? 1;
  return node.type === "UnaryExpression" && node.operator !== "%" && node.operator !== "#" ? before : 20;
}

/**
 * A part as formula text without `=`, with brackets where they are needed.
 * @param reference writes a reference in another way; undefined leaves it as it is
 */
export function writeNode(
  node: FormulaNode | null,
  reference: (node: ReferenceNode | TemplateReferenceNode) => string | undefined = () => undefined,
): string {
  const write = (n: FormulaNode | null): string => {
    if (!n) return "";
    switch (n.type) {
      case "Literal":
        return n.raw;
      case "ErrorLiteral":
        return n.value;
      case "ReferenceIdentifier":
        return reference(n) ?? n.value;
      case "TemplateReference":
        return reference(n) ?? n.text;
      case "Identifier":
        return n.name;
      case "UnaryExpression": {
        const inside = n.arguments[0]!;
        if (n.operator === "%" || n.operator === "#")
          return `${strengthOf(inside) < 20 ? `(${write(inside)})` : write(inside)}${n.operator}`;
        return `${n.operator}${strengthOf(inside) < before ? `(${write(inside)})` : write(inside)}`;
      }
      case "BinaryExpression": {
        const own = strengthOf(n);
        const [a, b] = n.arguments as readonly [FormulaNode, FormulaNode];
        // Of equal operators the left one comes first, powers as well.
        return `${strengthOf(a) < own ? `(${write(a)})` : write(a)}${n.operator}${strengthOf(b) <= own ? `(${write(b)})` : write(b)}`;
      }
      case "CallExpression":
        return `${write(n.callee)}(${n.arguments.map(write).join(",")})`;
      case "ArrayExpression":
        return `{${n.elements.map((row) => row.map(write).join(",")).join(";")}}`;
      case "LetExpression":
        return `LET(${n.declarations.map(({ id, init }) => `${id.name},${write(init)}`).join(",")},${write(n.body)})`;
      case "LambdaExpression":
        return `LAMBDA(${[...n.params.map(({ name }) => name), write(n.body)].join(",")})`;
    }
  };
  return write(node);
}
