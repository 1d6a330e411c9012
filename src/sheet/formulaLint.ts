import {
  cellReference,
  cellReferences,
  namespace,
  ourFunction,
  templateFormula,
  type FormulaNode,
  type TemplateFormula,
} from "../cells/index.ts";
import { allowedFunctions } from "./allowedFunctions.ts";
import { callProblems, quantityProblems, summed } from "./callLint.ts";
import { formulaIn } from "../core/index.ts";
import { formulasById, writtenArguments } from "./formulaText.ts";
import type { Says } from "./says.ts";
import type { ShapedSheet } from "./shape.ts";

const operators = new Set(["+", "-", "*", "/", "^", "&", "=", "<", ">", "<=", ">=", "<>"]);

/** Small whole numbers are counts and halves; a number that decides a design stands in a row where it is seen. */
function numberProblem(node: FormulaNode): string | undefined {
  return node.type === "Literal" && typeof node.value === "number" && ![0, 1, 2, 3, 4, 5].includes(Math.abs(node.value))
    ? `the number ${node.raw} is typed into the formula; give it a row of its own`
    : undefined;
}

/** What a template's formula may not hold, whatever it refers to. */
function partProblem(node: FormulaNode): string | undefined {
  switch (node.type) {
    case "ErrorLiteral":
    case "ReferenceIdentifier":
      return `${node.value} is an address or a name; name rows and columns by {id}`;
    case "UnaryExpression":
    case "BinaryExpression":
      return operators.has(node.operator) ? undefined : `the operator ${node.operator} is not used in templates`;
    case "CallExpression": {
      const name = node.callee.name ?? "";
      if (allowedFunctions.has(name) || (name.startsWith(namespace) && ourFunction(name) !== undefined))
        return undefined;
      return `${name} is not among the functions templates may use`;
    }
    case "LetExpression":
    case "LambdaExpression":
      return "LET and LAMBDA are not among the functions templates may use";
    default:
      return undefined;
  }
}

/** What a template's formula may not hold in any configuration: functions and operators that are not allowed, addresses. */
export function forbiddenIn(formula: string): readonly string[] {
  const { parts, problems } = templateFormula(formula);
  return [...problems, ...parts.flatMap((node) => partProblem(node) ?? [])];
}

/** Columns that hold only what people write down have nothing to compute with. */
function recordProblems(parts: readonly FormulaNode[], { subjects }: ShapedSheet): readonly string[] {
  return cellReferences(parts).flatMap(({ id }) => {
    const subject = subjects.get(id);
    return subject?.kind === "column" && subject.column.column.record
      ? [`${subject.says.id} is left to what people write; no formula reads it`]
      : [];
  });
}

/** What does not fit between a formula and the row whose value it gives. */
function resultProblems(
  formula: TemplateFormula,
  tree: FormulaNode,
  sheet: ShapedSheet,
  says: Says,
): readonly string[] {
  const whole = formula.calls.find((call) => call.whole);
  if (whole) {
    const of = formulasById.get(whole.id);
    const result = of && formulaIn(of, writtenArguments(whole)).result;
    return result ? quantityProblems(`the result of ${namespace}${whole.id}`, result, says) : [];
  }
  const of = sheet.subjects.get(cellReference(tree)?.id ?? "");
  if (of && of.kind !== "shape") {
    if (of.says.unit !== says.unit) return [`it repeats ${of.says.id}, which is in ${of.says.unit}, in ${says.unit}`];
    const differs = says.quantity?.sort !== undefined && of.says.quantity?.sort !== says.quantity.sort;
    return differs ? [`it repeats ${of.says.id}, which is not a ${says.quantity.sort}`] : [];
  }
  return summed(tree, sheet.subjects)
    .filter(({ unit }) => unit !== says.unit)
    .map(({ id, unit }) => `it adds or compares ${id}, which is in ${unit}, in ${says.unit}`);
}

/**
 * What is wrong with a formula by itself; whether its references lead somewhere is seen when it is written. `says` is
 * the row whose value it gives; a row may be a number and nothing else.
 */
export function formulaProblems(
  formula: string,
  sheet: ShapedSheet,
  says?: Says,
  numbers: "IN_ROWS" | "ANYWHERE" = "IN_ROWS",
): readonly string[] {
  const parsed = templateFormula(formula);
  const { tree, parts, calls, problems } = parsed;
  if (!tree) return problems;
  return [
    ...problems,
    ...(numbers === "ANYWHERE" || tree.type === "Literal" ? [] : parts.flatMap((node) => numberProblem(node) ?? [])),
    ...parts.flatMap((node) => partProblem(node) ?? []),
    ...recordProblems(parts, sheet),
    ...calls.flatMap((call) => callProblems(call, sheet)),
    ...(says ? resultProblems(parsed, tree, sheet, says) : []),
  ];
}
