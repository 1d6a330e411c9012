import {
  argumentCount,
  inForce,
  isOptional,
  sortsDiffer,
  type Choice,
  type Label,
  type Parameter,
  type Quantity,
  type Table,
} from "../core/index.ts";
import { choicesIn, formulasById } from "./formulaText.ts";
import { calls, namespace, only, parseFormula, trim, type Call, type CellReference, type Token } from "./references.ts";
import { coveredColumns } from "./resolve.ts";
import type { Says } from "./says.ts";
import type { ShapedSheet, Subject } from "./shape.ts";

/** Functions that every spreadsheet program has had for long and that give one value. Volatile ones and those that build addresses stay out. */
const nativeFunctions = new Set([
  "ABS",
  "ACOS",
  "AND",
  "ASIN",
  "ATAN",
  "ATAN2",
  "AVERAGE",
  "CHOOSE",
  "CONCATENATE",
  "CONVERT",
  "COS",
  "COSH",
  "COUNT",
  "COUNTA",
  "COUNTBLANK",
  "COUNTIF",
  "DEGREES",
  "EXACT",
  "EXP",
  "FALSE",
  "FIND",
  "HLOOKUP",
  "IF",
  "IFERROR",
  "INDEX",
  "INT",
  "ISBLANK",
  "ISERROR",
  "ISNA",
  "ISNUMBER",
  "ISTEXT",
  "LARGE",
  "LEFT",
  "LEN",
  "LN",
  "LOG10",
  "LOOKUP",
  "LOWER",
  "MATCH",
  "MAX",
  "MEDIAN",
  "MID",
  "MIN",
  "MOD",
  "N",
  "NA",
  "NOT",
  "OR",
  "PI",
  "POWER",
  "PRODUCT",
  "RADIANS",
  "RANK",
  "REPT",
  "RIGHT",
  "ROUND",
  "ROUNDDOWN",
  "ROUNDUP",
  "ROWS",
  "SEARCH",
  "SIGN",
  "SIN",
  "SINH",
  "SMALL",
  "SQRT",
  "SUBSTITUTE",
  "SUM",
  "SUMIF",
  "SUMPRODUCT",
  "SUMSQ",
  "T",
  "TAN",
  "TANH",
  "TEXT",
  "TRIM",
  "TRUE",
  "TRUNC",
  "UPPER",
  "VALUE",
  "VLOOKUP",
]);

const operators = new Set(["+", "-", "*", "/", "^", "&", "=", "<", ">", "<=", ">=", "<>", "(", ")", ","]);

function tokenProblems(tokens: readonly Token[]): readonly string[] {
  const out: string[] = [];
  let depth = 0;
  for (const { type, text } of tokens) {
    if (type === "number" && ![0, 1].includes(Math.abs(Number(text))))
      out.push(`the number ${text} is typed into the formula; give it a row of its own`);
    if (type === "operator" && !operators.has(text)) out.push(`the operator ${text} is not used in templates`);
    if (type === "other") out.push(`${text} is an address or a name; name rows and columns by {id}`);
    if (type === "function" && !text.startsWith(namespace) && !nativeFunctions.has(text))
      out.push(`${text} is not among the functions templates may use`);
    if (type === "operator" && text === "(") depth++;
    if (type === "operator" && text === ")" && --depth < 0) break;
  }
  if (depth !== 0) out.push("its brackets do not match");
  return out;
}

/** Columns that hold only what people write down have nothing to compute with. */
function recordProblems(tokens: readonly Token[], { subjects }: ShapedSheet): readonly string[] {
  return tokens.flatMap((token) => {
    const subject =
      token.type === "reference" && token.reference.kind === "cell" ? subjects.get(token.reference.id) : undefined;
    return subject?.kind === "column" && subject.column.column.record
      ? [`${subject.says.id} is left to what people write; no formula reads it`]
      : [];
  });
}

type Subjects = ReadonlyMap<string, Subject>;

function cellReference(tokens: readonly Token[]): CellReference | undefined {
  const token = only(tokens);
  return token?.type === "reference" && token.reference.kind === "cell" ? token.reference : undefined;
}

/** The formula of a row or column. */
function formulaOf(subject: Subject): string | undefined {
  return subject.kind === "row"
    ? subject.row.row.formula
    : subject.kind === "column"
      ? subject.column.column.formula
      : undefined;
}

/** The values a row or column can take where they are choices; followed through formulas that only repeat another row. */
function choicesOf(subject: Subject, sheet: ShapedSheet, depth = 0): readonly Label[] | undefined {
  if (subject.kind === "shape") return subject.input.choices?.map(({ value }) => value);
  const spec = subject.kind === "row" ? subject.row.row : subject.column.column;
  if (spec.input?.choices) return spec.input.choices.map(({ value }) => value);
  if (subject.kind === "column") {
    const { cells, memberText } = subject.column.column;
    if (cells) return Object.values(cells);
    if (memberText !== undefined) return sheet.dimensions.get(memberText)?.members.map(({ text }) => text);
  }
  const formula = formulaOf(subject);
  const reference = formula === undefined ? undefined : cellReference(parseFormula(formula).tokens);
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

function quantityProblems(what: string, wanted: Quantity, says: Says): readonly string[] {
  // Which quantity it is stands in a cell: any of them will do here.
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

/** The rows an expression adds, subtracts or compares, where it does nothing else with them. */
function summed(tokens: readonly Token[], subjects: Subjects): readonly Says[] {
  const plain = tokens.every(
    (t) =>
      t.type === "whitespace" ||
      t.type === "reference" ||
      (t.type === "operator" && ["+", "-", "(", ")", ","].includes(t.text)) ||
      (t.type === "function" && ["MAX", "MIN", "ABS", "SUM", "AVERAGE"].includes(t.text)),
  );
  if (!plain) return [];
  return tokens.flatMap((t) =>
    t.type === "reference" && t.reference.kind === "cell" ? (subjects.get(t.reference.id)?.says ?? []) : [],
  );
}

function argumentProblems(
  parameter: Parameter,
  tokens: readonly Token[],
  what: string,
  choices: Readonly<Record<string, unknown>>,
  sheet: ShapedSheet,
): readonly string[] {
  const token = only(tokens);
  const reference = cellReference(tokens);
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
    if (token?.type === "string") return choiceProblems(what, parameter, [token.text.slice(1, -1)], token.text);
    return token?.type === "number"
      ? choiceProblems(what, parameter, [Number(token.text)], token.text)
      : [`${what} is a choice; a row of choices is needed`];
  }
  if (parameter.kind === "text") return [];
  if (subject) return quantityProblems(what, parameter, subject.says);
  if (token?.type === "string" || token?.type === "boolean") return [`${what} is a number; ${token.text} is not`];
  return summed(tokens, sheet.subjects)
    .filter(({ unit }) => unit !== parameter.unit)
    .map(({ id, unit }) => `${what} is in ${parameter.unit}; ${id} is in ${unit}`);
}

function callProblems(call: Call, sheet: ShapedSheet): readonly string[] {
  const f = formulasById.get(call.id);
  const name = `${namespace}${call.id}`;
  if (!f) return [`there is no function ${name}`];
  const [least, most] = argumentCount(f);
  const count = call.arguments.length;
  if (count < least || count > most)
    return [`${name} takes ${least === most ? least : `${least} to ${most}`} arguments; ${count} are given`];
  const choices = choicesIn(f, call);
  return Object.values(f.params).flatMap((declared, i) => {
    const parameter = inForce(declared, choices);
    const tokens = trim(call.arguments[i] ?? []);
    const what = `argument ${i + 1} of ${name} (${parameter.text})`;
    if (tokens.length > 0) return argumentProblems(parameter, tokens, what, choices, sheet);
    return isOptional(parameter) ? [] : [`${what} is missing`];
  });
}

/** What is wrong with a formula by itself; whether its references lead somewhere is seen when it is written. `says` is the row whose value it gives. */
export function formulaProblems(formula: string, sheet: ShapedSheet, says?: Says): readonly string[] {
  const { tokens, problems } = parseFormula(formula);
  const out = [...problems, ...tokenProblems(tokens), ...recordProblems(tokens, sheet)];
  const all = calls(tokens);
  for (const call of all) out.push(...callProblems(call, sheet));
  if (!says) return out;
  const whole = all.find((call) => call.whole);
  const result = whole && formulasById.get(whole.id)?.result;
  if (result) out.push(...quantityProblems(`the result of ${namespace}${whole.id}`, result, says));
  const repeated = cellReference(tokens);
  const of = repeated && sheet.subjects.get(repeated.id);
  if (of && of.kind !== "shape") {
    if (of.says.unit !== says.unit) out.push(`it repeats ${of.says.id}, which is in ${of.says.unit}, in ${says.unit}`);
    else if (says.quantity?.sort !== undefined && of.says.quantity?.sort !== says.quantity.sort)
      out.push(`it repeats ${of.says.id}, which is not a ${says.quantity.sort}`);
  } else if (!whole) {
    for (const other of summed(tokens, sheet.subjects))
      if (other.unit !== says.unit)
        out.push(`it adds or compares ${other.id}, which is in ${other.unit}, in ${says.unit}`);
  }
  return out;
}
