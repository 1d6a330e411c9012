import { numberIn } from "./numberIn.ts";
import { misspeltFunction, ourFunction } from "./ourFunction.ts";
import { parseFormula } from "./parse.ts";
import { writeNode } from "./print.ts";
import { replaced, type CallNode, type FormulaNode } from "./tree.ts";

/** Something a formula refers to: cells, a name, a column of a table, or the whole result that spills from a cell. */
export interface WrittenReference {
  /** As written, such as `'My sheet'!A1:B2`, `kb_mu`, `Table1[Force]`, `A1#`. */
  readonly text: string;
  readonly kind: "cells" | "name" | "table" | "spilled";
}

/** One argument as written. */
export type WrittenArgument =
  | { readonly kind: "missing"; readonly text: "" }
  | { readonly kind: "literal"; readonly text: string; readonly value: number | string | boolean }
  | {
      readonly kind: "reference";
      readonly text: string;
      readonly reference: WrittenReference;
      readonly node: FormulaNode;
    }
  /** The result of another call of ours, by its number among the calls. */
  | { readonly kind: "call"; readonly text: string; readonly call: number }
  /** `evaluate`: the text to evaluate, with what LET names in it. */
  | { readonly kind: "expression"; readonly text: string; readonly evaluate: string; readonly node: FormulaNode };

/** A call of one of our functions inside a cell's formula. */
export interface Call {
  /** The function's id, without the namespace. */
  readonly id: string;
  /** Written in a way that no program takes for one of ours, such as KERN_LOSS. */
  readonly misspelt?: string;
  /** The call as written, without `=`. */
  readonly text: string;
  /** The call as it can be evaluated by itself, with what LET names around it. */
  readonly evaluate: string;
  readonly arguments: readonly WrittenArgument[];
  /** How many of our own calls stand around it. */
  readonly depth: number;
  /** Is the cell's formula this call and nothing else? */
  readonly whole: boolean;
}

/** A formula read: our calls from the outside in, and everything it refers to. */
export interface ReadFormula {
  readonly tree: FormulaNode;
  readonly calls: readonly Call[];
  readonly references: readonly WrittenReference[];
}

const anchorArray = "_XLFN.ANCHORARRAY";

/** What LET or LAMBDA names, by name in capitals; a name of LAMBDA's stands for nothing that is known. */
type Bound = ReadonlyMap<string, FormulaNode | null>;

/** A reference as written, seen through what LET names; undefined for anything else. */
export function referenceIn(node: FormulaNode, bound: Bound = new Map()): WrittenReference | undefined {
  if (node.type === "ReferenceIdentifier") {
    const named = bound.get(node.value.toUpperCase());
    if (node.kind === "name" && bound.has(node.value.toUpperCase())) return named ? referenceIn(named) : undefined;
    return { text: node.value, kind: node.kind === "name" || node.kind === "table" ? node.kind : "cells" };
  }
  if (node.type === "UnaryExpression" && node.operator === "#") return spilledFrom(node.arguments[0]!);
  if (node.type === "UnaryExpression" && (node.operator === "+" || node.operator === "@"))
    return referenceIn(node.arguments[0]!, bound);
  // As the file format keeps a spilled reference.
  if (node.type === "CallExpression" && node.callee.name?.toUpperCase() === anchorArray && node.arguments[0])
    return spilledFrom(node.arguments[0]);
  return undefined;
}

function spilledFrom(anchor: FormulaNode): WrittenReference | undefined {
  return anchor.type === "ReferenceIdentifier" ? { text: `${anchor.value}#`, kind: "spilled" } : undefined;
}

/** A part with everything that LET names in it put in its place; undefined where LAMBDA names something in it. */
function resolved(node: FormulaNode, bound: Bound): FormulaNode | undefined {
  let open = false;
  const out = replaced(node, (reference) => {
    const key = reference.value.toUpperCase();
    if (reference.kind !== "name" || !bound.has(key)) return reference;
    const named = bound.get(key) ?? null;
    if (!named) open = true;
    return named ?? reference;
  });
  return open ? undefined : out;
}

/** Reads a formula (with its `=`). Throws where it is no formula that can be read. */
export function readFormula(formula: string): ReadFormula {
  const tree = parseFormula(formula);
  const calls: Call[] = [];
  const numbers = new Map<FormulaNode, number>();
  const references = new Map<string, WrittenReference>();

  const argument = (node: FormulaNode | null, bound: Bound): WrittenArgument => {
    if (!node) return { kind: "missing", text: "" };
    const text = writeNode(node);
    const seen = resolved(node, bound) ?? node;
    if (seen.type === "Literal") return { kind: "literal", text, value: seen.value };
    const number = seen.type === "UnaryExpression" ? numberIn(seen) : undefined;
    if (number !== undefined) return { kind: "literal", text, value: number };
    const reference = referenceIn(seen, bound);
    if (reference) return { kind: "reference", text, reference, node: seen };
    const named = node.type === "ReferenceIdentifier" ? bound.get(node.value.toUpperCase()) : undefined;
    const call = numbers.get(node) ?? (named ? numbers.get(named) : undefined);
    if (call !== undefined) return { kind: "call", text, call };
    return { kind: "expression", text, evaluate: writeNode(seen), node: seen };
  };

  const walk = (node: FormulaNode | null, depth: number, bound: Bound): void => {
    if (!node) return;
    const reference = referenceIn(node, bound);
    if (reference) {
      references.set(reference.text.toUpperCase(), references.get(reference.text.toUpperCase()) ?? reference);
      return;
    }
    switch (node.type) {
      case "CallExpression":
        walkCall(node, depth, bound);
        break;
      case "BinaryExpression":
      case "UnaryExpression":
        for (const n of node.arguments) walk(n, depth, bound);
        break;
      case "ArrayExpression":
        for (const row of node.elements) for (const n of row) walk(n, depth, bound);
        break;
      case "LetExpression": {
        const inside = new Map(bound);
        for (const { id, init } of node.declarations) {
          walk(init, depth, inside);
          // A call keeps its own node, by which its number is known.
          inside.set(id.name.toUpperCase(), init && (numbers.has(init) ? init : (resolved(init, inside) ?? null)));
        }
        walk(node.body, depth, inside);
        break;
      }
      case "LambdaExpression":
        walk(node.body, depth, new Map([...bound, ...node.params.map((p) => [p.name.toUpperCase(), null] as const)]));
        break;
      default:
        break;
    }
  };

  const walkCall = (node: CallNode, depth: number, bound: Bound): void => {
    const name = node.callee.name ?? "";
    const right = ourFunction(name);
    const id = right ?? misspeltFunction(name);
    let at = -1;
    if (id) {
      at = calls.length;
      numbers.set(node, at);
      calls.push({
        id,
        ...(right === undefined && { misspelt: name }),
        text: writeNode(node),
        evaluate: writeNode(resolved(node, bound) ?? node),
        arguments: [],
        depth,
        whole:
          node === tree || (tree.type === "UnaryExpression" && tree.operator === "@" && tree.arguments[0] === node),
      });
    }
    if (node.callee.type === "LambdaExpression") walk(node.callee, depth, bound);
    for (const n of node.arguments) walk(n, id ? depth + 1 : depth, bound);
    // After the calls inside have their numbers.
    if (id) calls[at] = { ...calls[at]!, arguments: node.arguments.map((n) => argument(n, bound)) };
  };

  walk(tree, 0, new Map());
  return { tree, calls, references: [...references.values()] };
}
