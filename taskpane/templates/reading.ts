import type { OfficeTemplate } from "../../src/office/index.ts";
import { problemsOf } from "../build/officeDefaults.ts";
import { whyNot } from "../loading.ts";
import { checkInSteps, type Progress } from "./check.ts";
import { addLoaded, addNotTaken, byVersion, officeState, removeLoaded, type From, type Loaded } from "./loaded.ts";
import { readFolder } from "./served.ts";
import { browserTemplates, type TemplateShelf } from "./templateShelf.ts";

/** What reads the text of a template; fetched when there is a file. */
const office = () => import("../../src/office/index.ts");

let shelf: Promise<TemplateShelf> | undefined;
/** The browser's store; opened anew where it could not be opened. */
function keptHere(): Promise<TemplateShelf> {
  shelf ??= browserTemplates();
  shelf.catch(() => (shelf = undefined));
  return shelf;
}

interface ToRead {
  readonly from: From;
  readonly file: string;
  readonly read: () => Promise<OfficeTemplate>;
}

/**
 * Reads files one after the other. One may take its values from a template of another: what is refused is tried again
 * once others were read.
 */
export async function readAll(files: readonly ToRead[]): Promise<void> {
  let left = files;
  for (;;) {
    const refused: { readonly one: ToRead; readonly error: unknown }[] = [];
    for (const one of left) {
      try {
        const { from, file, read } = one;
        const { template } = await read();
        await refuseClash(template);
        await addLoaded({ from, file, template, readAgain: async () => (await read()).template });
      } catch (error) {
        refused.push({ one, error });
      }
    }
    if (refused.length === 0) return;
    if (refused.length === left.length) {
      for (const { one, error } of refused) addNotTaken({ file: one.file, reasons: problemsOf(error) });
      return;
    }
    left = refused.map(({ one }) => one);
  }
}

async function served(): Promise<readonly ToRead[]> {
  try {
    const { files, notTaken } = await readFolder();
    notTaken.forEach(addNotTaken);
    return files.map(({ entry, text }) => ({
      from: "folder",
      file: entry.file,
      read: async () => (await office()).readIndexed(entry, text, { checked: true }),
    }));
  } catch (error) {
    addNotTaken({ file: "The templates served with this panel", reasons: problemsOf(error) });
    return [];
  }
}

async function kept(): Promise<readonly ToRead[]> {
  try {
    return (await (await keptHere()).list()).map(({ file, text }) => ({
      from: "file",
      file,
      read: async () => (await office()).readTemplate(text, { checked: true }),
    }));
  } catch (error) {
    addNotTaken({
      file: "Templates kept in this browser",
      reasons: [`the browser's store could not be read: ${whyNot(error)}`],
    });
    return [];
  }
}

/** Reads what the office serves beside the panel and what is kept in this browser. */
export async function readAtStart(): Promise<void> {
  await readAll((await Promise.all([served(), kept()])).flat());
}

/** Throws where a template of another office has the same id. */
async function refuseClash({ id, office: own }: OfficeTemplate["template"]): Promise<void> {
  const other = officeState().loaded.find(({ template }) => template.id === id && template.office !== own);
  if (!other) return;
  const { Refused } = await office();
  throw new Refused([
    `the id ${id} is that of a template of ${other.template.office} that is loaded: remove that one first`,
  ]);
}

/** Throws where a newer version was chosen here: the older file would take its place in this browser. */
async function refuseOlder({ id, version }: OfficeTemplate["template"]): Promise<void> {
  const { loaded, older } = officeState();
  const newer = [...loaded, ...older].find(
    ({ from, template }) => from === "file" && template.id === id && byVersion(template.version, version) > 0,
  );
  if (!newer) return;
  const { Refused } = await office();
  throw new Refused([
    `version ${newer.template.version} of ${id} is loaded (${newer.file}): remove it first to use ${version}`,
  ]);
}

/**
 * Takes the file of a template: checks it, keeps it in this browser and loads it. Throws Refused with every reason; then
 * all is as it was. Gives what to say where it is loaded but could not be kept; the list of templates says it too, since
 * whoever asked for the file may have gone from the screen. `checked`: it was made here just now.
 */
export async function takeTemplate(
  file: string,
  contents: Uint8Array | string,
  { progress, signal, checked = false }: Progress & { readonly checked?: boolean },
): Promise<string | undefined> {
  const { readTemplate, Refused } = await office();
  const read = await readTemplate(contents, { checked: true });
  await refuseClash(read.template);
  await refuseOlder(read.template);
  if (!checked) {
    const problems = await checkInSteps(read.template, "usual", { progress, signal });
    if (problems.length > 0) throw new Refused(problems);
  }
  signal.throwIfAborted();
  const readAgain = async () => (await readTemplate(read.text, { checked: true })).template;
  await addLoaded({ from: "file", file, template: read.template, readAgain });
  try {
    await (await keptHere()).put({ id: read.template.id, file, text: read.text });
    return undefined;
  } catch (error) {
    const said = `${file} is loaded until this page is closed; it could not be kept in this browser: ${whyNot(error)}`;
    addNotTaken({ file, reasons: [said], isLoaded: true });
    return said;
  }
}

/**
 * Removes a template that was chosen here. Throws where another takes its values from it. Gives what to say where the
 * browser's store may bring it back.
 */
export async function removeTemplate(one: Loaded): Promise<string | undefined> {
  await removeLoaded(one);
  try {
    await (await keptHere()).remove(one.template.id);
    return undefined;
  } catch (error) {
    return `${one.file} is removed until this page is closed; it could not be deleted from this browser: ${whyNot(error)}`;
  }
}
