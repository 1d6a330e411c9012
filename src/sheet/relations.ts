import { cellReferences, templateFormula, textConstant, withoutPrefix, type CellReference } from "../cells/index.ts";
import { coveredColumns } from "./resolve.ts";
import { plainSymbol } from "./says.ts";
import type { ShapedRow, ShapedSheet, Subject } from "./shape.ts";
import type { InputSpec, Relation, Template } from "./template.ts";

/** What a status cell says where inputs contradict each other. */
export const conflict = "CONFLICT";

/** The message as pieces: texts, and references with their braces. */
function messageParts(message: string): readonly string[] {
  return message.split(/(\{[^{}]*\})/).filter((part) => part !== "");
}

const isReference = (part: string): boolean => part.startsWith("{");

interface RelationReferences {
  readonly read: readonly CellReference[];
  readonly named: readonly CellReference[];
}
const referencesKept = new WeakMap<Relation, RelationReferences>();

/** The cells that a relation reads and that its message names. */
export function referencesOf(relation: Relation): RelationReferences {
  const kept = referencesKept.get(relation);
  if (kept) return kept;
  const { holds, message } = relation;
  const named = messageParts(message).filter(isReference).join("+");
  const references = {
    read: cellReferences(templateFormula(holds).parts),
    named: cellReferences(templateFormula(named).parts),
  };
  referencesKept.set(relation, references);
  return references;
}

function canBeJudged(relation: Relation, { subjects }: ShapedSheet): boolean {
  const { read, named } = referencesOf(relation);
  return [...read, ...named].flatMap(idsIn).every((name) => subjects.has(name));
}

/** The relations of an input that this sheet can judge: everything they name is present. */
export function relationsOf(sheet: ShapedSheet, id: string): readonly Relation[] {
  return (sheet.template.relations ?? []).filter(
    (relation) => relation.of === id && !relation.warns && canBeJudged(relation, sheet),
  );
}

/** A relation whose break the sheet lists among its warnings, and the input it is of. */
export interface Doubt {
  readonly input: ShapedRow;
  readonly relation: Relation;
}

const doubtsKept = new WeakMap<ShapedSheet, readonly Doubt[]>();

export function doubtsOf(sheet: ShapedSheet): readonly Doubt[] {
  const kept = doubtsKept.get(sheet);
  if (kept) return kept;
  const doubts = doubtsIn(sheet);
  doubtsKept.set(sheet, doubts);
  return doubts;
}

/** A number that is entered must not be far from its neighbour without a word. */
function nearRelations({ subjects }: Pick<ShapedSheet, "subjects">): readonly Relation[] {
  return [...subjects.values()].flatMap((subject) => {
    const row = subject.kind === "row" ? subject.row.row : undefined;
    const near = row?.input?.near;
    if (!row || !near) return [];
    const { value, from, to, of } = near;
    const holds = `OR(NOT(ISNUMBER({${row.id}})),AND({${row.id}}>=${from},{${row.id}}<=${to}))`;
    const message =
      `{${row.id}} is far from ${value}, the number of ${of}; expected: ${from} to ${to}. Compare it with your copy: ` +
      "a slip, another unit, or another rule";
    return [{ of: row.id, holds, message, warns: true }];
  });
}

function doubtsIn(sheet: ShapedSheet): readonly Doubt[] {
  return [...(sheet.template.relations ?? []), ...nearRelations(sheet)].flatMap((relation) => {
    const subject = sheet.subjects.get(relation.of);
    return relation.warns && subject?.kind === "row" && canBeJudged(relation, sheet)
      ? [{ input: subject.row, relation }]
      : [];
  });
}

function inputOf(subject: Subject | undefined): InputSpec | undefined {
  if (subject?.kind === "row") return subject.row.row.input;
  return subject?.kind === "column" ? subject.column.column.input : undefined;
}

/** A reference to one column only. */
function one({ to: _to, ...reference }: CellReference): CellReference {
  return reference;
}

/** The ids a reference names: of several columns, the first and the last. */
const idsIn = ({ id, to }: CellReference): readonly string[] => (to === undefined ? [id] : [id, to]);

/** Numbers that must have been given before a relation is judged. */
function given(reference: CellReference, subjects: ShapedSheet["subjects"]): readonly string[] {
  const { id, to, pick } = reference;
  const subject = subjects.get(id);
  if (to !== undefined && subject?.kind === "column")
    return coveredColumns(reference, subject.table).flatMap(({ says }) =>
      given({ ...one(reference), id: says.id }, subjects),
    );
  const input = inputOf(subject);
  if (!input || input.choices || input.freeText || pick === "above") return [];
  if (pick === "match") return [`ISNUMBER({${id}})`];
  if (pick === "first" || pick === "last") return [`ISNUMBER({${id}[${pick}]})`];
  const range = `{${id}[${pick === "whole" ? "*" : ""}]}`;
  return [`COUNT(${range})=ROWS(${range})`];
}

/**
 * A formula, in the template's language, that is TRUE where a relation does not hold. What cannot be judged is not
 * broken. NOT takes it from AND, since the embedded grid has a comparison it remembers be a block of one cell, of which
 * NOT makes an error.
 */
function broken(relation: Relation, { subjects }: ShapedSheet): string {
  const conditions = new Set(referencesOf(relation).read.flatMap((reference) => given(reference, subjects)));
  return `IFERROR(AND(${[...conditions, `NOT(AND(${withoutPrefix(relation.holds)}))`].join(",")}),FALSE)`;
}

/** Of a linked value, what it is on the source. */
function ofSource(subject: Subject, { source }: ShapedSheet): Subject | undefined {
  const taken = subject.kind === "row" ? subject.row.row.taken : undefined;
  return taken === undefined ? undefined : source?.subjects.get(taken);
}

/** "t_q = 5 days" as a formula. Computed values are rounded: an input is shown as it was typed, here or on the source. */
function named(part: string, sheet: ShapedSheet): string {
  const { subjects } = sheet;
  const [reference] = cellReferences(templateFormula(part).parts);
  const subject = reference && subjects.get(reference.id);
  if (!subject) return textConstant(part);
  const { symbol, text, unit } = subject.says;
  const name = symbol === "–" || symbol === "no." ? text : plainSymbol(symbol);
  const typed = inputOf(subject) ?? inputOf(ofSource(subject, sheet));
  const value = typed || subject.kind === "shape" ? part : `ROUND(${part},1+1)`;
  return `${textConstant(`${name} = `)}&${value}${unit === "–" ? "" : `&${textConstant(` ${unit}`)}`}`;
}

function messageFormula({ message }: Relation, sheet: ShapedSheet): string {
  return messageParts(message)
    .map((part) => (isReference(part) ? named(part, sheet) : textConstant(part)))
    .join("&");
}

/**
 * Formulas, in the template's language, that judge the relations of an input: whether one is broken, and what the first
 * broken one says.
 */
export interface Judgement {
  readonly broken: string;
  readonly message: string;
}

const judgementsKept = new WeakMap<ShapedSheet, Map<string, readonly Judgement[]>>();

export function judgements(sheet: ShapedSheet, id: string): readonly Judgement[] {
  const ofSheet = judgementsKept.get(sheet) ?? new Map<string, readonly Judgement[]>();
  judgementsKept.set(sheet, ofSheet);
  const kept = ofSheet.get(id) ?? relationsOf(sheet, id).map((relation) => judgement(relation, sheet));
  ofSheet.set(id, kept);
  return kept;
}

export function judgement(relation: Relation, sheet: ShapedSheet): Judgement {
  return { broken: broken(relation, sheet), message: messageFormula(relation, sheet) };
}

/** The message of the first broken relation; `otherwise` where none is. */
export function firstMessage(all: readonly Judgement[], otherwise: string): string {
  return all.reduceRight((rest, one) => `IF(${one.broken},${one.message},${rest})`, otherwise);
}

interface TemplateIds {
  readonly all: ReadonlySet<string>;
  readonly inputs: ReadonlySet<string>;
}
const idsKept = new WeakMap<Template, TemplateIds>();

/** Everything a template has an input or a value for, in any shape. */
function idsOf(template: Template): TemplateIds {
  const kept = idsKept.get(template) ?? findIds(template);
  idsKept.set(template, kept);
  return kept;
}

function findIds(template: Template): TemplateIds {
  const all = new Set(template.shape.map(({ id }) => id));
  const inputs = new Set<string>();
  for (const item of template.blocks.flatMap(({ items }) => items)) {
    const members = "table" in item ? item.columns : "id" in item ? [item] : [];
    for (const { id, input } of members) {
      all.add(id);
      if (input && !input.freeText) inputs.add(id);
    }
  }
  return { all, inputs };
}

/** What is wrong with a relation whatever the shape inputs say. */
export function relationProblems(template: Template, relation: Relation): readonly string[] {
  const { all, inputs } = idsOf(template);
  const { read, named } = referencesOf(relation);
  const unknown = [...new Set([...read, ...named].flatMap(idsIn))].filter((id) => !all.has(id));
  const ranges = named.filter(({ pick }) => pick === "group" || pick === "whole");
  const told = new Set(named.map(({ id, pick }) => `${id} ${pick}`));
  return [
    ...(inputs.has(relation.of) ? [] : [`${relation.of} is not an input that is judged`]),
    ...unknown.map((id) => `{${id}} is not the id of any row, column or shape input`),
    ...ranges.map(({ id }) => `its message names the column {${id}}; it can name single cells only`),
    ...(told.size < (relation.warns ? 1 : 2)
      ? ["its message names fewer than two values; a reader needs both sides"]
      : []),
  ];
}
