import { a1 } from "../../cells/index.ts";
import { compare, missingTemplate, type Comparison } from "../../checker/index.ts";
import {
  CannotOpen,
  logoToTake,
  openGridInNode,
  openWorkbook,
  type GridHost,
  type Workbook,
} from "../../hosts/index.ts";
import { keepChecked, kindsOfUnderstood, readTemplate, Refused, templateText } from "../../office/index.ts";
import type { InputToKeep, Refusal, Understood } from "../../office/index.ts";
import { catalogue } from "../../templates/catalogue.ts";
import type { Voice } from "../voice.ts";
import { checkFree, writeSafely } from "../writeSafely.ts";
import { bytesOf } from "./members.ts";
import type { KeepRequest } from "./request.ts";

/** A workbook larger than this is something else. */
const largestBook = 40_000_000;

interface KeepVoice extends Voice {
  readonly progress: (line: string) => void;
}

function opened(path: string): Workbook {
  const bytes = bytesOf(path, "a workbook", largestBook);
  try {
    return openWorkbook(bytes).workbook;
  } catch (error) {
    if (error instanceof CannotOpen) throw new Refused([`${path}: ${error.message}`]);
    throw error;
  }
}

async function comparedIn(host: GridHost, path: string, sheet: string): Promise<Comparison> {
  const names = await host.sheetNames();
  if (!names.includes(sheet)) throw new Refused([`${path} has no sheet “${sheet}”; sheets: ${names.join(", ")}`]);
  const comparison = await compare(host, sheet);
  if (comparison) return comparison;
  const missing = await missingTemplate(host, sheet);
  throw new Refused([
    missing
      ? `“${sheet}” is of the template ${missing.templateId} ${missing.templateVersion}, which is not known here: ` +
        "name its file with --template-file"
      : `“${sheet}” is no check sheet that a template built`,
  ]);
}

const cellOf = ({ at }: Pick<Refusal, "at">): string => (at ? `${a1(at)}: ` : "");

function lineOf({ kind, at, label, id, what, before, after }: Understood): string {
  const values = [
    ...(before === undefined ? [] : [`before: ${before}`]),
    ...(after === undefined ? [] : [`now: ${after}`]),
  ];
  // Most labels end in the id already.
  const of = id === undefined || label.endsWith(` (${id})`) ? label : `${label} (${id})`;
  return [`${kind}: ${cellOf({ ...(at && { at }) })}${of}`, what, ...values].filter((text) => text !== "").join("; ");
}

/** What was understood of a sheet, a line each; of what is kept as it was, the count alone. */
function understood(rows: readonly Understood[]): readonly string[] {
  return kindsOfUnderstood.flatMap((kind) => {
    const those = rows.filter((row) => row.kind === kind);
    return kind === "kept" ? [`kept as they are: ${those.length} rows`] : those.map(lineOf);
  });
}

/** Values of the sheet that are only the template's example, so that nobody takes them for its defaults. */
function otherValues(inputs: readonly InputToKeep[], defaultIds: readonly string[] = []): readonly string[] {
  const stray = defaultIds.filter((id) => !inputs.some((one) => one.id === id));
  if (stray.length > 0)
    throw new Refused([
      `--default ${stray.join(",")}: no input with one value on the sheet that is other than its default; there are: ` +
        (inputs.map(({ id }) => id).join(", ") || "none"),
    ]);
  const others = inputs.filter(({ id }) => !defaultIds.includes(id));
  if (others.length === 0) return [];
  const listed = others.map(({ id, value, was }) => `${id} = ${value} (${was === undefined ? "none" : was})`);
  return [
    `only the example, with the template's default in brackets: ${listed.join(", ")}; --default with ids makes defaults of them`,
  ];
}

/** Makes a template of the office of a sheet of a workbook, and writes its file. Throws Refused, with the cells. */
export async function keepFromBook(request: KeepRequest, { say, complain, progress }: KeepVoice): Promise<void> {
  const { book, sheet, id, title, office, version, locked, defaultIds, out, force } = request;
  if (catalogue.some((entry) => entry.id === id))
    throw new Refused([`--id ${id} is that of a shipped template: give the template an id of its own`]);
  checkFree(out, force);
  const workbook = opened(book);
  const host = await openGridInNode();
  try {
    await host.open(workbook);
    const comparison = await comparedIn(host, book, sheet);
    const { rows, columns } = comparison.recognised.snapshot;
    const { formats } = await host.looks(sheet, { row: 0, column: 0, rows, columns });
    const taken = await logoToTake(host, sheet);
    const about = {
      id,
      name: title,
      version,
      office,
      ...taken,
      ...(locked && { locked }),
      defaults: new Set(defaultIds),
    };
    const kept = await keepChecked(comparison, about, formats, (done, of) => {
      progress(`checked in ${done} of ${of} kinds of configurations`);
      return Promise.resolve();
    });
    understood(kept.rows).forEach(say);
    otherValues(kept.inputs, defaultIds).forEach(say);
    if (!kept.template) throw new Refused(kept.refused.map((one) => `${cellOf(one)}${one.what}`));
    const text = templateText(kept.template);
    // What is written can be read again.
    await readTemplate(text, { checked: true });
    writeSafely(out, new TextEncoder().encode(text), force, complain);
    if (kept.template.locked) say(`locked: ${kept.template.locked.join(", ")}`);
    say(`Template: ${kept.template.title} (${id} ${version}), made from ${kept.template.madeFrom!.template}`);
    say(`Written: ${out}`);
  } finally {
    host.dispose();
  }
}
