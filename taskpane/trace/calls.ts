import { isArrayNode, isBinaryNode, isCallNode, isLetNode, isLambdaNode, isLiteralNode, isReferenceNode, isUnaryNode, parse, tokenize } from "@borgar/fx";

/** One argument as written. */
export type WrittenArgument =
  | { readonly kind: "missing"; readonly text: "" }
  | { readonly kind: "literal"; readonly text: string; readonly value: number | string | boolean }
  | { readonly kind: "reference"; readonly text: string; readonly named: boolean }
  | { readonly kind: "expression"; readonly text: string };

/** A call of one of our functions inside a cell's formula. */
export interface Call {
  /** The function's id, without the namespace. */
  readonly id: string;
  /** The call as written, without `=`. */
  readonly text: string;
  readonly arguments: readonly WrittenArgument[];
  /** How many of our own calls stand around it. */
  readonly depth: number;
  /** Is the cell's formula this call and nothing else? */
  readonly whole: boolean;
}

/** A formula read: our calls from the outside in, and everything it refers to. */
export interface ReadFormula {
  readonly calls: readonly Call[];
  readonly references: readonly { readonly text: string; readonly named: boolean }[];
}

interface Node {
  readonly type: string;
  readonly loc?: readonly number[];
}

const ours = /^(?:_xldudf_KERN_|KERN\.)([A-Z0-9_]+)$/i;

/** Reads a formula (with its `=`). Throws where it is no formula that can be read. */
export function readFormula(formula: string): ReadFormula {
  const tree = parse(tokenize(formula, { withLocation: true, mergeRefs: true })) as Node;
  const source = (node: Node): string => formula.slice(node.loc![0], node.loc![1]);
  const calls: Call[] = [];
  const references = new Map<string, boolean>();

  const argument = (node: Node | null): WrittenArgument => {
    if (!node) return { kind: "missing", text: "" };
    const text = source(node);
    if (isLiteralNode(node as never)) return { kind: "literal", text, value: (node as unknown as { value: number | string | boolean }).value };
    if (isReferenceNode(node as never)) return { kind: "reference", text, named: (node as unknown as { kind: string }).kind === "name" };
    return { kind: "expression", text };
  };

  const walk = (node: Node | null, depth: number, bound: ReadonlySet<string>): void => {
    if (!node) return;
    const any = node as never;
    const children = (nodes: readonly (Node | null)[], at = depth): void => nodes.forEach((n) => walk(n, at, bound));
    if (isReferenceNode(any)) {
      const { kind, value } = node as unknown as { kind: string; value: string };
      if (!bound.has(value.toUpperCase())) references.set(value, kind === "name");
    } else if (isCallNode(any)) {
      const { callee, arguments: given } = node as unknown as { callee: { name: string }; arguments: readonly (Node | null)[] };
      const id = ours.exec(callee.name)?.[1]?.toUpperCase();
      if (id) calls.push({ id, text: source(node), arguments: given.map(argument), depth, whole: node === tree });
      children(given, id ? depth + 1 : depth);
    } else if (isBinaryNode(any) || isUnaryNode(any)) {
      children((node as unknown as { arguments: readonly Node[] }).arguments);
    } else if (isArrayNode(any)) {
      for (const row of (node as unknown as { elements: readonly (readonly Node[])[] }).elements) children(row);
    } else if (isLetNode(any)) {
      const { declarations, body } = node as unknown as { declarations: readonly { id: { name: string }; init: Node | null }[]; body: Node | null };
      const inside = new Set(bound);
      for (const { id, init } of declarations) {
        walk(init, depth, inside);
        inside.add(id.name.toUpperCase());
      }
      walk(body, depth, inside);
    } else if (isLambdaNode(any)) {
      const { params, body } = node as unknown as { params: readonly { name: string }[]; body: Node | null };
      walk(body, depth, new Set([...bound, ...params.map((p) => p.name.toUpperCase())]));
    }
  };
  walk(tree, 0, new Set());
  return { calls, references: [...references].map(([text, named]) => ({ text, named })) };
}
