import {
  faultOfInput,
  inputsFrom,
  expand,
  sourceSheetId,
  type Inputs,
  type Plan,
  type SourceSheet,
  type Template,
  withoutLocked,
} from "../../sheet/index.ts";
import { linkedIdsOf, loadKnownTemplate } from "../../templates/offices.ts";
import { sheetsIn } from "../../cells/index.ts";
import type { Host } from "../../hosts/index.ts";
import { takeSnapshot } from "../book/takeSnapshot.ts";
import { headOf } from "../recognise/head.ts";
import { recognise, recogniseAmong } from "../recognise/recognise.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { standing } from "../recognise/standing.ts";

/** A linked sheet that cannot be built or linked: the message says why and what to do. */
export class NotLinkable extends Error {
  override readonly name = "NotLinkable";
}

/** The sheets of the workbook that the template of this id built, in their order: a linked one can take from them. */
export async function sheetsOf(host: Host, wanted: string): Promise<readonly string[]> {
  const out: string[] = [];
  for (const name of await host.sheetNames()) {
    const head = headOf(await takeSnapshot(host, name), (id) => id === wanted);
    if (head?.templateId === wanted) out.push(name);
  }
  return out;
}

/** The linked sheets of the workbook that refer to a sheet. */
export async function linkedTo(host: Host, { snapshot, template }: Recognised): Promise<readonly Recognised[]> {
  const kinds = linkedIdsOf(template.id);
  const out: Recognised[] = [];
  for (const name of kinds.length === 0 ? [] : await host.sheetNames()) {
    if (name === snapshot.sheet) continue;
    const read = await takeSnapshot(host, name);
    const kind = headOf(read, (id) => kinds.includes(id))?.templateId;
    if (kind === undefined || !kinds.includes(kind)) continue;
    const other = recogniseAmong(read, [await loadKnownTemplate(kind)]);
    const refers = other?.snapshot.cells.some((row) =>
      row.some(({ formula }) => formula !== undefined && sheetsIn(formula).includes(snapshot.sheet)),
    );
    if (other && refers) out.push(other);
  }
  return out;
}

async function sourceOn(host: Host, template: Template, sheet: string): Promise<Recognised> {
  const found = (await host.sheetNames()).includes(sheet) ? await recognise(host, sheet) : undefined;
  const wanted = template.source!.template;
  if (found?.template.id !== wanted.id)
    throw new NotLinkable(`“${sheet}” is no sheet of “${wanted.title}” (${wanted.id}); choose one, or build it first.`);
  return found;
}

/** The names of a source as they stand now. */
function sourceSheet({ snapshot }: Recognised): SourceSheet {
  return {
    sheet: snapshot.sheet,
    names: [...snapshot.names].flatMap(([name, area]) => (area?.sheet === snapshot.sheet ? [{ ...area, name }] : [])),
  };
}

/** What a linked template builds beside a source sheet of the workbook; `own`: the inputs of its own. */
export async function linkedPlan(host: Host, template: Template, sheet: string, own: Inputs = {}): Promise<Plan> {
  const source = await sourceOn(host, template, sheet);
  return expand(template, inputsFrom(template, source.inputs, { sourceSheet: sheet, ...own }), sourceSheet(source));
}

/**
 * Links a sheet to a source again: after that was deleted and built anew, or in another workbook. Its own inputs and
 * marks stay.
 */
export async function linkAgain(host: Host, linkedSheet: string, sheet: string): Promise<number> {
  const linked = await recognise(host, linkedSheet);
  if (!linked?.template.source) throw new NotLinkable(`“${linkedSheet}” is no linked sheet.`);
  const source = await sourceOn(host, linked.template, sheet);
  const other = linked.template.source.template.shape.find(({ id }) => linked.inputs[id] !== source.inputs[id]);
  if (other)
    throw new NotLinkable(
      `“${linkedSheet}” was built for another configuration: ${other.text} is ${String(linked.inputs[other.id])} there ` +
        `and ${String(source.inputs[other.id])} on “${sheet}”. Build the linked sheet anew.`,
    );
  // What is typed over a locked input stays for Compare to tell: no sheet is built here.
  const plan = expand(linked.template, withoutLocked(linked.template, linked.inputs), sourceSheet(source));
  const cells = plan.cells.flatMap(({ link, formula, ...cell }) => {
    const at = link && standing(linked, cell);
    return at && formula !== undefined ? [{ ...at, formula }] : [];
  });
  const name = linked.inputCells.find(({ id }) => id === sourceSheetId);
  const named = name && faultOfInput(sheet, name) === undefined ? standing(linked, name.at) : undefined;
  await host.enterAll(linkedSheet, [...cells, ...(named ? [{ ...named, value: sheet }] : [])]);
  await host.recalculate();
  return cells.length;
}
