import ts from "typescript";
import {
  assignments,
  isExpression,
  isRange,
  lazyOperators,
  mathSlips,
  methodSlips,
  operators,
  slippedNumber,
  type Mutant,
} from "./alternatives.ts";

/**
 * The file with every mutant in it, each asleep until `mutants.on(id)` says that it is the one: so one build serves them all.
 * Texts (declared ones, messages and what stands in them) and types are left alone.
 */
export function instrument(
  file: string,
  text: string,
  firstId: number,
): { readonly code: string; readonly mutants: readonly Mutant[] } {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.ES2022, true);
  const found: Mutant[] = [];
  const asleep = (node: ts.Node, was: string, becomes: string): string => {
    found.push({ at: node.getStart(source), was, becomes, isRange: isRange(node) });
    return `mutants.on(${firstId + found.length - 1})`;
  };
  /** The node's own text with its children as they are emitted. */
  const inside = (node: ts.Node): string => {
    let out = "";
    let at = node.getFullStart();
    ts.forEachChild(node, (child) => {
      out += text.slice(at, child.getFullStart()) + emit(child);
      at = child.end;
    });
    return out + text.slice(at, node.end);
  };
  const chosen = (
    node: ts.Node,
    was: string,
    name: string,
    slips: readonly { readonly word: string; readonly name: string }[],
  ): string =>
    `(${slips.map((slip) => `${asleep(node, was, slip.word)} ? mutants.${slip.name} : `).join("")}mutants.${name})`;
  const condition = (node: ts.Expression): string =>
    ` (${asleep(node, node.getText(source), "true")} ? true : ${asleep(node, node.getText(source), "false")} ? false : (${emit(node)}))`;
  /** The node's text with one child replaced. */
  const withChild = (node: ts.Node, child: ts.Node, replaced: string): string => {
    let out = "";
    let at = node.getFullStart();
    ts.forEachChild(node, (each) => {
      out += text.slice(at, each.getFullStart()) + (each === child ? replaced : emit(each));
      at = each.end;
    });
    return out + text.slice(at, node.end);
  };

  function called(node: ts.CallExpression): string | undefined {
    const callee = node.expression;
    if (!ts.isPropertyAccessExpression(callee) || callee.questionDotToken) return undefined;
    const name = callee.name.text;
    if (callee.expression.getText(source) === "Math") {
      const slip = mathSlips[name];
      return (
        slip &&
        withChild(
          node,
          callee,
          ` (${asleep(node, `Math.${name}`, slip === "same" ? "its argument" : `Math.${slip}`)} ? ` +
            `${slip === "same" ? "mutants.same" : `Math.${slip}`} : Math.${name})`,
        )
      );
    }
    const slip = methodSlips[name];
    return (
      slip &&
      withChild(node, callee, `${emit(callee.expression)}[${asleep(callee.name, name, slip)} ? "${slip}" : "${name}"]`)
    );
  }

  function emit(node: ts.Node): string {
    if (
      ts.isTypeNode(node) ||
      ts.isInterfaceDeclaration(node) ||
      ts.isTypeAliasDeclaration(node) ||
      ts.isImportDeclaration(node) ||
      ts.isExportDeclaration(node) ||
      ts.isTemplateExpression(node)
    )
      return text.slice(node.getFullStart(), node.end);
    if (ts.isNumericLiteral(node) && isExpression(node)) {
      const slip = slippedNumber(/^[\d.]+(e[+-]?\d+)?$/i.test(node.getText(source)) ? node.getText(source) : node.text);
      return ` (${asleep(node, node.getText(source), slip)} ? ${slip} : ${node.getText(source)})`;
    }
    if ((node.kind === ts.SyntaxKind.TrueKeyword || node.kind === ts.SyntaxKind.FalseKeyword) && isExpression(node)) {
      const [was, slip] = node.kind === ts.SyntaxKind.TrueKeyword ? ["true", "false"] : ["false", "true"];
      return ` (${asleep(node, was, slip)} ? ${slip} : ${was})`;
    }
    if (ts.isBinaryExpression(node)) {
      const { kind } = node.operatorToken;
      const isText = [node.left, node.right].some((side) => ts.isStringLiteral(side) || ts.isTemplateLiteral(side));
      const word = node.operatorToken.getText(source);
      const eager = operators[kind];
      if (eager && !(isText && kind === ts.SyntaxKind.PlusToken))
        return ` ${chosen(node, word, eager.name, eager.slips)}(${emit(node.left)}, ${emit(node.right)})`;
      const lazy = lazyOperators[kind];
      if (lazy) return ` ${chosen(node, word, lazy.name, lazy.slips)}(${emit(node.left)}, () => (${emit(node.right)}))`;
      const slip = assignments[kind];
      // The left side is a name or a place in a list: evaluated once in either branch.
      if (slip && !isText)
        return (
          ` (${asleep(node, word, slip)} ? ${node.left.getText(source)} ${slip} ${node.right.getText(source)} ` +
          `: ${node.left.getText(source)} ${word} ${emit(node.right)})`
        );
    }
    if (ts.isPrefixUnaryExpression(node)) {
      if (node.operator === ts.SyntaxKind.ExclamationToken)
        return ` ${chosen(node, "!", "not", [{ word: "nothing", name: "same" }])}(${emit(node.operand)})`;
      if (node.operator === ts.SyntaxKind.MinusToken)
        return ` ${chosen(node, "−", "negative", [{ word: "nothing", name: "same" }])}(${emit(node.operand)})`;
    }
    if (ts.isConditionalExpression(node)) return withChild(node, node.condition, condition(node.condition));
    if (ts.isIfStatement(node)) return withChild(node, node.expression, condition(node.expression));
    if (
      ts.isExpressionStatement(node) &&
      (ts.isCallExpression(node.expression) || ts.isBinaryExpression(node.expression))
    )
      return ` { if (!${asleep(node, node.getText(source), "nothing")}) {${inside(node)}} }`;
    if (ts.isCallExpression(node)) return called(node) ?? inside(node);
    return inside(node);
  }

  return { code: emit(source), mutants: found };
}
