import type { MathJsInstance } from "mathjs";
import {
  binaryNode,
  callNode,
  letNode,
  nameNode,
  negative,
  numberNode,
  textNode,
  type FormulaNode,
} from "../../cells/index.ts";

/** The part of mathjs that reads equations; pages load it when it is first used. */
export type EquationReader = Pick<MathJsInstance, "parse">;

/** What an equation has that a formula of cells cannot say. */
export class NotExpressible extends Error {
  override readonly name = "NotExpressible";
}

/** Functions of equations under their names in cells. */
const functions: Readonly<Record<string, string>> = {
  log: "LN",
  log10: "LOG10",
  exp: "EXP",
  sqrt: "SQRT",
  abs: "ABS",
  sin: "SIN",
  cos: "COS",
  tan: "TAN",
  atan: "ATAN",
  sinh: "SINH",
  min: "MIN",
  max: "MAX",
};

/** Comparisons as cells write them. */
const operators: Readonly<Record<string, string>> = {
  "+": "+",
  "-": "-",
  "*": "*",
  "/": "/",
  "^": "^",
  "<": "<",
  ">": ">",
  "<=": "<=",
  ">=": ">=",
  "==": "=",
  "!=": "<>",
};

/** What mathjs gives of its nodes, as far as it is read here. */
interface Read {
  readonly type: string;
  readonly value?: unknown;
  readonly name?: string;
  readonly op?: string;
  readonly args?: readonly Read[];
  readonly fn?: { readonly name: string };
  readonly content?: Read;
  readonly condition?: Read;
  readonly trueExpr?: Read;
  readonly falseExpr?: Read;
}

/** A count up or down; what misses a whole number by the last bits of a division is that number, as in the core. */
function rounded(how: "ceil" | "floor", of: FormulaNode): FormulaNode {
  const [exact, whole] = [nameNode("exact_n"), nameNode("whole_n")];
  const cut = how === "floor" ? callNode("INT", exact) : negative(callNode("INT", negative(exact)));
  const close = binaryNode(
    "<=",
    callNode("ABS", binaryNode("-", exact, whole)),
    binaryNode("*", numberNode(1e-12), callNode("ABS", whole)),
  );
  return letNode(
    [
      ["exact_n", of],
      ["whole_n", callNode("ROUND", exact, numberNode(0))],
    ],
    callNode("IF", close, whole, cut),
  );
}

/**
 * An equation of a declaration as a formula of cells.
 * @param symbol what stands for a parameter or an earlier step
 */
export function equationNode(
  reader: EquationReader,
  equation: string,
  symbol: (name: string) => FormulaNode,
): FormulaNode {
  const translate = (node: Read): FormulaNode => {
    switch (node.type) {
      case "ConstantNode":
        if (typeof node.value === "number") return numberNode(node.value);
        if (typeof node.value === "string") return textNode(node.value);
        break;
      case "SymbolNode":
        return node.name === "pi" ? callNode("PI") : symbol(node.name!);
      case "ParenthesisNode":
        return translate(node.content!);
      case "OperatorNode": {
        const [a, b] = node.args!;
        if (!b && node.op === "-") return negative(translate(a!));
        if (!b && node.op === "not") return callNode("NOT", translate(a!));
        if (b && (node.op === "and" || node.op === "or"))
          return callNode(node.op.toUpperCase(), translate(a!), translate(b));
        const operator = operators[node.op!];
        if (a && b && operator !== undefined) return binaryNode(operator, translate(a), translate(b));
        break;
      }
      case "ConditionalNode":
        return callNode("IF", translate(node.condition!), translate(node.trueExpr!), translate(node.falseExpr!));
      case "FunctionNode":
        return call(node.fn!.name, node.args!);
    }
    throw new NotExpressible(`${node.type} of “${equation}”`);
  };
  const call = (name: string, args: readonly Read[]): FormulaNode => {
    const given = args.map(translate);
    if (name === "equalText") return binaryNode("=", given[0]!, given[1]!);
    if (name === "ceil" || name === "floor") return rounded(name, given[0]!);
    const known = functions[name];
    if (known === undefined) throw new NotExpressible(`the function ${name} of “${equation}”`);
    return callNode(known, ...given);
  };
  return translate(reader.parse(equation));
}
