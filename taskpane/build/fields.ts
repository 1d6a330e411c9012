import { allowedText, format, outside, type Bounds, type Unit } from "../../src/core/index.ts";
import {
  boundsOf,
  faultOfSheetName,
  freeSheetName,
  isSheetNameTaken,
  meets,
  says,
  sheetNameTakenText,
  type InputSpec,
  type InputValue,
  type Item,
  type NoteItem,
  type Row,
  type Saying,
  type ShapeInput,
  type TableItem,
  type Template,
  lockedFault,
  lockedValues,
} from "../../src/sheet/index.ts";
import { hasSymbol } from "../../src/typeset/index.ts";

/** One thing to type or choose. */
export interface Field {
  readonly id: string;
  readonly text: string;
  readonly symbol: string;
  readonly unit: string;
  readonly bounds: Bounds & { readonly whole?: true };
  readonly choices?: readonly { readonly value: string | number; readonly text: string }[];
  readonly freeText: boolean;
  readonly mayBeEmpty: boolean;
  /** As typed. */
  readonly default: string;
  /** The allowed range in words; empty where anything goes. */
  readonly allowed: string;
}

/** A table of inputs: one field a column, repeated over one or two dimensions. */
export interface FieldTable {
  readonly id: string;
  readonly title: string;
  readonly note: string;
  readonly fields: readonly Field[];
  /** The labels of the members of each dimension, the outer one first. */
  readonly over: readonly (readonly string[])[];
}

/** Inputs that belong together, under one heading. */
export interface FieldGroup {
  readonly title: string;
  readonly fields: readonly Field[];
  readonly tables: readonly FieldTable[];
}

/** What has been typed: by field id a text, for tables a text per member, by "id/outer/inner". */
export type Typed = Readonly<Record<string, string>>;
export type ShapeTyped = Readonly<Record<string, string | number>>;

const shown = (value: string | number | null | undefined): string =>
  value === undefined || value === null ? "" : String(value);

function field(saying: Saying, input: InputSpec): Field {
  const said = says(saying);
  const bounds = input.choices || input.freeText ? {} : boundsOf(input, said.quantity);
  return {
    id: saying.id,
    text: said.text,
    symbol: said.symbol,
    unit: said.unit,
    bounds,
    freeText: input.freeText === true,
    mayBeEmpty: input.mayBeEmpty === true,
    default: shown(input.default ?? (input.choices || input.freeText ? undefined : said.quantity?.default)),
    allowed: allowedText({ ...bounds, unit: said.unit as Unit }),
    ...(input.choices && { choices: input.choices }),
  };
}

/** The inputs that decide which rows the sheet has. */
export function shapeFields(template: Template): readonly Field[] {
  return template.shape.map((s: ShapeInput): Field => {
    const bounds = s.choices
      ? {}
      : {
          ...(s.min !== undefined && { min: s.min }),
          ...(s.max !== undefined && { max: s.max }),
          whole: true as const,
        };
    return {
      id: s.id,
      text: s.text,
      symbol: s.symbol,
      unit: "–",
      bounds,
      freeText: false,
      mayBeEmpty: false,
      default: String(s.default),
      allowed: allowedText({ ...bounds, unit: "–" }),
      ...(s.choices && { choices: s.choices }),
    };
  });
}

/** The shape inputs' values; the default stands in for what cannot be read yet. */
export function shapeValues(template: Template, typed: Typed): ShapeTyped {
  return Object.fromEntries(
    template.shape.map((s) => {
      if (s.choices || typeof s.default === "string") return [s.id, typed[s.id] || s.default];
      const value = Number(typed[s.id]);
      return [
        s.id,
        Number.isInteger(value) && !outside({ min: s.min ?? 1, max: s.max ?? 100 }, value) ? value : s.default,
      ];
    }),
  );
}

function members(template: Template, dimension: string, shape: ShapeTyped): readonly string[] {
  const spec = template.dimensions[dimension];
  if (!spec) return [];
  if ("members" in spec) return spec.members.filter((m) => meets(m.when, shape)).map((m) => m.text);
  if ("count" in spec)
    return Array.from(
      { length: Number(shape[spec.count] ?? 0) + (spec.plus ?? 0) },
      (_, i) => `${spec.label} ${i + 1}`,
    );
  throw new Error(`inputs cannot repeat over the dimension ${dimension}: its members follow from other tables`);
}

function fieldTable(template: Template, item: TableItem, shape: ShapeTyped): FieldTable | undefined {
  const fields = item.columns.filter((c) => c.input && meets(c.when, shape)).map((c) => field(c, c.input!));
  if (fields.length === 0) return undefined;
  return {
    id: item.table,
    title: item.title,
    note: item.note ?? "",
    fields,
    over: item.over.map((d) => members(template, d, shape)),
  };
}

const isNote = (item: Item): item is NoteItem => "note" in item && !("table" in item) && !("id" in item);
const isRow = (item: Item): item is Row => "id" in item;

/** The template's inputs for this shape, grouped as the sheet will show them. A short note starts a group of its own. */
export function fieldGroups(template: Template, shape: ShapeTyped): readonly FieldGroup[] {
  const groups: { title: string; fields: Field[]; tables: FieldTable[] }[] = [];
  for (const block of template.blocks) {
    if (!meets(block.when, shape)) continue;
    groups.push({ title: block.title, fields: [], tables: [] });
    for (const item of block.items) {
      if (!meets(item.when, shape)) continue;
      if (isNote(item)) {
        if (!item.caution && !item.note.trim().endsWith(".")) groups.push({ title: item.note, fields: [], tables: [] });
      } else if ("table" in item) {
        const t = fieldTable(template, item, shape);
        if (t) groups.push({ title: t.title, fields: [], tables: [t] });
      } else if (isRow(item) && item.input) {
        groups.at(-1)!.fields.push(field(item, item.input));
      }
    }
  }
  return groups.filter((g) => g.fields.length + g.tables.length > 0);
}

/** The key of a table's cell among what was typed. */
export function cellKey(id: string, member: readonly number[]): string {
  return [id, ...member].join("/");
}

/** The key of an input's cell counted in its table; of an input without a table its id. */
export function keyOf(groups: readonly FieldGroup[], id: string, index: number): string {
  const table = groups.flatMap(({ tables }) => tables).find(({ fields }) => fields.some((f) => f.id === id));
  const member = table && combinations(table.over)[index];
  return member ? cellKey(id, member) : id;
}

/** Every combination of members, the outer dimension first. */
export function combinations(over: FieldTable["over"]): readonly (readonly number[])[] {
  return over.reduce<readonly (readonly number[])[]>(
    (all, labels) => all.flatMap((before) => labels.map((_, i) => [...before, i])),
    [[]],
  );
}

const named = (f: Field, where: string): string =>
  `${hasSymbol(f.symbol) ? `${f.symbol.replace(/_/g, "")} (${f.text})` : f.text}${where}`;

/**
 * What is wrong with a typed value: input, value and allowed range; undefined where nothing is. Empty is no error: the
 * sheet then asks for it.
 */
export function problemOf(f: Field, typed: string, where = ""): string | undefined {
  const text = typed.trim();
  if (text === "" || f.freeText) return undefined;
  if (f.choices)
    return f.choices.some((c) => String(c.value) === text)
      ? undefined
      : `${named(f, where)} = “${text}” is not one of the choices: ${f.choices.map((c) => c.value).join(", ")}`;
  const range = f.allowed || "any number";
  if (/^[+-]?\d+,\d+$/.test(text))
    return `${named(f, where)} = “${text}”: write a decimal point in place of the comma; allowed: ${range}`;
  const value = Number(text.replace(/^−/, "-"));
  if (!Number.isFinite(value)) return `${named(f, where)} = “${text}” is no number; allowed: ${range}`;
  const said = `${named(f, where)} = ${format(value)}${f.unit === "–" ? "" : ` ${f.unit}`}`;
  const side = outside(f.bounds, value);
  if (side) return `${said} is too ${side === "below" ? "low" : "high"}; allowed: ${range}`;
  if (f.bounds.whole && !Number.isInteger(value)) return `${said} is not a whole number; allowed: ${range}`;
  return undefined;
}

/** What is wrong with the name for the new sheet, spaces around it aside; undefined where nothing is. */
export function problemOfName(typed: string, taken: readonly string[]): string | undefined {
  const name = typed.trim();
  return (
    faultOfSheetName(name) ??
    (isSheetNameTaken(name, taken) ? sheetNameTakenText(name, freeSheetName(name, taken)) : undefined)
  );
}

/** The template's defaults as typed. */
export function typedDefaults(template: Template): Typed {
  return Object.fromEntries(shapeFields(template).map((f) => [f.id, f.default]));
}

/** The template's example as typed. */
export function typedExample(template: Template): Typed {
  const out: Record<string, string> = {};
  const put = (id: string, value: InputValue): void => {
    if (Array.isArray(value)) (value as readonly InputValue[]).forEach((v, i) => put(`${id}/${i}`, v));
    else out[id] = shown(value as string | number | null);
  };
  for (const [id, value] of Object.entries(template.example.inputs)) put(id, value);
  return out;
}

/** Inputs as typed, in every place that the form of this shape has for them. */
export function typedInputs(
  template: Template,
  shape: ShapeTyped,
  inputs: Readonly<Record<string, InputValue>>,
): Typed {
  const out: Record<string, string> = {};
  const put = (key: string, value: InputValue | undefined): void => {
    if (typeof value === "string" || typeof value === "number") out[key] = String(value);
  };
  const at = (value: InputValue | undefined, [first, ...inner]: readonly number[]): InputValue | undefined => {
    if (first === undefined || !Array.isArray(value)) return value;
    return at((value as readonly InputValue[])[first], inner);
  };
  for (const { id } of template.shape) put(id, inputs[id]);
  for (const { fields, tables } of fieldGroups(template, shape)) {
    for (const { id } of fields) put(id, inputs[id]);
    for (const table of tables)
      for (const member of combinations(table.over))
        for (const { id } of table.fields) put(cellKey(id, member), at(inputs[id], member));
  }
  return out;
}

/** What stands in a field: as typed, or its default. */
export function textOf(f: Field, typed: Typed, key = f.id): string {
  return typed[key] ?? f.default;
}

/** Every field's problem by key. */
export function allProblems(template: Template, typed: Typed): ReadonlyMap<string, string> {
  const out = new Map<string, string>();
  const locked = lockedValues(template);
  const look = (f: Field, key: string, where: string): void => {
    const text = textOf(f, typed, key);
    const only = locked.get(f.id);
    const problem =
      only !== undefined && valueOf(f, text) !== only ? lockedFault(template, f.id, only) : problemOf(f, text, where);
    if (problem) out.set(key, problem);
  };
  for (const f of shapeFields(template)) {
    if (textOf(f, typed).trim() === "")
      out.set(
        f.id,
        `${named(f, "")} is empty; allowed: ${f.choices ? f.choices.map((c) => c.value).join(", ") : f.allowed}`,
      );
    else look(f, f.id, "");
  }
  for (const group of fieldGroups(template, shapeValues(template, typed))) {
    for (const f of group.fields) look(f, f.id, "");
    for (const t of group.tables)
      for (const member of combinations(t.over))
        for (const f of t.fields)
          look(f, cellKey(f.id, member), ` of ${member.map((m, d) => t.over[d]![m]!).join(", ")}`);
  }
  return out;
}

function valueOf(f: Field, text: string): string | number | null {
  const trimmed = text.trim();
  if (trimmed === "") return null;
  if (f.choices) return f.choices.find((c) => String(c.value) === trimmed)?.value ?? trimmed;
  return f.freeText ? trimmed : Number(trimmed.replace(/^−/, "-"));
}

/** The inputs as the engine takes them: null where left empty, arrays nested by dimension for tables. */
export function inputValues(template: Template, typed: Typed): Readonly<Record<string, InputValue>> {
  const out: Record<string, InputValue> = {};
  for (const f of shapeFields(template)) out[f.id] = valueOf(f, textOf(f, typed));
  for (const group of fieldGroups(template, shapeValues(template, typed))) {
    for (const f of group.fields) out[f.id] = valueOf(f, textOf(f, typed));
    for (const t of group.tables) {
      for (const f of t.fields) {
        const nest = (member: readonly number[]): InputValue =>
          member.length === t.over.length
            ? valueOf(f, textOf(f, typed, cellKey(f.id, member)))
            : t.over[member.length]!.map((_, i) => nest([...member, i]));
        out[f.id] = nest([]);
      }
    }
  }
  return out;
}
