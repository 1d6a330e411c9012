import type { InputValue, Template } from "../sheet/index.ts";
import type { Separator } from "./csv.ts";
import type { Chosen } from "./defaults.ts";
import { Refused } from "./refused.ts";
import { inputIds, memberOfList, placeOf, settingOf, type Place, type Settings } from "./settings.ts";

/** A row of a table: its fields, and what it is called in messages. */
export interface TableRow {
  readonly line: number;
  readonly fields: readonly string[];
  readonly fault?: string;
}

/** A member as its row gives it. */
export interface Member {
  readonly name: string;
  /** Of the table, counted from 1. */
  readonly line: number;
  readonly template: Template;
  readonly settings: Settings;
  /** Inputs that only a linked sheet asks for. */
  readonly linkedSettings: Settings;
  /** Duct and jack by the names that the office's defaults have for them. */
  readonly chosen: Chosen;
}

/** The templates of a table: what a row may name, and the linked sheets that go with each. */
export interface TableTemplates {
  readonly all: readonly Template[];
  /** Of rows that name none. */
  readonly usual: Template | undefined;
  readonly linked: (template: Template) => readonly Template[];
}

/** A row that gives no member, and why. */
export interface BadRow {
  readonly name: string;
  readonly line: number;
  readonly faults: readonly string[];
}

/** What an empty input is written as; an empty field leaves the input as it would be without the column. */
const emptyWord = "(empty)";

/** In the column “member”: a row for people, which is passed over. */
export const remarkWord = "#";

/** What a column is for. */
type Heading =
  | { readonly kind: "member" | "template" | "remark" | "duct type" | "jack" }
  | { readonly kind: "input"; readonly id: string; readonly at: readonly number[] };

/** `sigj`, `sigj[2]`, `cpL[2][1]`: an input, or one place of its list. */
const headed = /^([A-Za-z]\w*)((?:\[\d{1,3}\]){0,2})$/;

const sameId = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

function headingOf(text: string, templates: readonly Template[]): Heading | undefined {
  const word = text.trim();
  if (word === "" || word.startsWith("#")) return { kind: "remark" };
  if (sameId(word, "member")) return { kind: "member" };
  for (const kind of ["template", "duct type", "jack"] as const) if (sameId(word, kind)) return { kind };
  const [, name = "", places = ""] = headed.exec(word) ?? [];
  const id = templates.flatMap(inputIds).find((one) => sameId(one, name));
  return id === undefined
    ? undefined
    : { kind: "input", id, at: [...places.matchAll(/\d+/g)].map(([number]) => Number(number) - 1) };
}

function headingsOf(
  { fields, fault }: TableRow,
  templates: readonly Template[],
  linked: readonly Template[],
): readonly Heading[] {
  if (fault !== undefined) throw new Refused([`the headings cannot be read: ${fault}`]);
  const found = fields.map((field) => headingOf(field, [...templates, ...linked]));
  const keys = fields.map((field) => field.trim().toLowerCase());
  const faults = fields.flatMap((field, i): readonly string[] => {
    if (!found[i])
      return [
        `column “${field.trim()}” is no input of ${templates.map(({ id }) => id).join(", ")}; ` +
          "--inputs lists them, and a heading that begins with # is passed over",
      ];
    const first = keys.indexOf(keys[i]!);
    return found[i].kind !== "remark" && first < i ? [`column “${field.trim()}” stands twice; give it once`] : [];
  });
  if (!found.some((heading) => heading?.kind === "member"))
    faults.unshift("the table has no column “member”; its first line names the columns: member, then ids of inputs");
  for (const { id } of found.flatMap((one) => (one?.kind === "input" && one.at.length > 0 ? [one] : [])))
    if (found.some((one) => one?.kind === "input" && one.id === id && one.at.length === 0))
      faults.push(`input ${id} has a column for the whole list and columns for its places; keep one of them`);
  if (faults.length > 0) throw new Refused([...new Set(faults)]);
  return found as readonly Heading[];
}

/** Numbers in a file whose fields are not apart by commas may have a decimal comma. */
function withPoint(text: string, separator: Separator): string {
  return separator !== "," && /^\s*[+-]?\d+,\d+\s*$/.test(text) ? text.replace(",", ".") : text;
}

/** The text of a field as `--set` would take it. */
function valueOf(place: Place, id: string, field: string, separator: Separator): InputValue {
  const said = `column ${id} = “${field}”`;
  if (field.trim() === emptyWord) return null;
  if ("freeText" in place.input && place.input.freeText) return settingOf(place, field, said);
  if (place.kind === "column" && separator !== "," && field.includes(","))
    throw new Refused([
      `${said}: whether its commas are decimal cannot be told in a file with other separators; give each place ` +
        `a column of its own, ${id}[1], ${id}[2] …`,
    ]);
  return settingOf(place, place.kind === "column" ? field : withPoint(field, separator), said);
}

/** Puts a value at its place of a list, with empty places before it. */
function put(list: InputValue | undefined, [first, ...inner]: readonly number[], value: InputValue): InputValue {
  if (first === undefined) return value;
  const places = Array.isArray(list) ? [...(list as readonly InputValue[])] : [];
  while (places.length < first) places.push(inner.length > 0 ? [] : null);
  places[first] = put(places[first], inner, value);
  return places;
}

function settingsOfRow(
  template: Template,
  linked: readonly Template[],
  headings: readonly Heading[],
  fields: readonly string[],
  separator: Separator,
): { readonly settings: Settings; readonly linkedSettings: Settings; readonly faults: readonly string[] } {
  const settings = new Map<string, InputValue>();
  const linkedSettings = new Map<string, InputValue>();
  const faults: string[] = [];
  headings.forEach((heading, i) => {
    const field = fields[i] ?? "";
    if (heading.kind !== "input" || field.trim() === "") return;
    const { id, at } = heading;
    const own = placeOf(template, id);
    const place = own ?? linked.flatMap((one) => placeOf(one, id) ?? [])[0];
    const into = own ? settings : linkedSettings;
    if (!place) {
      faults.push(`column ${id} = “${field}”: ${template.id} has no such input; leave the field empty`);
      return;
    }
    const depth = place.kind === "column" ? place.table.over.length : 0;
    if (at.length > 0 && at.length !== depth) {
      const like = depth === 0 ? id : `${id}${"[1]".repeat(depth)}`;
      faults.push(`column ${id}[…]: the input ${depth === 0 ? "is no list" : "has another depth"}; write ${like}`);
      return;
    }
    try {
      const value =
        at.length > 0 && field.trim() !== emptyWord
          ? memberOfList(place, withPoint(field, separator))
          : valueOf(place, id, field, separator);
      into.set(id, put(into.get(id), at, value));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      faults.push(...error.messages);
    }
  });
  return { settings, linkedSettings, faults };
}

/**
 * The members of a table whose first row names its columns. Throws Refused where the headings do not fit; a row that
 * does not is told beside the members of the others.
 */
export function membersOf(
  rows: readonly TableRow[],
  separator: Separator,
  { all: templates, usual, linked }: TableTemplates,
): { readonly members: readonly Member[]; readonly bad: readonly BadRow[] } {
  const [first, ...others] = rows;
  if (!first) throw new Refused(["the table is empty; its first line names the columns: member, then ids of inputs"]);
  const names = first.fields.map((field) => field.trim().toLowerCase());
  const possible = usual && !names.includes("template") ? [usual] : templates;
  const headings = headingsOf(first, possible, possible.flatMap(linked));
  const column = (kind: "member" | "template" | "duct type" | "jack"): number =>
    headings.findIndex((heading) => heading.kind === kind);
  if (!usual && column("template") < 0)
    throw new Refused(["--template is missing, and the table has no column “template”; give one of them"]);
  if (others.length === 0) throw new Refused(["the table has headings, but no row below them"]);
  const members: Member[] = [];
  const bad: BadRow[] = [];
  const taken = new Map<string, number>();
  for (const { line, fields, fault } of others) {
    const name = (fields[column("member")] ?? "").trim();
    if (name === remarkWord) continue;
    const wanted = (fields[column("template")] ?? "").trim();
    const [duct = "", jack = ""] = (["duct type", "jack"] as const).map((kind) => (fields[column(kind)] ?? "").trim());
    const chosen = { ...(duct !== "" && { duct }), ...(jack !== "" && { jack }) };
    const template = wanted === "" ? usual : templates.find(({ id }) => id === wanted);
    const faults: string[] = fault === undefined ? [] : [fault];
    if (name === "") faults.push("the column “member” is empty; give the member a name");
    const before = taken.get(name.toLowerCase());
    if (before !== undefined) faults.push(`the member “${name}” stands in line ${before} already; names differ`);
    if (name !== "" && before === undefined) taken.set(name.toLowerCase(), line);
    if (!template)
      faults.push(
        wanted === ""
          ? "no template is named"
          : `there is no template “${wanted}”; templates: ${templates.map(({ id }) => id).join(", ")}`,
      );
    const beyond = fields.slice(headings.length).filter((field) => field.trim() !== "").length;
    if (beyond > 0)
      faults.push(`${beyond} more fields than the table has columns; is a field with a comma not quoted?`);
    const read = template && settingsOfRow(template, linked(template), headings, fields, separator);
    faults.push(...(read?.faults ?? []));
    if (faults.length > 0 || !template || !read)
      bad.push({ name: before === undefined && name ? name : `${name} line ${line}`.trim(), line, faults });
    else members.push({ name, line, template, settings: read.settings, linkedSettings: read.linkedSettings, chosen });
  }
  return { members, bad };
}
