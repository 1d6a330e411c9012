import { type FormulaNode, numberIn, ourFunction } from "../../cells/index.ts";
import { formulaIn, formulas, type Argument } from "../../core/index.ts";
import type { CellContent } from "../../hosts/index.ts";
import { numberText } from "../../typeset/index.ts";
import { unitHeld, type Label } from "./labels.ts";
import { inUnit, isPowerOfTen, spelledUnit } from "./units.ts";

/** Functions whose first argument's kind is that of what they give. */
const first = new Set([
  "ROUND",
  "ROUNDUP",
  "ROUNDDOWN",
  "IFERROR",
  "IFNA",
  "_XLFN.IFNA",
  "ABS",
  "SINGLE",
  "_XLFN.SINGLE",
]);

interface Scaled {
  readonly id: string;
  /** What the call writes out; an empty range for what it refers to. */
  readonly args: readonly Argument[];
  readonly factor: number;
}

/** The one function of ours whose result a formula gives, and what it is multiplied by; undefined where the formula is more than that. */
function scaledResult(node: FormulaNode | null): Scaled | undefined {
  if (!node) return undefined;
  const times = (inside: FormulaNode, factor: number | undefined) => {
    const of = factor === undefined ? undefined : scaledResult(inside);
    return of && { ...of, factor: of.factor * factor! };
  };
  if (node.type === "UnaryExpression")
    return ["-", "+", "@"].includes(node.operator)
      ? scaledResult(node.arguments[0]!)
      : node.operator === "%"
        ? times(node.arguments[0]!, 0.01)
        : undefined;
  if (node.type === "BinaryExpression") {
    const [a, b] = node.arguments as readonly [FormulaNode, FormulaNode];
    if (node.operator === "*") return times(a, numberIn(b)) ?? times(b, numberIn(a));
    const by = node.operator === "/" ? numberIn(b) : undefined;
    return by ? times(a, 1 / by) : undefined;
  }
  if (node.type !== "CallExpression") return undefined;
  const name = node.callee.name ?? "";
  const id = ourFunction(name);
  if (id !== undefined) return { id, args: node.arguments.map(writtenOut), factor: 1 };
  return first.has(name.toUpperCase()) ? scaledResult(node.arguments[0] ?? null) : undefined;
}

function writtenOut(node: FormulaNode | null): Argument {
  if (!node) return undefined;
  return node.type === "Literal" && typeof node.value !== "boolean" ? node.value : [];
}

/** Where the unit beside a cell is not that of what its formula gives: the function's result, converted or not. */
export function resultMisfit(tree: FormulaNode, label: Label | undefined, content: CellContent): string | undefined {
  const held = unitHeld(label, content);
  const given = scaledResult(tree);
  const of = formulas.find(({ id }) => id === given?.id);
  const unit = of && given && formulaIn(of, given.args).result.unit;
  const own = unit === undefined ? undefined : spelledUnit(unit);
  if (!held || !given || unit === undefined || !own || typeof content.value !== "number") return undefined;
  const beside = held.text === "–" || held.text === "-" ? "a plain number" : held.text;
  const gives = `KERN.${given.id} gives ${unit === "–" ? "a plain number" : unit}`;
  const one = inUnit(held, unit);
  if (one === undefined) return `${gives}, but what stands beside the cell says ${beside}`;
  const needed = 1 / one;
  const ratio = Math.abs(given.factor) / needed;
  if (Math.abs(ratio - 1) < 1e-9) return undefined;
  // A number of tendons or a load factor may stand in the factor; a power of ten is a unit's.
  if (given.factor !== 1 && !isPowerOfTen(ratio)) return undefined;
  return (
    `${gives}${given.factor === 1 ? "" : `, here multiplied by ${numberText(given.factor)}`}, but what ` +
    `stands beside the cell says ${beside}: the number is ` +
    `${ratio > 1 ? `${numberText(ratio)} times too large` : `${numberText(1 / ratio)} times too small`} ` +
    "for it"
  );
}
