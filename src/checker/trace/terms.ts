import { type FormulaNode, numberIn, referenceIn, type WrittenReference } from "../../cells/index.ts";
import { spelledUnit } from "./units.ts";

/** A reference in an expression that only adds, scales and compares: how often it counts. */
export interface Term {
  readonly reference: WrittenReference;
  /** In size; a number that it is multiplied by may bring a sign. */
  readonly factor: number;
  /** Is it taken away? */
  readonly less?: boolean;
  /** The units that CONVERT takes it from and to, as spelled. */
  readonly converted?: { readonly from: string; readonly to: string };
}

/** Functions that give something of the sort and unit of their arguments. */
const alike = new Set([
  "MAX",
  "MIN",
  "ABS",
  "SUM",
  "AVERAGE",
  "ROUND",
  "ROUNDUP",
  "ROUNDDOWN",
  "N",
  "VALUE",
  "SINGLE",
  "_XLFN.SINGLE",
  "MEDIAN",
  "ISERROR",
  "IFERROR",
  "IFNA",
  "_XLFN.IFNA",
]);

/** The references of an expression with their factors; undefined where it does more with them than add, scale and compare. */
export function termsOf(node: FormulaNode | null): readonly Term[] | undefined {
  if (!node) return [];
  if (numberIn(node) !== undefined || node.type === "Literal") return [];
  const reference = referenceIn(node);
  if (reference) return [{ reference, factor: 1 }];
  const scaled = (terms: readonly Term[] | undefined, by: number): readonly Term[] | undefined =>
    terms?.map((t) => ({ ...t, factor: t.factor * by }));
  const taken = (terms: readonly Term[] | undefined): readonly Term[] | undefined =>
    terms?.map((t) => ({ ...t, less: !t.less }));
  const joined = (parts: readonly (FormulaNode | null)[]): readonly Term[] | undefined => {
    const all = parts.map(termsOf);
    return all.some((t) => t === undefined) ? undefined : all.flatMap((t) => t!);
  };
  if (node.type === "UnaryExpression") {
    if (node.operator === "%") return scaled(termsOf(node.arguments[0]!), 0.01);
    const of = termsOf(node.arguments[0]!);
    if (node.operator === "-") return taken(of);
    return node.operator === "+" || node.operator === "@" ? of : undefined;
  }
  if (node.type === "BinaryExpression") {
    const [a, b] = node.arguments as readonly [FormulaNode, FormulaNode];
    if (node.operator === "+") return joined([a, b]);
    if (node.operator === "-") {
      const [from, less] = [termsOf(a), taken(termsOf(b))];
      return from && less && [...from, ...less];
    }
    const by = numberIn(b);
    if (node.operator === "*")
      return by !== undefined
        ? scaled(termsOf(a), by)
        : numberIn(a) !== undefined
          ? scaled(termsOf(b), numberIn(a)!)
          : undefined;
    return node.operator === "/" && by !== undefined ? scaled(termsOf(a), 1 / by) : undefined;
  }
  if (node.type !== "CallExpression") return undefined;
  const name = (node.callee.name ?? "").toUpperCase();
  const [first = null, second = null, third = null] = node.arguments;
  if (name === "RADIANS") return scaled(termsOf(first), Math.PI / 180);
  if (name === "DEGREES") return scaled(termsOf(first), 180 / Math.PI);
  if (name === "CONVERT" && second?.type === "Literal" && third?.type === "Literal") {
    const [from, to] = [String(second.value), String(third.value)];
    const [a, b] = [spelledUnit(from), spelledUnit(to)];
    return termsOf(first)?.map((t) => ({
      ...t,
      factor: a && b ? t.factor * (a.size / b.size) : t.factor,
      converted: { from, to },
    }));
  }
  if (name === "IF" || name === "CHOOSE") return joined(node.arguments.slice(1));
  if (name === "IFS" || name === "_XLFN.IFS") return joined(node.arguments.filter((_, i) => i % 2 === 1));
  if (name === "ROUND" || name === "ROUNDUP" || name === "ROUNDDOWN") return termsOf(first);
  return alike.has(name) ? joined(node.arguments) : undefined;
}
