import type { Snapshot } from "../../cells/index.ts";
import { conflictsIn, copiesOfSheets, whyStaying } from "../../checker/index.ts";
import { cautions } from "../../core/index.ts";
import { openGridInNode, planValues, writeSheets, type FileSheet, type Values } from "../../hosts/index.ts";
import { faultOfSheetName, freeSheetName, type Inputs, type Plan, type Template } from "../../sheet/index.ts";
import { allTemplates, choosingTemplates, linkedTemplates, templates } from "../../templates/index.ts";
import { officeLinked, officeTemplates } from "../../templates/offices.ts";
import {
  dividedSettings,
  largestDefaults,
  linkedFor,
  linkedName,
  linkedPlanFor,
  linkedSettings,
  NotATable,
  planFor,
  readDefaults,
  Refused,
  settingsOf,
  shapeText,
  snapshotOf,
  textOfBytes,
  type OfficeDefaults,
} from "../../office/index.ts";
import { wrapped } from "../wrap.ts";
import { inputLines } from "./inputList.ts";
import { keepFromBook } from "./keep.ts";
import { loadTemplates, writeIndex } from "./templateFiles.ts";
import { requestOf, type OfficeRequest, type Request } from "./request.ts";
import { bytesOf, writeMembers, writeTable } from "./members.ts";
import { summaryLines } from "./summary.ts";
import { endOf, given } from "../words.ts";
import type { Voice } from "../voice.ts";
import { checkFree, writeSafely } from "../writeSafely.ts";

export const help = `Writes a check sheet as an .xlsx file.

  npm run -s sheet -- --list                                  the templates: id, title, purpose
  npm run -s sheet -- --template <id> --inputs                its inputs, with what they take; with --link <id>
                                                              those of the linked sheet too
  npm run -s sheet -- --template <id> --inputs --out members.csv    a table of members to fill in: a column for each
                                                              input that has to be given
  npm run -s sheet -- --template <id> --out beam.xlsx         with the template's invented example
  npm run -s sheet -- --template <id> --blank --out beam.xlsx with defaults only
  npm run -s sheet -- --template <id> --members members.csv --out folder    many members

  --template <id>     which template
  --out <file>        the file to write; it ends in .xlsx
  --set name=value    an input by its id, as often as needed: a number, a choice or a text.
                      Nothing behind = leaves it empty, a whole list too.
                      Inputs of tables take lists: sigj=1400,1395 by tendon;
                      cpL=0,0.5,1;0,0.5,1 by tendon and point. A list that is longer or shorter
                      than its places is refused
  --example           start from the template's invented example (this is how it starts anyway)
  --blank             start from nothing but the template's defaults
  --sheet-name <name> the name of the sheet
  --link <id>         a linked sheet in the same file, as often as needed: cross-check, feasible-domain,
                      strength, end-zones, deflection, composite, stressing-record,
                      second-stressing. --set sets its inputs too
  --force             replace the file where it is there already
  --portable          a copy that computes without the add-in, as far as its functions can be written in the
                      program's own formula language; the rest are values, marked. The program needs LAMBDA
  --strict            end with 3 when the overall verdict is not OK; the file is written all the same
  --members <table>   a sheet for each row of a CSV table, in the folder that --out names, and a register of
                      their verdicts. Columns: member, template (where rows differ), ids of inputs; one
                      place of a list is sigj[2] or cpL[2][1]. An empty field leaves the default, (empty)
                      leaves the input empty. --set is for all of them. Ctrl+C stops after the member in
                      work; the same command goes on from there. Unchanged members are kept
  --register <file>   the register, .csv or .xlsx; as a rule register.csv in that folder. What is there from
                      the last run is compared with this one
  --defaults <file>   the defaults of the office (JSON): national factors, stock, ducts, jacks, title block,
                      logo; before --set and the table, marked on the sheet. A CSV table may have the columns
                      “duct type” and “jack”
  --template-file <file>  a template of the office (JSON), as often as needed: then --template takes its id
  --index-templates <folder>  writes index.json for a folder of such files: what each holds, with its SHA-256
  --keep-template <book.xlsx>  makes such a file of a sheet that was changed by hand, and lists what was understood,
                      with --sheet "Beam" --id my-beam --title "…" --office "…" --version 1.0.0 --out office.json;
                      --lock gives ids of rows and columns that sheets may not change, --default those of
                      inputs whose value on the sheet becomes the template's default
  --duct, --jack      choose one of its ducts or jacks by name
  --inputs            the template's inputs
  --list, --help      the templates; this text

The file holds the formulas and the values computed now: it can be read without the worksheet
functions, and computes where they are loaded.

Ends with 0 when the file is written, whatever the verdict (but see --strict); 1 when the call or an
input is refused; 2 when the file could not be written or is there already; 3 with --strict when the
overall verdict is not OK.
`;

/** Where lines for the reader and lines about refusals go. */
export interface SheetVoice extends Voice {
  /** How far a run over many members is. */
  readonly progress?: (line: string) => void;
  /** Whether somebody has asked to stop. */
  readonly stopped?: () => boolean;
}

/** Sheets that stand by themselves. */
const unlinked = (): readonly Template[] => [
  ...templates,
  ...choosingTemplates,
  ...officeTemplates().filter(({ source }) => !source),
];

/** Sheets that take values from another. */
const allLinked = (): readonly Template[] => [...linkedTemplates, ...officeLinked()];

function templateOf(id: string): Template {
  const found = unlinked().find((template) => template.id === id);
  const linked = allLinked().find((template) => template.id === id);
  if (linked)
    throw new Refused([
      `${id} is linked to a sheet of ${linked.source!.template.id}: write that one, with --link ${id}`,
    ]);
  if (!found)
    throw new Refused([
      `there is no template “${id}”; templates: ${unlinked()
        .map((template) => template.id)
        .join(", ")}`,
    ]);
  return found;
}

/** What a template asks for, linked or not, and what the linked sheets beside it ask for. */
function inputs({ template: id, link }: Extract<Request, { kind: "inputs" }>): readonly string[] {
  const own = allLinked().find((template) => template.id === id) ?? templateOf(id);
  if (link.length === 0) return inputLines(own);
  if (own.source) throw new Refused([`${id} is a linked sheet itself: leave --link out`]);
  const headed = (template: Template): readonly string[] => [
    `${template.title} (${template.id})`,
    "",
    ...inputLines(template),
  ];
  return [own, ...linkedFor(own, link, allLinked())].flatMap((template, i) => [
    ...(i > 0 ? [""] : []),
    ...headed(template),
  ]);
}

function sheetNameFor(template: Template, blank: boolean, wanted: string | undefined): string {
  const fault = wanted === undefined ? undefined : faultOfSheetName(wanted);
  if (fault !== undefined) throw new Refused([fault]);
  return wanted ?? freeSheetName(blank ? template.title : template.example.name, []);
}

/** The same rule as the status cells of the sheet. */
function refuseConflicts(plan: Plan, others: readonly Snapshot[] = []): void {
  const conflicts = conflictsIn(plan, others);
  if (conflicts.length === 0) return;
  throw new Refused(
    conflicts.map(({ of, message }) => {
      const [only, ...more] = of.map(({ id }) => id);
      // A row of a table has one status for all its inputs; the message names those that contradict each other.
      return more.length === 0
        ? `input ${only}: ${message}`
        : `${message} (inputs of that row: ${[only, ...more].join(", ")})`;
    }),
  );
}

async function computed(plan: Plan, sheetName: string, others: readonly Snapshot[] = []): Promise<Values> {
  const values = planValues(plan, sheetName, others);
  if (values) return values;
  if (others.length > 0) throw new Refused([`“${sheetName}” cannot be computed beside the sheet it is linked to`]);
  const host = await openGridInNode();
  try {
    await host.apply(plan, { sheetName, progress: () => undefined });
    return await host.read(sheetName, { row: 0, column: 0, rows: plan.rows, columns: plan.columns });
  } finally {
    host.dispose();
  }
}

async function write(request: Extract<Request, { kind: "write" }>, voice: SheetVoice): Promise<0 | 3> {
  const { template: id, out, set, link, blank, force, strict, portable, sheetName: wanted } = request;
  const say = (text: string): void => wrapped(text).forEach(voice.say);
  const began = performance.now();
  const template = templateOf(id);
  const sheetName = sheetNameFor(template, blank, wanted);
  const linked = linkedFor(template, link, allLinked());
  const divided = dividedSettings(template, linked, set);
  const settings = settingsOf(template, divided.ofSource, linked);
  const defaults = defaultsFor(request);
  const startOf = (one: Template): Inputs => ({
    ...(blank ? {} : one.example.inputs),
    ...defaults?.inputsFor(one),
  });
  // What the examples of linked sheets need of their source, such as a topping.
  const asked = Object.assign({}, ...linked.map(({ example }) => (blank ? {} : example.source))) as Inputs;
  // Marks are formulas: they stand on the plan before its values are computed.
  const marked = (own: Plan, one: Template): Plan => defaults?.planned(own, one) ?? own;
  const plan = marked(planFor(template, settings, { ...startOf(template), ...asked }), template);
  refuseConflicts(plan);
  checkFree(out, force);
  const values = await computed(plan, sheetName);
  const sheets: FileSheet[] = [{ plan, values, sheetName }];
  for (const one of linked) {
    const beside = { plan, sheetName };
    const set = linkedSettings(one, divided.ofLinked);
    const own = marked(linkedPlanFor(one, beside, startOf(one), set, new Map(), linked), one);
    const source = [snapshotOf(sheets[0]!)];
    refuseConflicts(own, source);
    const name = linkedName(
      one,
      sheets.map((sheet) => sheet.sheetName),
    );
    sheets.push({ plan: own, values: await computed(own, name, source), sheetName: name });
  }
  const copied = portable ? await portableSheets(sheets) : undefined;
  const bytes = writeSheets(copied?.sheets ?? sheets);
  writeSafely(out, bytes, force, (left) => voice.complain(left));
  say(`${template.title} (${template.id} ${template.version}), sheet “${sheetName}”: ${shapeText(template, plan)}`);
  const filledWith = blank
    ? "the template's defaults only"
    : `the invented example “${template.example.name}”, for no real member`;
  const asSet = settings.size > 0 ? `, with ${[...settings.keys()].join(", ")} as set` : "";
  const forLinked = Object.keys(asked).filter((id) => !settings.has(id));
  const asLinked = forLinked.length > 0 ? `, with ${forLinked.join(", ")} as the linked example needs` : "";
  say(`Values: ${filledWith}${asSet}${asLinked}`);
  if (defaults) officeLines(template, plan, defaults).forEach((line) => say(line));
  summaryLines(plan, values).forEach((line) => say(line));
  for (const { plan: own, values: its, sheetName: name } of sheets.slice(1)) {
    say(`Linked: ${own.template.title} (${own.template.id} ${own.template.version}), sheet “${name}”`);
    summaryLines(own, its).forEach((line) => say(line));
  }
  copied?.lines.forEach(say);
  for (const caution of new Set([cautions.competence, ...template.cautions])) say(`Caution: ${caution}`);
  say(`Written: ${out} (${Math.ceil(bytes.length / 1000)} kB) in ${((performance.now() - began) / 1000).toFixed(1)} s`);
  const isOk = ({ plan: { summary }, values: its }: FileSheet): boolean =>
    its[summary.overall.row]![summary.overall.column]!.value === "OK";
  return strict && !sheets.every(isOk) ? 3 : 0;
}

/** Copies of the sheets that compute without the add-in, computed once more, and what became of their formulas. */
async function portableSheets(
  sheets: readonly FileSheet[],
): Promise<{ readonly sheets: readonly FileSheet[]; readonly lines: readonly string[] }> {
  // Its hundreds of modules take longer to load than all that most calls ask for.
  const mathjs = await import("mathjs/number");
  const when = new Date().toISOString().slice(0, 16).replace("T", " ");
  const copies = await copiesOfSheets(sheets, { when: `${when} UTC`, host: "the sheet command" }, mathjs);
  const out: FileSheet[] = [];
  const lines: string[] = [];
  for (const [i, { plan, counts }] of copies.entries()) {
    const { sheetName } = sheets[i]!;
    const values = await computed(plan, sheetName, out.map(snapshotOf));
    out.push({ plan, values, sheetName });
    lines.push(
      `Computing copy “${sheetName}”: ${counts.computing} formulas compute without the add-in, ${counts.staying} cells ` +
        `stay values (${counts.warnings} of them warnings and marks). ${whyStaying(counts)}`,
    );
  }
  lines.push("Trust the verdict of the original over the copy. The program needs LAMBDA.");
  return { sheets: out, lines };
}

/** What the office gave a sheet, and what is not in its stock. */
function officeLines(template: Template, plan: Plan, defaults: OfficeDefaults): readonly string[] {
  const used = defaults.usedIn(template, plan.inputs);
  return [
    `Office defaults ${defaults.name}: ${used.length === 0 ? "none used" : used.join(", ")}`,
    ...defaults.originsIn(template, plan.inputs).map((origin) => `Entered by the office: ${origin}`),
    ...defaults.doubts.map((doubt) => `Compare: ${doubt}`),
    ...defaults.remarksOn(template, plan.inputs).map((remark) => `Not in stock: ${remark}`),
  ];
}

/** The defaults that a call names. */
function defaultsFor({ defaults, duct, jack }: OfficeRequest): OfficeDefaults | undefined {
  if (defaults === undefined) return undefined;
  const chosen = given({ duct, jack });
  try {
    const text = textOfBytes(bytesOf(defaults, "a file of defaults", largestDefaults));
    return readDefaults(text, [...allTemplates, ...officeTemplates(), ...officeLinked()], chosen);
  } catch (error) {
    if (error instanceof NotATable) throw new Refused([`${defaults}: ${error.message}`]);
    if (error instanceof Refused) throw new Refused(error.messages.map((message) => `${defaults}: ${message}`));
    throw error;
  }
}

/** Real members never start from invented values unless that is asked for. */
function members(request: Extract<Request, { kind: "members" }>, voice: SheetVoice): ReturnType<typeof writeMembers> {
  const startOf = ({ example }: Template): Inputs => (request.example ? example.inputs : {});
  return writeMembers(request, startOf, defaultsFor(request), {
    say: (text) => wrapped(text).forEach(voice.say),
    complain: voice.complain,
    progress: voice.progress ?? (() => undefined),
    stopped: voice.stopped ?? (() => false),
  });
}

/** Does what a call asks for and gives the exit code. */
export async function runSheet(words: readonly string[], voice: SheetVoice): Promise<0 | 1 | 2 | 3 | 130> {
  try {
    const request = requestOf(words);
    if ("templateFiles" in request) await loadTemplates(request.templateFiles ?? []);
    if (request.kind === "help") voice.say(help.trimEnd());
    else if (request.kind === "index") await writeIndex(request.folder, voice.say);
    else if (request.kind === "keep")
      await keepFromBook(request, {
        progress: () => undefined,
        ...voice,
        say: (text) => wrapped(text).forEach(voice.say),
      });
    else if (request.kind === "list")
      for (const { id, title, line } of unlinked()) voice.say(`${id}\t${title}\t${line}`);
    else if (request.kind === "inputs") inputs(request).forEach(voice.say);
    else if (request.kind === "table")
      writeTable(request, templateOf(request.template), defaultsFor(request), (text) =>
        wrapped(text).forEach(voice.say),
      );
    else if (request.kind === "members") return await members(request, voice);
    else return await write(request, voice);
    return 0;
  } catch (error) {
    return endOf(error, (line) => voice.complain(line));
  }
}
