import {
  cellReference,
  cellReferences,
  namespace,
  partsOf,
  templateFormula,
  type CellReference,
  type FormulaNode,
  type TemplateCall,
} from "../cells/index.ts";
import {
  argumentCount,
  choicesGiven,
  inForce,
  isOptional,
  isUnused,
  sortsDiffer,
  type Choice,
  type Label,
  type Parameter,
  type Quantity,
  type Table,
} from "../core/index.ts";
import { formulasById, writtenArguments } from "./formulaText.ts";
import { takenFrom } from "./links.ts";
import { coveredColumns } from "./resolve.ts";
import type { Says } from "./says.ts";
import type { ShapedSheet, Subject } from "./shape.ts";
import { typedInstead } from "./typedInstead.ts";

/** The formula of a row or column. */
function formulaOf(subject: Subject): string | undefined {
  return subject.kind === "row"
    ? subject.row.row.formula
    : subject.kind === "column"
      ? subject.column.column.formula
      : undefined;
}

/** What a formula repeats: a cell, one that INDEX takes out of a column, or what was typed in place of another value. */
function repeated(tree: FormulaNode | undefined): CellReference | undefined {
  if (tree?.type !== "CallExpression") return cellReference(tree);
  if (tree.callee.name === "INDEX") return cellReference(tree.arguments[0]);
  return typedInstead(tree);
}

/** The values a row or column can take where they are choices; followed through formulas that only repeat another row. */
function choicesOf(subject: Subject, sheet: ShapedSheet, depth = 0): readonly Label[] | undefined {
  if (subject.kind === "shape") return subject.input.choices?.map(({ value }) => value);
  const spec = subject.kind === "row" ? subject.row.row : subject.column.column;
  const from = spec.taken === undefined ? undefined : takenFrom(sheet, spec.taken);
  if (from) return choicesOf(from, sheet.source!, depth + 1);
  if (spec.input?.choices) return spec.input.choices.map(({ value }) => value);
  if (subject.kind === "column") {
    const { cells, memberText } = subject.column.column;
    if (cells) return Object.values(cells);
    if (memberText !== undefined) return sheet.dimensions.get(memberText)?.members.map(({ text }) => text);
  }
  const formula = formulaOf(subject);
  const reference = formula === undefined ? undefined : repeated(templateFormula(formula).tree);
  const next = reference && sheet.subjects.get(reference.id);
  return next && depth < 20 ? choicesOf(next, sheet, depth + 1) : undefined;
}

function sortProblem(what: string, wanted: Quantity, says: Says): string | undefined {
  const sort = says.quantity?.sort;
  const differ = sortsDiffer(wanted, sort);
  if (differ === undefined) return undefined;
  return differ === "other"
    ? `${what} is a ${wanted.sort}; ${says.id} is a ${sort}`
    : `${what} is a ${wanted.sort}; ${says.id} does not say that it is (its quantity has no such sort)`;
}

export function quantityProblems(what: string, wanted: Quantity, says: Says): readonly string[] {
  // Which quantity it is stands in a cell: any of them will do here.
  const { varies } = wanted;
  if (varies)
    return Object.values(varies.as).some((as) => as.kind === "number" && quantityProblems(what, as, says).length === 0)
      ? []
      : [`${what} is none of the quantities it may be: ${says.id} is in ${says.unit}`];
  if (wanted.follows && Object.values(wanted.follows.as).some((as) => quantityProblems(what, as, says).length === 0))
    return [];
  if (says.unit !== wanted.unit) return [`${what} is in ${wanted.unit}; ${says.id} is in ${says.unit}`];
  const sort = sortProblem(what, wanted, says);
  return sort === undefined ? [] : [sort];
}

function choiceProblems(
  what: string,
  wanted: Choice,
  values: readonly Label[] | undefined,
  from: string,
): readonly string[] {
  const allowed = new Set(wanted.values.map(({ value }) => String(value).toUpperCase()));
  if (!values) return [`${what} is a choice; ${from} is not a row of choices`];
  const others = values.filter((value) => !allowed.has(String(value).toUpperCase()));
  return others.length === 0
    ? []
    : [`${what} is one of ${wanted.values.map(({ value }) => value).join(", ")}; ${from} can be ${others.join(", ")}`];
}

/** Of a range that may be several tables: nothing where it is one of them. */
function rangeProblems(
  what: string,
  wanted: Table,
  choices: Readonly<Record<string, unknown>>,
  reference: CellReference,
  sheet: ShapedSheet,
): readonly string[] {
  if (!wanted.kinds) return tableProblems(what, wanted, reference, sheet);
  const each = Object.values(wanted.kinds.tables).map((kind) =>
    tableProblems(what, inForce(kind, choices), reference, sheet),
  );
  return each.some((problems) => problems.length === 0) ? [] : each[0]!;
}

function tableProblems(what: string, wanted: Table, reference: CellReference, sheet: ShapedSheet): readonly string[] {
  const subject = sheet.subjects.get(reference.id);
  if (!subject) return [];
  if (subject.kind !== "column" || (reference.pick !== "group" && reference.pick !== "whole"))
    return [`${what} is a range; {${reference.id}[]} or {${reference.id}[*]} is needed`];
  const given = coveredColumns(reference, subject.table);
  const needed = Object.values(wanted.columns);
  if (given.length !== needed.length)
    return [
      `${what} is a range of ${needed.length} columns (${needed.map(({ text }) => text).join("; ")}); ${given.length} are given`,
    ];
  return needed.flatMap((column, i) => {
    const { says } = given[i]!;
    const name = `${what}, column ${i + 1} (${column.text}),`;
    return column.kind === "number"
      ? quantityProblems(name, column, says)
      : choiceProblems(name, column, choicesOf(sheet.subjects.get(says.id)!, sheet), says.id);
  });
}

const summing = new Set(["MAX", "MIN", "ABS", "SUM", "AVERAGE"]);

/** Whether an expression only adds, subtracts and compares what it refers to. */
function onlySums(node: FormulaNode): boolean {
  switch (node.type) {
    case "TemplateReference":
      return true;
    case "UnaryExpression":
    case "BinaryExpression":
      return ["+", "-"].includes(node.operator) && node.arguments.every(onlySums);
    case "CallExpression":
      return summing.has(node.callee.name ?? "") && node.arguments.every((argument) => !argument || onlySums(argument));
    default:
      return false;
  }
}

/** The rows an expression adds, subtracts or compares, where it does nothing else with them. */
export function summed(node: FormulaNode, subjects: ShapedSheet["subjects"]): readonly Says[] {
  return onlySums(node) ? cellReferences(partsOf(node)).flatMap(({ id }) => subjects.get(id)?.says ?? []) : [];
}

function argumentProblems(
  parameter: Parameter,
  argument: FormulaNode,
  what: string,
  choices: Readonly<Record<string, unknown>>,
  sheet: ShapedSheet,
): readonly string[] {
  const reference = cellReference(argument);
  const literal = argument.type === "Literal" ? argument : undefined;
  if (parameter.kind === "table")
    return reference
      ? rangeProblems(what, parameter, choices, reference, sheet)
      : [`${what} is a range; a column reference is needed`];
  if (reference && (reference.pick === "group" || reference.pick === "whole"))
    return [`${what} is one value; {${reference.id}${reference.to ? `:${reference.to}` : ""}[…]} is a range`];
  const subject = reference && sheet.subjects.get(reference.id);
  if (reference && !subject) return [];
  if (parameter.kind === "choice") {
    if (subject) return choiceProblems(what, parameter, choicesOf(subject, sheet), reference.id);
    return literal && typeof literal.value !== "boolean"
      ? choiceProblems(what, parameter, [literal.value], literal.raw)
      : [`${what} is a choice; a row of choices is needed`];
  }
  if (parameter.kind === "text") return [];
  if (subject) return quantityProblems(what, parameter, subject.says);
  if (literal && typeof literal.value !== "number") return [`${what} is a number; ${literal.raw} is not`];
  return summed(argument, sheet.subjects)
    .filter(({ unit }) => unit !== parameter.unit)
    .map(({ id, unit }) => `${what} is in ${parameter.unit}; ${id} is in ${unit}`);
}

/** A value where the choice written in the call does not use one: the function refuses it. */
function unusedProblems(
  declared: Parameter,
  argument: FormulaNode,
  what: string,
  choices: Readonly<Record<string, unknown>>,
): readonly string[] {
  const { varies } = declared;
  const choice = varies && (choices[varies.argument] as Label | undefined);
  if (choice === undefined || varies!.ignored !== undefined || !isUnused(declared, choices)) return [];
  if (argument.type === "Literal" && (argument.value === "" || argument.value === 0)) return [];
  return [`${what} is not used with ${varies!.argument} ${choice}; leave it blank`];
}

export function callProblems(call: TemplateCall, sheet: ShapedSheet): readonly string[] {
  const f = formulasById.get(call.id);
  const name = `${namespace}${call.id}`;
  if (!f) return [`there is no function ${name}`];
  const [least, most] = argumentCount(f);
  const count = call.arguments.length;
  if (count < least || count > most)
    return [`${name} takes ${least === most ? least : `${least} to ${most}`} arguments; ${count} are given`];
  const choices = choicesGiven(f, writtenArguments(call));
  return Object.values(f.params).flatMap((declared, i) => {
    const parameter = inForce(declared, choices);
    const argument = call.arguments[i];
    const what = `argument ${i + 1} of ${name} (${parameter.text})`;
    if (argument) {
      const unused = unusedProblems(declared, argument, what, choices);
      return unused.length > 0 ? unused : argumentProblems(parameter, argument, what, choices, sheet);
    }
    return isOptional(parameter) ? [] : [`${what} is missing`];
  });
}
