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

/** Whether a mutant is to be in the file, a range or not. */
export type Choose = (isRange: boolean) => boolean;

/**
 * The file with the mutants chosen in it, each asleep until `mutants.on(id)` says that it is the one: so one build serves
 * them all. Texts (declared ones, messages and what stands in them) and types are left alone.
 */
export function instrument(
  file: string,
  text: string,
  firstId: number,
  choose: Choose = () => true,
): { readonly code: string; readonly mutants: readonly Mutant[] } {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.ES2022, true);
  const found: Mutant[] = [];
  /** What asks whether the mutant is awake; undefined where it is not among those chosen. */
  const asleep = (node: ts.Node, was: string, becomes: string): string | undefined => {
    const mutant = { at: node.getStart(source), was, becomes, isRange: isRange(node) };
    if (!choose(mutant.isRange)) return undefined;
    found.push(mutant);
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
  /** The name of the function that stands for an operator; undefined where none of its mutants is chosen. */
  const chosen = (
    node: ts.Node,
    was: string,
    name: string,
    slips: readonly { readonly word: string; readonly name: string }[],
  ): string | undefined => {
    const awake = slips.flatMap((slip) => {
      const on = asleep(node, was, slip.word);
      return on === undefined ? [] : [`${on} ? mutants.${slip.name} : `];
    });
    return awake.length === 0 ? undefined : `(${awake.join("")}mutants.${name})`;
  };
  const condition = (node: ts.Expression): string => {
    const awake = ["true", "false"].flatMap((value) => {
      const on = asleep(node, node.getText(source), value);
      return on === undefined ? [] : [`${on} ? ${value} : `];
    });
    return awake.length === 0 ? emit(node) : ` (${awake.join("")}(${emit(node)}))`;
  };
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
      const on = slip && asleep(node, `Math.${name}`, slip === "same" ? "its argument" : `Math.${slip}`);
      const other = slip === "same" ? "mutants.same" : `Math.${slip}`;
      return on && withChild(node, callee, ` (${on} ? ${other} : Math.${name})`);
    }
    const slip = methodSlips[name];
    const on = slip && asleep(callee.name, name, slip);
    return on && withChild(node, callee, `${emit(callee.expression)}[${on} ? "${slip}" : "${name}"]`);
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
      const on = asleep(node, node.getText(source), slip);
      return on === undefined ? inside(node) : ` (${on} ? ${slip} : ${node.getText(source)})`;
    }
    if ((node.kind === ts.SyntaxKind.TrueKeyword || node.kind === ts.SyntaxKind.FalseKeyword) && isExpression(node)) {
      const [was, slip] = node.kind === ts.SyntaxKind.TrueKeyword ? ["true", "false"] : ["false", "true"];
      const on = asleep(node, was, slip);
      return on === undefined ? inside(node) : ` (${on} ? ${slip} : ${was})`;
    }
    if (ts.isBinaryExpression(node)) {
      const { kind } = node.operatorToken;
      const isText = [node.left, node.right].some((side) => ts.isStringLiteral(side) || ts.isTemplateLiteral(side));
      const word = node.operatorToken.getText(source);
      const eager = operators[kind];
      if (eager && !(isText && kind === ts.SyntaxKind.PlusToken)) {
        const operator = chosen(node, word, eager.name, eager.slips);
        return operator ? ` ${operator}(${emit(node.left)}, ${emit(node.right)})` : inside(node);
      }
      const lazy = lazyOperators[kind];
      if (lazy) {
        const operator = chosen(node, word, lazy.name, lazy.slips);
        return operator ? ` ${operator}(${emit(node.left)}, () => (${emit(node.right)}))` : inside(node);
      }
      const slip = assignments[kind];
      // The left side is a name or a place in a list: evaluated once in either branch.
      if (slip && !isText) {
        const left = node.left.getText(source);
        const on = asleep(node, word, slip);
        const plain = `${left} ${word} ${emit(node.right)}`;
        return on === undefined ? ` ${plain}` : ` (${on} ? ${left} ${slip} ${node.right.getText(source)} : ${plain})`;
      }
    }
    if (ts.isPrefixUnaryExpression(node)) {
      const slips = [{ word: "nothing", name: "same" }];
      const operator =
        node.operator === ts.SyntaxKind.ExclamationToken
          ? chosen(node, "!", "not", slips)
          : node.operator === ts.SyntaxKind.MinusToken
            ? chosen(node, "−", "negative", slips)
            : undefined;
      if (operator) return ` ${operator}(${emit(node.operand)})`;
    }
    if (ts.isConditionalExpression(node)) return withChild(node, node.condition, condition(node.condition));
    if (ts.isIfStatement(node)) return withChild(node, node.expression, condition(node.expression));
    if (
      ts.isExpressionStatement(node) &&
      (ts.isCallExpression(node.expression) || ts.isBinaryExpression(node.expression))
    ) {
      const on = asleep(node, node.getText(source), "nothing");
      return on === undefined ? inside(node) : ` { if (!${on}) {${inside(node)}} }`;
    }
    if (ts.isCallExpression(node)) return called(node) ?? inside(node);
    return inside(node);
  }

  return { code: emit(source), mutants: found };
}
