import type { Address, CellContent } from "../cells/index.ts";
import { cellsOf } from "../cells/index.ts";
import { fnv1a64, version as functionsVersion } from "../core/index.ts";
import { planValues, type FileSheet } from "../hosts/index.ts";
import {
  asRead,
  conflict,
  freeSheetName,
  missingInputs,
  type Inputs,
  type MissingInput,
  type Plan,
  type Template,
} from "../sheet/index.ts";
import type { OfficeDefaults } from "./defaults.ts";
import { linkedName, linkedPlanFor, snapshotOf } from "./linked.ts";
import type { Member } from "./memberTable.ts";
import { planFor } from "./planFor.ts";
import { placeOf, type Settings } from "./settings.ts";
import { notBuilt, worstOf, type Entry } from "./register.ts";
import { Refused } from "./refused.ts";

/** What all members of a run have in common. */
export interface Run {
  /** What a sheet of a template starts from where the office gives nothing: its invented example, or nothing. */
  readonly base: (template: Template) => Inputs;
  /** Given for all members; the row's own inputs go before them. */
  readonly common: (template: Template) => Settings;
  /** Linked sheets in the file of each member. */
  readonly linked: (template: Template) => readonly Template[];
  readonly defaults?: OfficeDefaults | undefined;
}

/** The office's defaults with what a row chooses from them. Throws Refused where the office has no such thing. */
function defaultsOf({ defaults }: Run, { chosen }: Member): OfficeDefaults | undefined {
  if (defaults) return defaults.choosing(chosen);
  const word = chosen.duct ?? chosen.jack;
  if (word !== undefined) throw new Refused([`“${word}” is chosen from the office's defaults, but none are given`]);
  return undefined;
}

function startOf(run: Run, member: Member, template: Template): Inputs {
  return { ...run.base(template), ...defaultsOf(run, member)?.inputsFor(template) };
}

/** A member whose inputs have been read: its sheet, without values. */
export interface PlannedMember {
  readonly member: Member;
  readonly plan: Plan;
  /** Same template, configuration and inputs: same mark. */
  readonly mark: string;
}

/** A member with the values of its sheets. */
export interface BuiltMember extends PlannedMember {
  readonly sheets: readonly FileSheet[];
  readonly entry: Entry;
}

/** Text of a title block where the table gives none: the member's name. */
const memberInput = "member";

/** Throws Refused where the row's inputs are not allowed. */
export function plannedMember(member: Member, run: Run): PlannedMember {
  const { template, settings } = member;
  const named = new Map(settings);
  const asks = placeOf(template, memberInput) !== undefined;
  if (asks && !named.has(memberInput)) named.set(memberInput, member.name);
  const plan = planFor(template, named, startOf(run, member, template), run.common(template));
  const linked = run
    .linked(template)
    .map((one) => [one.id, one.version, { ...startOf(run, member, one), ...Object.fromEntries(run.common(one)) }]);
  const own = [plan.inputs, [...member.linkedSettings]];
  const defaults = defaultsOf(run, member);
  const office = [defaults?.name, defaults?.hash];
  const said = [template.id, template.version, plan.hash, own, functionsVersion, office, linked];
  return { member, plan, mark: fnv1a64(JSON.stringify(said)) };
}

/**
 * The sheet's name while it is computed. What is known of formulas is kept by sheet name, so that members of one
 * configuration share it; linked sheets have it in their formulas, so that it stays in their files.
 */
const sourceName = "Stress check";

/** The members in an order that computes those of one configuration after one another. */
export function byConfiguration(members: readonly Member[]): readonly Member[] {
  const keyOf = ({ template, settings }: Member): string =>
    JSON.stringify([template.id, template.shape.map(({ id }) => settings.get(id))]);
  const groups = new Map<string, Member[]>();
  for (const member of members) {
    const key = keyOf(member);
    groups.set(key, [...(groups.get(key) ?? []), member]);
  }
  return [...groups.values()].flat();
}

function refuseConflicts({ plan, values, sheetName }: FileSheet): void {
  const found = (plan.conflicts ?? []).flatMap(({ status, where, message }) =>
    values[status.row]![status.column]!.value === conflict
      ? [`${sheetName}: ${where && `${where}: `}${values[message.row]![message.column]!.text}`]
      : [],
  );
  if (found.length > 0) throw new Refused([...new Set(found)]);
}

function computed(plan: Plan, sheetName: string, others: readonly FileSheet[]): FileSheet {
  const values = planValues(plan, sheetName, others.map(snapshotOf));
  if (!values)
    throw new Refused([`“${sheetName}” cannot be computed apart from a grid; build this member by itself with --out`]);
  const sheet = { plan, values, sheetName };
  refuseConflicts(sheet);
  return sheet;
}

/** All sheets of a member with their values, and its line of the register. Throws Refused. */
export function builtMember(planned: PlannedMember, run: Run, file: string): BuiltMember {
  const { member, plan } = planned;
  const linked = run.linked(member.template);
  const defaults = defaultsOf(run, member);
  // Marks are formulas: they stand on the plan before its values are computed.
  const marked = (own: Plan, one: Template): Plan => defaults?.planned(own, one) ?? own;
  const source = computed(marked(plan, member.template), sourceName, []);
  const sheets = [source];
  for (const template of linked) {
    const asked = (settings: Settings): Settings =>
      new Map([...settings].filter(([id]) => placeOf(template, id) !== undefined));
    const own = linkedPlanFor(
      template,
      { plan, sheetName: sourceName },
      startOf(run, member, template),
      asked(member.linkedSettings),
      asked(run.common(template)),
      linked,
    );
    const taken = sheets.map(({ sheetName }) => sheetName);
    sheets.push(computed(marked(own, template), linkedName(template, taken), [source]));
  }
  // Without formulas on other sheets that name it, the sheet takes the member's name.
  const named = linked.length > 0 ? sheets : [{ ...source, sheetName: freeSheetName(member.name, []) }];
  return { ...planned, sheets: named, entry: entryOf(planned, sheets, [member.template, ...linked], defaults, file) };
}

const at = ({ values }: FileSheet, { row, column }: Address): CellContent => values[row]![column]!;

interface Judged {
  readonly description: string;
  readonly verdict: string;
  readonly utilisation: number | null;
  readonly where: string;
}

function judgedOf(sheet: FileSheet): readonly Judged[] {
  // What only gathers the others is none of them.
  const own = sheet.plan.summary.checks.filter(({ aside }) => !aside);
  return own.map(({ description, utilisation, verdict, where }) => {
    const { value } = at(sheet, utilisation);
    return {
      description,
      utilisation: typeof value === "number" ? value : null,
      verdict: at(sheet, verdict).text,
      where: at(sheet, where).text,
    };
  });
}

/** The first as the sheet lists them: one that fails, with a utilisation or without, else the highest utilisation. */
function governingOf(sheets: readonly FileSheet[]): Judged | undefined {
  return asRead(sheets.flatMap(judgedOf), (one) => one).find(
    ({ verdict, utilisation }) => verdict === "FAIL" || utilisation !== null,
  );
}

/** The value of a row by its id. */
function valueOf(sheet: FileSheet, id: string): number | null {
  const meaning = sheet.plan.meanings.find((one) => one.id === id);
  const value = meaning && at(sheet, meaning.at).value;
  return typeof value === "number" ? value : null;
}

function warningsOf(sheet: FileSheet): readonly string[] {
  return cellsOf(sheet.plan.summary.warnings).flatMap((cell) => {
    const text = at(sheet, cell).text.trim();
    return text === "" || at(sheet, cell).error ? [] : [text];
  });
}

/** So many texts in a line of the register; the sheet has them all. */
const mostRemarks = 3;

/** The inputs of a sheet that are still to be filled in. */
export const missingOn = (sheet: FileSheet): readonly MissingInput[] =>
  missingInputs(
    sheet.plan,
    (status) => at(sheet, status).value === "MISSING",
    (cell) => at(sheet, cell).value,
  );

function remarksOf(sheets: readonly FileSheet[], warnings: readonly string[], strange: readonly string[]): string {
  const missing = sheets.flatMap(missingOn).map(({ id }) => id);
  // What is missing leaves limits open too; then it alone is said.
  const limits =
    missing.length > 0
      ? []
      : sheets
          .flatMap(judgedOf)
          .flatMap(({ description, verdict }) =>
            verdict === "OK" || verdict === "FAIL" ? [] : [`${description}: ${verdict}`],
          );
  const open = sheets
    .slice(1)
    .filter((sheet) => overallOf(sheet) !== "OK")
    .map((sheet) => `${sheet.sheetName}: ${overallOf(sheet)}`);
  // Functions that lack the same input all say so.
  const said = [...new Set(warnings)];
  const more = said.length - mostRemarks;
  return [
    ...(missing.length > 0 ? [`inputs missing: ${missing.length} (${missing.join(", ")})`] : []),
    ...new Set(limits),
    ...open,
    ...strange,
    ...said.slice(0, mostRemarks),
    ...(more > 0 ? [`and ${more} more warnings on the sheet`] : []),
  ].join("; ");
}

const overallOf = (sheet: FileSheet): string => at(sheet, sheet.plan.summary.overall).text;

function entryOf(
  { member, plan, mark }: PlannedMember,
  sheets: readonly FileSheet[],
  templates: readonly Template[],
  defaults: OfficeDefaults | undefined,
  file: string,
): Entry {
  const strange = sheets.flatMap((sheet, i) => defaults?.remarksOn(templates[i]!, sheet.plan.inputs) ?? []);
  const governing = governingOf(sheets);
  const warnings = sheets.flatMap(warningsOf);
  return {
    member: member.name,
    verdict: worstOf(sheets.map(overallOf)),
    governing: governing?.description ?? "",
    utilisation: governing?.utilisation ?? null,
    place: governing?.where ?? "",
    losses: valueOf(sheets[0]!, "uLost"),
    warnings: warnings.length,
    remarks: remarksOf(sheets, warnings, strange),
    change: "",
    template: plan.template.id,
    version: plan.template.version,
    hash: plan.hash,
    defaults: defaults ? `${defaults.name}, content ${defaults.hash.slice(0, 8)}` : "",
    file,
    inputs: mark,
    written: "",
  };
}

/** The line of a row that gave no sheet. */
export function refusedEntry(name: string, faults: readonly string[], template?: Template): Entry {
  return {
    member: name,
    verdict: notBuilt,
    governing: "",
    utilisation: null,
    place: "",
    losses: null,
    warnings: null,
    remarks: faults.join("; "),
    change: "",
    template: template?.id ?? "",
    version: template?.version ?? "",
    hash: "",
    defaults: "",
    file: "",
    inputs: "",
    written: "",
  };
}
