import { partsOf, type FormulaNode } from "../cells/index.ts";

/** What a formula computes, without what it says in words where it cannot. */
export interface Unguarded {
  readonly core: FormulaNode;
  /** The words that may stand in place of a value. */
  readonly words: readonly string[];
}

const isCall = (node: FormulaNode | null | undefined, name: string): boolean =>
  node?.type === "CallExpression" && node.callee.name?.toUpperCase() === name;

const argumentsOf = (node: FormulaNode): readonly (FormulaNode | null)[] =>
  node.type === "CallExpression" ? node.arguments : [];

/** A word that stands in place of a value: no verdict, which is what the formula is for. */
function wordOf(node: FormulaNode | null | undefined): string | undefined {
  if (node?.type !== "Literal" || typeof node.value !== "string") return undefined;
  return /^(OK|FAIL)$/.test(node.value) ? undefined : node.value;
}

/** A cell passed on as it is where it holds no number: `IF(NOT(ISNUMBER(x)),x,…)`, `IF(ISERROR(x),x,…)`. */
function passesOn(condition: FormulaNode | null | undefined, value: FormulaNode | null | undefined): boolean {
  if (!condition || value?.type !== "TemplateReference") return false;
  const asked = isCall(condition, "NOT") ? argumentsOf(condition)[0] : condition;
  const asks = isCall(asked, "ISERROR") || isCall(asked, "ISNUMBER");
  return asks && [...partsOf(condition)].some((part) => part.type === "TemplateReference" && part.text === value.text);
}

/** Takes the conditions away under which a formula gives words, one round the other. */
export function unguarded(node: FormulaNode): Unguarded {
  const inside = (core: FormulaNode | null | undefined, word: string): Unguarded | undefined => {
    if (!core || wordOf(core) !== undefined) return undefined;
    const rest = unguarded(core);
    return { core: rest.core, words: word === "" || word === "–" ? rest.words : [word, ...rest.words] };
  };
  const [first, second, third] = argumentsOf(node);
  let out: Unguarded | undefined;
  if (isCall(node, "IFERROR") && wordOf(second) !== undefined) out = inside(first, wordOf(second)!);
  else if (isCall(node, "IF") && wordOf(second) !== undefined) out = inside(third, wordOf(second)!);
  else if (isCall(node, "IF") && wordOf(third) !== undefined) out = inside(second, wordOf(third)!);
  else if (isCall(node, "IF") && !isCall(first, "ISNUMBER") && passesOn(first, second)) out = inside(third, "");
  else if (isCall(node, "IF") && isCall(first, "ISNUMBER") && passesOn(first, third)) out = inside(second, "");
  return out ?? { core: node, words: [] };
}
