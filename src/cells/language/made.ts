import { textConstant, quotedText } from "./textConstant.ts";
import type { FormulaNode } from "./tree.ts";

/** Parts of formulas as trees, for formulas that are made and not read. `writeNode` gives their text. */

/** Digits without an exponent: some programs read `1E-9*x` as a difference. */
function digitsOf(value: number): string {
  const [digits, power] = String(value).split("e") as [string, string?];
  if (power === undefined) return digits;
  const [whole, part = ""] = digits.split(".") as [string, string?];
  const places = Number(power);
  if (places < 0) return `0.${"0".repeat(-places - 1)}${whole}${part}`;
  return `${whole}${part.padEnd(places, "0")}`;
}

/** A number as all programs read it. Most of them count 15 of its digits. */
export function numberNode(value: number): FormulaNode {
  if (!Number.isFinite(value)) throw new Error(`${value} is no number of a formula`);
  if (value < 0) return { type: "UnaryExpression", operator: "-", arguments: [numberNode(-value)] };
  return { type: "Literal", value, raw: digitsOf(value) };
}

const shortText = (text: string): FormulaNode => ({ type: "Literal", value: text, raw: quotedText(text) });

/** A text of any length: long ones in parts, since programs take no longer constants. */
export function textNode(text: string): FormulaNode {
  const written = textConstant(text);
  if (written === quotedText(text)) return shortText(text);
  const longest = 240;
  const parts: FormulaNode[] = [];
  for (let from = 0; from < text.length; from += longest) parts.push(shortText(text.slice(from, from + longest)));
  return joined(...parts);
}

/** What LET or LAMBDA names, or a name of the workbook. */
export const nameNode = (name: string): FormulaNode => ({ type: "ReferenceIdentifier", value: name, kind: "name" });

export const callNode = (name: string, ...given: readonly FormulaNode[]): FormulaNode => ({
  type: "CallExpression",
  callee: { type: "Identifier", name },
  arguments: given,
});

export const binaryNode = (operator: string, a: FormulaNode, b: FormulaNode): FormulaNode => ({
  type: "BinaryExpression",
  operator,
  arguments: [a, b],
});

/** Taken from 0: a sign before a name of LET or LAMBDA is not read by every program. */
export const negative = (a: FormulaNode): FormulaNode =>
  a.type === "Literal" ? { type: "UnaryExpression", operator: "-", arguments: [a] } : binaryNode("-", numberNode(0), a);

/** Texts one behind the other. */
export function joined(...parts: readonly FormulaNode[]): FormulaNode {
  if (parts.length === 0) return shortText("");
  return parts.reduce((a, b) => binaryNode("&", a, b));
}

/** All of some conditions; the only one by itself. */
export const allOf = (...conditions: readonly FormulaNode[]): FormulaNode =>
  conditions.length === 1 ? conditions[0]! : callNode("AND", ...conditions);

/** Any of some conditions; the only one by itself. */
export const anyOf = (...conditions: readonly FormulaNode[]): FormulaNode =>
  conditions.length === 1 ? conditions[0]! : callNode("OR", ...conditions);

/** A column of constants that stands in the formula itself. */
export const rowNode = (values: readonly FormulaNode[]): FormulaNode => ({
  type: "ArrayExpression",
  elements: [values],
});

/** Names in the order given, each seen by those behind it; without any the body alone. */
export function letNode(named: readonly (readonly [string, FormulaNode])[], body: FormulaNode): FormulaNode {
  if (named.length === 0) return body;
  return { type: "LetExpression", declarations: named.map(([name, init]) => ({ id: { name }, init })), body };
}

export const lambdaNode = (params: readonly string[], body: FormulaNode): FormulaNode => ({
  type: "LambdaExpression",
  params: params.map((name) => ({ name })),
  body,
});
