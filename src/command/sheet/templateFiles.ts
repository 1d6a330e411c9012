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

/**
 * Reads files and makes their templates known, whatever their order: one may take values from a template of another, or
 * hold blocks of it, so that what is refused is tried again once others were read. Throws Refused.
 */
async function readInTurn(paths: readonly string[]): Promise<ReadonlyMap<string, Read>> {
  const out = new Map<string, Read>();
  for (let left = paths; left.length > 0;) {
    const refused = new Map<string, Refused>();
    for (const path of left)
      try {
        const one = await read(path);
        await addOfficeTemplate(one.of.template);
        out.set(path, one);
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        refused.set(path, error);
      }
    if (refused.size === left.length) throw new Refused([...refused.values()].flatMap(({ messages }) => messages));
    left = [...refused.keys()];
  }
  return out;
}

/** Makes the templates of these files known. Throws Refused. */
export async function loadTemplates(paths: readonly string[]): Promise<void> {
  await readInTurn(paths);
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
  const all = await readInTurn(names.map((file) => join(folder, file)));
  return [...names].sort().map((file) => ({ file, ...all.get(join(folder, file))! }));
}

/** Writes the index of a folder of templates. Throws Refused. */
export async function writeIndex(folder: string, say: (line: string) => void): Promise<void> {
  const index = indexOf(await readTemplates(folder));
  const path = join(folder, indexName);
  writeSafely(path, new TextEncoder().encode(`${JSON.stringify(index, null, 2)}\n`), true, say);
  for (const { file, id, version } of index.templates) say(`${file}\t${id} ${version}`);
  say(`Written: ${path}`);
}
