import { numberIn, parseFormula, withoutPrefix, writeNode, type FormulaNode } from "../../cells/index.ts";
import type { Validation } from "../../sheet/index.ts";

type Rule = Validation["rule"] | "other";

/** The program gives a number of a rule as a formula, such as `=10`. */
function numberOf(written: unknown): number {
  if (typeof written === "number") return written;
  const text = typeof written === "string" ? withoutPrefix(written).trim() : "";
  return text === "" ? NaN : Number(text);
}

type Bound = "min" | "above" | "max" | "below";

const bounds: ReadonlyMap<string, Bound> = new Map([
  ["GreaterThanOrEqualTo", "min"],
  ["GreaterThan", "above"],
  ["LessThanOrEqualTo", "max"],
  ["LessThan", "below"],
  [">=", "min"],
  [">", "above"],
  ["<=", "max"],
  ["<", "below"],
]);

/** The tree of a formula; undefined where it cannot be read. */
function treeOf(formula: string): FormulaNode | undefined {
  try {
    return parseFormula(formula);
  } catch (error) {
    if (error instanceof Error) return undefined;
    throw error;
  }
}

function argumentsOf(node: FormulaNode | null | undefined, name: string): readonly (FormulaNode | null)[] | undefined {
  return node?.type === "CallExpression" && node.callee.name?.toUpperCase() === name ? node.arguments : undefined;
}

/** What a plan's rule becomes where the program has none: a condition on the cell itself, `=AND(ISNUMBER(D5),D5>=0,D5=INT(D5))`. */
function ruleOfCondition(formula: string): Rule {
  const [asksNumber, ...conditions] = argumentsOf(treeOf(formula), "AND") ?? [];
  const [of] = argumentsOf(asksNumber, "ISNUMBER") ?? [];
  if (!of) return "other";
  const cell = writeNode(of);
  const rule: Record<string, number | true> = {};
  for (const condition of conditions) {
    if (condition?.type !== "BinaryExpression") return "other";
    const [left, right] = condition.arguments;
    if (!left || !right || writeNode(left) !== cell) return "other";
    if (condition.operator === "=" && writeNode(right) === `INT(${cell})`) {
      rule["whole"] = true;
      continue;
    }
    const bound = bounds.get(condition.operator);
    const number = numberIn(right);
    if (bound === undefined || number === undefined) return "other";
    rule[bound] = number;
  }
  return { kind: "number", ...rule };
}

/** A comparison of the program's own, or the condition on the cell itself that a plan's rule becomes where the program has none. */
export function ruleOf({ list, decimal, wholeNumber, custom }: Excel.DataValidationRule): Rule {
  if (list)
    return typeof list.source === "string" && !list.source.startsWith("=")
      ? { kind: "list", values: list.source.split(",").map((value) => value.trim()) }
      : "other";
  const basic = decimal ?? wholeNumber;
  if (!basic) return ruleOfCondition(custom?.formula ?? "");
  const whole = wholeNumber ? ({ whole: true } as const) : {};
  const [first, second] = [numberOf(basic.formula1), numberOf(basic.formula2)];
  if (basic.operator === "Between")
    return Number.isNaN(first + second) ? "other" : { kind: "number", min: first, max: second, ...whole };
  const bound = bounds.get(basic.operator);
  return bound === undefined || Number.isNaN(first) ? "other" : { kind: "number", [bound]: first, ...whole };
}
