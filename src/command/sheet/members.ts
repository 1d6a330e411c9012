import { createHash } from "node:crypto";
import { appendFileSync, existsSync, mkdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { basename, extname, join } from "node:path";
import { cautions, reasonOf } from "../../core/index.ts";
import { openWorkbook, planValues, writeSheets, writeWorkbook } from "../../hosts/index.ts";
import {
  builtMember,
  byConfiguration,
  comparedWithLast,
  entriesOf,
  gone,
  linkedFor,
  linkedSettings,
  membersOf,
  notBuilt,
  NotARegister,
  NotATable,
  plannedMember,
  readCsv,
  refusedEntry,
  Refused,
  registerPlan,
  registerRows,
  shapeText,
  tableToFill,
  asksFor,
  settingsOf,
  textOfBytes,
  writeCsv,
  type BadRow,
  type Entry,
  type Member,
  type OfficeDefaults,
  type Run,
  type Settings,
} from "../../office/index.ts";
import type { Inputs, Template } from "../../sheet/index.ts";
import { linkedTemplates, templates } from "../../templates/index.ts";
import { officeLinked, officeTemplates } from "../../templates/offices.ts";
import { inColumns } from "../wrap.ts";
import type { Voice } from "../voice.ts";
import { checkFree, NotWritten, writeSafely } from "../writeSafely.ts";
import { fileNames } from "./fileNames.ts";
import type { MembersRequest, TableRequest } from "./request.ts";

export interface MembersVoice extends Voice {
  /** How far the run is; a line that the next one may replace. */
  readonly progress: (line: string) => void;
  /** Whether somebody has asked to stop. */
  readonly stopped: () => boolean;
}

/** Those shipped, and those of the office that the call names. */
const all = (): readonly Template[] => [...templates, ...officeTemplates().filter(({ source }) => !source)];

/** A table larger than this is something else. */
const largestTable = 20_000_000;
const largestRegister = 50_000_000;

/** A file's content. Throws Refused. */
export function bytesOf(path: string, what: string, largest: number): Uint8Array {
  try {
    const { size } = statSync(path);
    if (size > largest)
      throw new Refused([`${path} has ${Math.round(size / 1e6)} MB; ${what} of at most ${largest / 1e6} MB is read`]);
    return readFileSync(path);
  } catch (error) {
    if (error instanceof Refused) throw error;
    throw new Refused([`${path} cannot be read: ${reasonOf(error)}`]);
  }
}

function tableOf(path: string, usual: Template | undefined, linked: (template: Template) => readonly Template[]) {
  try {
    const { separator, records } = readCsv(textOfBytes(bytesOf(path, "a table", largestTable)));
    return membersOf(records, separator, { all: all(), usual, linked });
  } catch (error) {
    if (error instanceof NotATable) throw new Refused([`${path}: ${error.message}`]);
    if (error instanceof Refused) throw new Refused(error.messages.map((message) => `${path}: ${message}`));
    throw error;
  }
}

const isBook = (path: string): boolean => extname(path).toLowerCase() === ".xlsx";

/** The register of the last run; undefined where there is none. */
function lastRegister(path: string): readonly Entry[] | undefined {
  if (!existsSync(path)) return undefined;
  const bytes = bytesOf(path, "a register", largestRegister);
  try {
    if (!isBook(path))
      return entriesOf(
        readCsv(textOfBytes(bytes)).records.map(({ fields }) => fields),
        true,
      );
    const [sheet] = openWorkbook(bytes).workbook.sheets;
    const rows: (string | number | null)[][] = Array.from({ length: sheet?.rows ?? 0 }, () => []);
    for (const { row, column, value } of sheet?.cells ?? [])
      if (rows[row]) rows[row][column] = typeof value === "boolean" ? String(value) : value;
    return entriesOf(
      rows.map((row) => Array.from(row, (value) => value ?? null)),
      false,
    );
  } catch (error) {
    const known = error instanceof NotATable || error instanceof NotARegister || (error as Error).name === "CannotOpen";
    if (!known) throw error;
    throw new Refused([`${path} is no register of members: ${reasonOf(error)}`]);
  }
}

/** Beside the sheets while a run goes on: a line for each member that is done, so that the next run goes on there. */
const journalName = "members.unfinished";

function journalEntries(path: string): readonly Entry[] {
  if (!existsSync(path)) return [];
  return readFileSync(path, "utf8")
    .split("\n")
    .flatMap((line): readonly Entry[] => {
      try {
        return line === "" ? [] : [JSON.parse(line) as Entry];
      } catch (error) {
        // The last line of a run that was cut off: its member is computed again.
        if (error instanceof SyntaxError) return [];
        throw error;
      }
    });
}

const hashOf = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex").slice(0, 16);

/** A member with what an earlier run knows of it. */
interface Task {
  readonly member: Member;
  readonly path: string;
  readonly kept?: Entry;
}

/** The entry of an earlier run where its inputs are the same and its file is there. */
function keptEntry(mark: string, path: string, before: Entry | undefined): Entry | undefined {
  if (before?.inputs !== mark || before.verdict === gone || before.file !== basename(path)) return undefined;
  if (!existsSync(path)) return undefined;
  const same = hashOf(readFileSync(path)) === before.written;
  return same ? before : { ...before, remarks: joined(before.remarks, touched) };
}

const touched = "the file was changed since it was written and is kept";
const joined = (text: string, more: string): string => {
  if (text.includes(more)) return text;
  return text === "" ? more : `${text}; ${more}`;
};

/** What a register says of a bad row, and what the screen does. */
const refusal = ({ name, faults }: BadRow, template?: Template): Entry => refusedEntry(name, faults, template);

function writeRegister(path: string, entries: readonly Entry[], from: string): void {
  const date = new Date().toISOString().slice(0, 10);
  if (!isBook(path)) {
    writeSafely(path, new TextEncoder().encode(writeCsv(registerRows(entries))), true);
    return;
  }
  const plan = registerPlan(entries, { date, from });
  writeSafely(path, writeWorkbook(plan, planValues(plan, "Register")!, "Register"), true);
}

/** Files that a changed member would replace. */
function refuseTaken(tasks: readonly Task[], force: boolean): void {
  const taken = tasks.filter(({ kept, path }) => !kept && existsSync(path));
  if (!force && taken.length > 0)
    throw new NotWritten(
      `${taken.length} files are there already, such as ${taken[0]!.path}, and their members are new or changed; ` +
        "--force replaces them, or give another folder",
    );
  for (const { path } of taken) checkFree(path, force);
}

/** Plans every member, so that what is wrong with the table is known before anything is written. */
function tasksOf(
  members: readonly Member[],
  run: Run,
  out: string,
  known: ReadonlyMap<string, Entry>,
): { readonly tasks: readonly Task[]; readonly bad: readonly BadRow[] } {
  const names = fileNames(members.map(({ name }) => name));
  const tasks: Task[] = [];
  const bad: BadRow[] = [];
  for (const member of members) {
    const path = join(out, names.get(member.name)!);
    try {
      // Planned again when it is computed: a sheet's plan is large, and there may be hundreds.
      const kept = keptEntry(plannedMember(member, run).mark, path, known.get(member.name.toLowerCase()));
      tasks.push({ member, path, ...(kept && { kept }) });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      bad.push({ name: member.name, line: member.line, faults: error.messages });
    }
  }
  return { tasks, bad };
}

/** Lets signals and output be heard. */
const breath = (): Promise<void> => new Promise((next) => setImmediate(next));

/** Writes a table of members to fill in, for what is given for all of them. */
export function writeTable(
  request: TableRequest,
  template: Template,
  defaults: OfficeDefaults | undefined,
  say: (line: string) => void,
): void {
  const { out, set, link, force } = request;
  checkFree(out, force);
  const linked = (one: Template): readonly Template[] => linkedFor(one, link, [...linkedTemplates, ...officeLinked()]);
  const common = commonInputs([template, ...linked(template)], set);
  const { rows, sheets } = tableToFill(template, { base: () => ({}), common, linked, defaults });
  writeSafely(out, new TextEncoder().encode(writeCsv(rows)), force);
  say(`For ${template.id} with ${shapeText(template, sheets[0]!.plan)}; --set gives another shape`);
  say(
    `Columns: ${rows[0]!.length}; every other input keeps its default, unless it gets a column too (--inputs lists them). ` +
      "A limit that may stay empty has none: without it its check says LIMIT MISSING",
  );
  say(
    `Written: ${out}. The row “${rows[1]![0]}” says what each column is; give --members the same --set, --link and --defaults`,
  );
}

/** Does a table of members and gives the exit status. */
export async function writeMembers(
  request: MembersRequest,
  base: (template: Template) => Inputs,
  defaults: OfficeDefaults | undefined,
  { say, complain, progress, stopped }: MembersVoice,
): Promise<0 | 2 | 3 | 130> {
  const began = performance.now();
  const { members: table, out, set, link, force, register = join(out, "register.csv") } = request;
  const usual = request.template === undefined ? undefined : all().find(({ id }) => id === request.template);
  if (request.template !== undefined && !usual)
    throw new Refused([
      `there is no template “${request.template}”; templates: ${all()
        .map(({ id }) => id)
        .join(", ")}`,
    ]);
  const linked = (template: Template): readonly Template[] =>
    linkedFor(template, link, [...linkedTemplates, ...officeLinked()]);
  const { members, bad } = tableOf(table, usual, linked);
  const used = [...new Set(members.map(({ template }) => template))];
  const common = commonInputs([...used, ...used.flatMap(linked)], set);
  const run: Run = { base, common, linked, defaults };
  const last = lastRegister(register);
  const journal = join(out, journalName);
  const unfinished = journalEntries(journal);
  const known = new Map([...(last ?? []), ...unfinished].map((entry) => [entry.member.toLowerCase(), entry]));
  const planned = tasksOf(byConfiguration(members), run, out, known);
  const faulty = [...bad, ...planned.bad].sort((a, b) => a.line - b.line);
  refuseTaken(planned.tasks, force);
  makeFolder(out);
  for (const { line, name, faults } of faulty) for (const fault of faults) complain(`line ${line}, ${name}: ${fault}`);
  const entries: Entry[] = faulty.map((row) => refusal(row));
  let computed = 0;
  const total = planned.tasks.length;
  const computing = performance.now();
  for (const [i, task] of planned.tasks.entries()) {
    if (stopped()) break;
    const entry = task.kept ?? entryBuilt(task, run, force, complain);
    if (!task.kept) {
      computed++;
      note(journal, entry);
      const each = (performance.now() - computing) / computed / 1000;
      const left = planned.tasks.slice(i + 1).filter(({ kept }) => !kept).length * each;
      progress(
        `${i + 1} of ${total}: ${entry.member} ${entry.verdict}` +
          `${entry.utilisation === null ? "" : ` ${entry.utilisation.toFixed(2)}`}; ` +
          `${each.toFixed(1)} s a member, about ${Math.ceil(left / 60)} min left`,
      );
      await breath();
    }
    entries.push(entry);
  }
  if (entries.length < faulty.length + total) {
    complain(
      `Stopped after ${entries.length - faulty.length} of ${total} members. Their files are whole; the register was not ` +
        "written. The same command goes on from here.",
    );
    return 130;
  }
  const sortedEntries = comparedWithLast(entries, last);
  writeRegister(register, sortedEntries, `${basename(table)}, ${members.length + bad.length} members`);
  rmSync(journal, { force: true });
  summary(sortedEntries, last !== undefined, say);
  for (const caution of new Set([cautions.competence, ...cautionsOf(members)])) say(`Caution: ${caution}`);
  const seconds = (performance.now() - began) / 1000;
  const perMember = computed === 0 ? "" : `, ${((performance.now() - computing) / computed / 1000).toFixed(2)} s each`;
  say(`Register: ${register}`);
  say(
    `Sheets: ${out}; ${computed} computed${perMember}, ${total - computed} unchanged and kept; ${seconds.toFixed(1)} s`,
  );
  return entries.every(({ verdict }) => verdict === "OK") ? 0 : 3;
}

const cautionsOf = (members: readonly Member[]): readonly string[] =>
  members.flatMap(({ template }) => template.cautions);

/** `--set` of all members, for each template that asks for it; one that none asks for is refused. */
function commonInputs(used: readonly Template[], set: readonly string[]): (template: Template) => Settings {
  if (used.length === 0) return () => new Map();
  const stray = set.find((text) => !used.some((template) => asksFor(template, text)));
  if (stray !== undefined) settingsOf(used[0]!, [stray]);
  const inputs = new Map(used.map((template) => [template.id, linkedSettings(template, set)]));
  return ({ id }) => inputs.get(id) ?? new Map();
}

function makeFolder(path: string): void {
  try {
    mkdirSync(path, { recursive: true });
  } catch (error) {
    throw new NotWritten(`${path} cannot be made a folder: ${reasonOf(error)}`, { cause: error });
  }
}

function note(journal: string, entry: Entry): void {
  try {
    appendFileSync(journal, `${JSON.stringify(entry)}\n`);
  } catch (error) {
    throw new NotWritten(`${journal} could not be written: ${reasonOf(error)}`, { cause: error });
  }
}

/** Computes a member and writes its file; what is refused becomes a line of the register. */
function entryBuilt({ member, path }: Task, run: Run, force: boolean, complain: (line: string) => void): Entry {
  try {
    const { sheets, entry } = builtMember(plannedMember(member, run), run, basename(path));
    const bytes = writeSheets(sheets);
    writeSafely(path, bytes, force);
    return { ...entry, written: hashOf(bytes) };
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    for (const fault of error.messages) complain(`line ${member.line}, ${member.name}: ${fault}`);
    return refusal({ name: member.name, line: member.line, faults: error.messages }, member.template);
  }
}

/** So many members and changes on screen; the register has them all. */
const shown = 10;

function summary(entries: readonly Entry[], compared: boolean, say: (line: string) => void): void {
  const counts = new Map<string, number>();
  for (const { verdict } of entries) counts.set(verdict, (counts.get(verdict) ?? 0) + 1);
  say(`Members: ${[...counts].map(([verdict, count]) => `${verdict} ${count}`).join(", ")}`);
  const rows = entries.filter(({ verdict }) => verdict !== gone && verdict !== notBuilt).slice(0, shown);
  if (rows.length > 0)
    for (const line of inColumns([
      ["member", "verdict", "utilisation", "governing check"],
      ...rows.map(({ member, verdict, governing, utilisation }) => [
        member,
        verdict,
        utilisation === null ? "–" : utilisation.toFixed(2),
        governing,
      ]),
    ]))
      say(line);
  if (!compared) return;
  const changed = entries.filter(({ change }) => change !== "");
  say(`Changes since the last register: ${changed.length === 0 ? "none" : changed.length}`);
  for (const { member, change } of changed.slice(0, shown)) say(`  ${member}: ${change}`);
  if (changed.length > shown) say(`  … and ${changed.length - shown} more in the register`);
}
