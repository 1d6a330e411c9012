import type { CellReference, TemplateReference } from "./templateReference.ts";

/** Cells, a name or a part of a table, as written. */
export interface ReferenceNode {
  readonly type: "ReferenceIdentifier";
  readonly value: string;
  readonly kind: "range" | "beam" | "name" | "table";
}

/** In a template's formula: cells of a row or column by its id, with the braces as written. */
export interface TemplateReferenceNode {
  readonly type: "TemplateReference";
  readonly text: string;
  readonly reference: TemplateReference;
}

/** An operator with what it stands before, behind or between. */
export interface OperatorNode {
  readonly type: "UnaryExpression" | "BinaryExpression";
  readonly operator: string;
  readonly arguments: readonly FormulaNode[];
}

/** A function with its arguments; null for one left out. What is called is a name, or a part that gives a function. */
export interface CallNode {
  readonly type: "CallExpression";
  readonly callee: FormulaNode & { readonly name?: string };
  readonly arguments: readonly (FormulaNode | null)[];
}

export interface LetNode {
  readonly type: "LetExpression";
  readonly declarations: readonly { readonly id: { readonly name: string }; readonly init: FormulaNode | null }[];
  readonly body: FormulaNode | null;
}

export interface LambdaNode {
  readonly type: "LambdaExpression";
  readonly params: readonly { readonly name: string }[];
  readonly body: FormulaNode | null;
}

/** A number, text or truth value as typed. */
interface LiteralNode {
  readonly type: "Literal";
  readonly value: number | string | boolean;
  readonly raw: string;
}

/** A part of a formula. */
export type FormulaNode =
  | LiteralNode
  | { readonly type: "ErrorLiteral"; readonly value: string }
  | ReferenceNode
  | TemplateReferenceNode
  | OperatorNode
  | CallNode
  | { readonly type: "ArrayExpression"; readonly elements: readonly (readonly FormulaNode[])[] }
  | LetNode
  | LambdaNode
  | { readonly type: "Identifier"; readonly name: string };

/** The parts right within a part, in the order they are written; null for an argument left out. */
function childrenOf(node: FormulaNode): readonly (FormulaNode | null)[] {
  switch (node.type) {
    case "UnaryExpression":
    case "BinaryExpression":
      return node.arguments;
    case "CallExpression":
      return node.callee.type === "Identifier" ? node.arguments : [node.callee, ...node.arguments];
    case "ArrayExpression":
      return node.elements.flat();
    case "LetExpression":
      return [...node.declarations.map(({ init }) => init), node.body];
    case "LambdaExpression":
      return [node.body];
    default:
      return [];
  }
}

/** A part and all within it, outer ones first. */
export function* partsOf(node: FormulaNode): Generator<FormulaNode> {
  yield node;
  for (const child of childrenOf(node)) if (child) yield* partsOf(child);
}

/** A part with other parts in place of its references, but for those within LET and LAMBDA, which name things of their own. */
export function replaced(node: FormulaNode, other: (reference: ReferenceNode) => FormulaNode): FormulaNode {
  const within = (n: FormulaNode): FormulaNode => replaced(n, other);
  switch (node.type) {
    case "ReferenceIdentifier":
      return other(node);
    case "UnaryExpression":
    case "BinaryExpression":
      return { ...node, arguments: node.arguments.map(within) };
    case "CallExpression":
      return { ...node, arguments: node.arguments.map((n) => n && within(n)) };
    case "ArrayExpression":
      return { ...node, elements: node.elements.map((row) => row.map(within)) };
    default:
      return node;
  }
}

/** The template's cells that a part stands for and nothing else. */
export function cellReference(node: FormulaNode | null | undefined): CellReference | undefined {
  return node?.type === "TemplateReference" && node.reference.kind === "cell" ? node.reference : undefined;
}

/** The template's cells that parts refer to, in the order they are written. */
export function cellReferences(parts: Iterable<FormulaNode>): readonly CellReference[] {
  return [...parts].flatMap((part) => cellReference(part) ?? []);
}

/** A part with other parts in place of its typed numbers. `other` is asked of each in the order they are written. */
export function withNumbers(node: FormulaNode, other: (number: LiteralNode) => FormulaNode): FormulaNode {
  const within = (n: FormulaNode): FormulaNode => withNumbers(n, other);
  switch (node.type) {
    case "Literal":
      return typeof node.value === "number" ? other(node) : node;
    case "UnaryExpression":
    case "BinaryExpression":
      return { ...node, arguments: node.arguments.map(within) };
    case "CallExpression":
      return { ...node, arguments: node.arguments.map((n) => n && within(n)) };
    case "LetExpression":
      return {
        ...node,
        declarations: node.declarations.map((one) => ({ ...one, init: one.init && within(one.init) })),
        body: node.body && within(node.body),
      };
    default:
      return node;
  }
}

/** A part with another in place of one of the parts within it. */
export function withPart(node: FormulaNode, part: FormulaNode, other: FormulaNode): FormulaNode {
  if (node === part) return other;
  const within = (n: FormulaNode): FormulaNode => withPart(n, part, other);
  switch (node.type) {
    case "UnaryExpression":
    case "BinaryExpression":
      return { ...node, arguments: node.arguments.map(within) };
    case "CallExpression":
      return { ...node, arguments: node.arguments.map((n) => n && within(n)) };
    default:
      return node;
  }
}

/** A part with other parts in place of its calls, inner ones first; `other` gives nothing where a call stays. */
export function withCalls(node: FormulaNode, other: (call: CallNode) => FormulaNode | undefined): FormulaNode {
  const within = (n: FormulaNode): FormulaNode => withCalls(n, other);
  switch (node.type) {
    case "UnaryExpression":
    case "BinaryExpression":
      return { ...node, arguments: node.arguments.map(within) };
    case "CallExpression": {
      const callee = node.callee.type === "Identifier" ? node.callee : within(node.callee);
      const call: CallNode = { ...node, callee, arguments: node.arguments.map((n) => n && within(n)) };
      return other(call) ?? call;
    }
    case "ArrayExpression":
      return { ...node, elements: node.elements.map((row) => row.map(within)) };
    case "LetExpression":
      return {
        ...node,
        declarations: node.declarations.map((one) => ({ ...one, init: one.init && within(one.init) })),
        body: node.body && within(node.body),
      };
    case "LambdaExpression":
      return { ...node, body: node.body && within(node.body) };
    default:
      return node;
  }
}
