import { readdirSync } from "node:fs";
import { join } from "node:path";
import { reasonOf } from "../../core/index.ts";
import {
  indexName,
  indexOf,
  largestTemplate,
  NotATable,
  readTemplate,
  Refused,
  type OfficeTemplate,
} from "../../office/index.ts";
import { sharedParts } from "../../templates/index.ts";
import { addOfficeTemplate } from "../../templates/offices.ts";
import { writeSafely } from "../writeSafely.ts";
import { bytesOf } from "./members.ts";

interface Read {
  readonly bytes: Uint8Array;
  readonly of: OfficeTemplate;
}

async function read(path: string): Promise<Read> {
  try {
    const bytes = bytesOf(path, "a template", largestTemplate);
    return { bytes, of: await readTemplate(bytes, { parts: sharedParts }) };
  } catch (error) {
    if (error instanceof NotATable) throw new Refused([`${path}: ${error.message}`]);
    if (error instanceof Refused) throw new Refused(error.messages.map((message) => `${path}: ${message}`));
    throw error;
  }
}

/** Makes the templates of these files known. Throws Refused. */
export async function loadTemplates(paths: readonly string[]): Promise<void> {
  for (const path of paths) await addOfficeTemplate((await read(path)).of.template);
}

/** A template's file of a folder, as it is and as it was read. */
export interface ReadFile extends Read {
  readonly file: string;
}

/** The templates of a folder, all of them read and found good. Throws Refused. */
export async function readTemplates(folder: string): Promise<readonly ReadFile[]> {
  let names: readonly string[];
  try {
    names = readdirSync(folder).filter((name) => name.endsWith(".json") && name !== indexName);
  } catch (error) {
    throw new Refused([`${folder} could not be read: ${reasonOf(error)}`]);
  }
  if (names.length === 0) throw new Refused([`${folder} holds no template (.json)`]);
  const files: ReadFile[] = [];
  for (const file of [...names].sort()) files.push({ file, ...(await read(join(folder, file))) });
  return files;
}

/** Writes the index of a folder of templates. Throws Refused. */
export async function writeIndex(folder: string, say: (line: string) => void): Promise<void> {
  const index = indexOf(await readTemplates(folder));
  const path = join(folder, indexName);
  writeSafely(path, new TextEncoder().encode(`${JSON.stringify(index, null, 2)}\n`), true, say);
  for (const { file, id, version } of index.templates) say(`${file}\t${id} ${version}`);
  say(`Written: ${path}`);
}
