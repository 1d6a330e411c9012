import { templateFormula } from "../cells/index.ts";
import { expandLoosely, type Expansion } from "./builder.ts";
import { findCycle } from "./cycles.ts";
import { formulaProblems } from "./formulaLint.ts";
import { faultOf, type Inputs } from "./inputs.ts";
import { linkProblems } from "./links.ts";
import { pairwise } from "./pairwise.ts";
import { Problems } from "./problems.ts";
import { quantities, says } from "./says.ts";
import { relationProblems, relationsOf } from "./relations.ts";
import { placeOf, type ShapedSheet } from "./shape.ts";
import type { Block, Column, Condition, Row, Template } from "./template.ts";
import { schemaProblems } from "./validate.ts";

function twice(ids: readonly string[]): readonly string[] {
  return [...new Set(ids.filter((id, i) => ids.findIndex((other) => other.toLowerCase() === id.toLowerCase()) !== i))];
}

function conditionProblems(template: Template, when: Condition | undefined, place: string, problems: Problems): void {
  for (const [id, value] of Object.entries(when ?? {})) {
    const input = template.shape.find((it) => it.id === id);
    if (!input) problems.add(place, `when: ${id} is not a shape input`);
    else if (input.choices && !input.choices.some((choice) => choice.value === value))
      problems.add(place, `when: ${value} is not a choice of ${id}`);
  }
}

function sayingProblems(spec: Row | Column, place: string, problems: Problems): void {
  const quantity = spec.quantity === undefined ? undefined : quantities[spec.quantity];
  if (spec.quantity !== undefined && !quantity) problems.add(place, `there is no quantity ${spec.quantity}`);
  if (quantity && spec.unit !== undefined && spec.unit !== quantity.unit)
    problems.add(place, `the unit of ${spec.quantity} is ${quantity.unit}, not ${spec.unit}`);
  if (spec.input?.default !== undefined) {
    const fault = faultOf(spec.input.default, spec.input, says(spec));
    if (fault) problems.add(place, `its default ${fault}`);
  }
}

/** What a block calls its results and does not hold. */
function unknownResults({ charts }: Template, { id: block, results = [], items }: Block): readonly string[] {
  const known = new Set([
    ...charts.flatMap((chart) => (chart.block === block ? [chart.id] : [])),
    ...items.flatMap((item) => {
      if ("table" in item) return [item.table, ...item.columns.map(({ id }) => id)];
      return "id" in item ? [item.id] : [];
    }),
  ]);
  return results.filter((id) => !known.has(id));
}

const staticKept = new WeakMap<Template, readonly string[]>();

/** What is wrong whatever the shape inputs say; templates are data that nobody changes. */
function staticProblems(template: Template): readonly string[] {
  const kept = staticKept.get(template);
  if (kept) return kept;
  const problems = new Problems();
  findStaticProblems(template, problems);
  staticKept.set(template, problems.list);
  return problems.list;
}

function findStaticProblems(template: Template, problems: Problems): void {
  for (const id of twice(template.blocks.map((block) => block.id))) problems.add("", `the block ${id} stands twice`);
  for (const id of twice(template.charts.map((chart) => chart.id))) problems.add("", `the chart ${id} stands twice`);
  for (const input of template.shape) {
    const place = `shape input ${input.id}`;
    const { default: value, choices, min, max } = input;
    if (choices) {
      if (!choices.some((choice) => choice.value === value))
        problems.add(place, `its default ${value} is not one of its choices`);
    } else if (typeof value !== "number" || min === undefined || max === undefined)
      problems.add(place, "needs choices, or numbers for default, min and max");
    else if (value < min || value > max || !Number.isInteger(value))
      problems.add(place, `its default ${value} is not a whole number from ${min} to ${max}`);
  }
  for (const [id, spec] of Object.entries(template.dimensions)) {
    if (!("members" in spec)) continue;
    for (const member of twice(spec.members.map((it) => it.id)))
      problems.add(`dimension ${id}`, `the member ${member} stands twice`);
    for (const { when } of spec.members) conditionProblems(template, when, `dimension ${id}`, problems);
  }
  template.blocks.forEach((block, b) => {
    conditionProblems(template, block.when, `block ${b + 1} (${block.id})`, problems);
    for (const id of unknownResults(template, block))
      problems.add(`block ${b + 1} (${block.id})`, `results: there is no row, table, column or chart ${id} in it`);
    block.items.forEach((item, i) => {
      const place = placeOf(template, b, i);
      conditionProblems(template, item.when, place, problems);
      if ("table" in item) {
        for (const column of item.columns) {
          conditionProblems(template, column.when, `${place}, column ${column.id}`, problems);
          sayingProblems(column, `${place}, column ${column.id}`, problems);
        }
        for (const id of item.over.concat(...(item.parts ?? []).map(({ over }) => over)))
          if (!template.dimensions[id]) problems.add(place, `there is no dimension ${id}`);
        for (const { formulas, index, when } of item.parts ?? []) {
          conditionProblems(template, when, `${place}, parts`, problems);
          for (const id of [...Object.keys(formulas), ...Object.keys(index ?? {})])
            if (!item.columns.some((column) => column.id === id))
              problems.add(place, `parts: there is no column ${id}`);
        }
      } else if ("id" in item) sayingProblems(item, place, problems);
    });
  });
  const ids = new Set(
    template.blocks.flatMap(({ items }) =>
      items.flatMap((item) => ("table" in item ? item.columns.map(({ id }) => id) : "id" in item ? [item.id] : [])),
    ),
  );
  for (const id of template.locked ?? []) if (!ids.has(id)) problems.add("", `locked: there is no row or column ${id}`);
  for (const relation of template.relations ?? []) {
    for (const problem of relationProblems(template, relation)) problems.add(`relation of ${relation.of}`, problem);
  }
  for (const chart of template.charts) {
    conditionProblems(template, chart.when, `chart ${chart.id}`, problems);
    const { members } = chart;
    if (members !== undefined && !("members" in (template.dimensions[members] ?? {})))
      problems.add(`chart ${chart.id}`, `${members} is not a dimension with named members`);
    for (const { member } of chart.series) {
      const known = Object.values(template.dimensions).some(
        (spec) => "members" in spec && spec.members.some(({ id }) => id === member),
      );
      if (member !== undefined && !known) problems.add(`chart ${chart.id}`, `there is no member ${member}`);
    }
  }
}

function columnProblems(sheet: ShapedSheet, problems: Problems): void {
  for (const { items } of sheet.blocks) {
    for (const item of items) {
      if (item.kind !== "table") continue;
      const verdicts = item.columns.filter(({ column }) => column.verdict);
      const records = item.columns.filter(({ column }) => column.record).length;
      if (records > 0 && records < item.columns.length)
        problems.add(item.place, "has columns left to people beside others; a table has such columns only, or none");
      if (verdicts.length > 1) problems.add(item.place, "has more than one verdict column");
      if (verdicts.length > 0 && item.columns.some(({ column }) => column.input))
        problems.add(item.place, "has inputs, whose status stands where its verdicts would");
      const last = item.groups[0]!.over.at(-1);
      for (const { column, says: said, place } of item.columns) {
        if (column.cells) {
          const members = new Set(last?.members.map(({ id }) => id));
          const spec = last && sheet.template.dimensions[last.id];
          const ever = spec && "members" in spec ? new Set(spec.members.map(({ id }) => id)) : members;
          for (const id of Object.keys(column.cells))
            if (!ever.has(id)) problems.add(place, `cells: ${id} is not a member of ${last?.id ?? "any dimension"}`);
          for (const content of Object.values(column.cells))
            if (typeof content === "string" && content.startsWith("="))
              for (const problem of formulaProblems(content, sheet, said)) problems.add(place, problem);
        }
        if (column.warnAt && column.formula !== undefined && templateFormula(column.formula).calls.length !== 1)
          problems.add(place, "warnAt needs a formula with exactly one function call");
        if (column.formula !== undefined)
          for (const problem of formulaProblems(column.formula, sheet, column.verdict ? undefined : said))
            problems.add(place, problem);
        for (const { part } of item.groups) {
          const formula = part?.formulas[column.id];
          if (formula !== undefined)
            for (const problem of formulaProblems(formula, sheet, said))
              problems.add(`${place}, part over ${part!.over.join(" and ")}`, problem);
        }
      }
    }
  }
}

function rowProblems(sheet: ShapedSheet, problems: Problems): void {
  const rows = sheet.blocks.flatMap(({ items }) => items).filter((item) => item.kind === "row");
  for (const { row, says: said, place } of rows) {
    if (row.formula !== undefined)
      for (const problem of formulaProblems(row.formula, sheet, said)) problems.add(place, problem);
    if (row.verdict !== undefined)
      for (const problem of formulaProblems(row.verdict, sheet)) problems.add(`${place}, verdict`, problem);
    if (row.summary?.where !== undefined)
      for (const problem of formulaProblems(row.summary.where, sheet)) problems.add(`${place}, where`, problem);
  }
  const overall = rows.filter(({ row }) => row.overall).length;
  if (overall !== 1) problems.add("template", `needs one row with the overall verdict; it has ${overall}`);
  const lists = sheet.blocks.flatMap(({ items }) => items).filter((item) => item.kind === "warnings").length;
  if (lists > 1) problems.add("template", `lists its warnings ${lists} times; once is enough`);
}

function relationFormulaProblems(sheet: ShapedSheet, problems: Problems): void {
  for (const id of new Set((sheet.template.relations ?? []).map(({ of }) => of))) {
    for (const { holds } of relationsOf(sheet, id))
      // The message of a relation says its bound.
      for (const problem of formulaProblems(holds, sheet, undefined, "ANYWHERE"))
        problems.add(`relation of ${id}`, problem);
  }
}

/** All that is wrong with a template in the shape that was expanded, and with the inputs given. */
export function problemsOf(template: Template, expansion: Expansion): readonly string[] {
  const problems = new Problems();
  for (const problem of staticProblems(template)) problems.add("", problem);
  for (const [place, problem] of linkProblems(expansion.sheet)) problems.add(place, problem);
  rowProblems(expansion.sheet, problems);
  columnProblems(expansion.sheet, problems);
  relationFormulaProblems(expansion.sheet, problems);
  for (const problem of expansion.problems) problems.add("", problem);
  const cycle = findCycle(expansion.dependencies);
  if (cycle !== undefined) problems.add("", `circle: ${cycle}`);
  return problems.list;
}

/** `usual`: the default configuration and that of the example, for a template whose others are looked at when a sheet is built. */
export type WhichConfigurations = "all" | "usual";

/**
 * The shapes a template is linted in: its default, its example, the smallest, and its choices: all combinations where
 * they are few, else every two choices in every pair of their values.
 */
function shapes(template: Template, which: WhichConfigurations): readonly Inputs[] {
  const first: readonly Inputs[] = [{}, template.example.inputs];
  // Each decided once: an example of nothing but defaults is the default, and without sizes so is the smallest.
  const decided = (inputs: Inputs): string =>
    JSON.stringify(template.shape.map(({ id, default: usual }) => inputs[id] ?? usual));
  if (which === "usual") return decided(first[0]!) === decided(first[1]!) ? first.slice(1) : first;
  const choices = template.shape.flatMap(({ id, choices: all }) =>
    all ? [{ id, values: all.map(({ value }) => value) }] : [],
  );
  const combinations = choices.reduce((count, { values }) => count * values.length, 1);
  const few =
    combinations <= 32
      ? choices.reduce<readonly Inputs[]>(
          (all, { id, values }) => all.flatMap((one) => values.map((value) => ({ ...one, [id]: value }))),
          [{}],
        )
      : pairwise(choices);
  const smallest = Object.fromEntries(
    template.shape.flatMap(({ id, min }) => (min === undefined ? [] : [[id, min] as const])),
  );
  const known = new Set(first.map(decided));
  const others = [...few, ...few.map((one) => ({ ...one, ...smallest }))].filter((inputs) => {
    const key = decided(inputs);
    return !known.has(key) && known.add(key);
  });
  return [...first, ...others];
}

/** Everything that is wrong with a template: a message for each fault, naming block, item and column. Empty where it may be used. */
export function lint(template: unknown): readonly string[] {
  const steps = lintSteps(template, "all");
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

/** The same with a pause after each configuration, in which a page can answer. */
export async function lintWithPauses(
  template: unknown,
  pause: (done: number, of: number) => Promise<void>,
  which: WhichConfigurations = "all",
): Promise<readonly string[]> {
  const steps = lintSteps(template, which);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
    await pause(value.done, value.of);
  }
}

function* lintSteps(
  template: unknown,
  configurations: WhichConfigurations,
): Generator<{ readonly done: number; readonly of: number }, readonly string[], void> {
  const ofSchema = schemaProblems(template);
  if (ofSchema.length > 0) return ofSchema;
  const out = new Set<string>();
  const all = shapes(template as Template, configurations);
  for (const [i, shape] of all.entries()) {
    const which =
      shape === (template as Template).example.inputs
        ? "the example"
        : Object.entries(shape)
            .map(([id, value]) => `${id} = ${String(value)}`)
            .join(", ");
    for (const problem of problemsOf(template as Template, expandLoosely(template as Template, shape))) {
      if (![...out].some((known) => known === problem || known.startsWith(`${problem} (with `)))
        out.add(which === "" ? problem : `${problem} (with ${which})`);
    }
    yield { done: i + 1, of: all.length };
  }
  return [...out];
}
