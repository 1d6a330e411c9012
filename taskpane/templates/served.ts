import type { Indexed, TemplateIndex } from "../../src/office/index.ts";
import { fetchBeside } from "../fetchBeside.ts";
import type { NotTaken } from "./loaded.ts";

const folder = "templates";
const indexName = "index.json";
const emptyIndex = JSON.stringify({ kind: "kernbook templates", templates: [] } satisfies TemplateIndex);

/** A template of the folder, as text, with what its index says of it. */
export interface Served {
  readonly entry: Indexed;
  readonly text: string;
}

export interface ServedFolder {
  readonly files: readonly Served[];
  readonly notTaken: readonly NotTaken[];
}

/** Whether it is the empty index of a build, which needs no reading. Anything else, damaged or not, is read. */
function isEmptyIndex(text: string): boolean {
  try {
    return JSON.stringify(JSON.parse(text)) === emptyIndex;
  } catch {
    return false;
  }
}

/** What the office serves; nothing where there is no index. `fetchFile` gives a file of the folder as text. */
export async function readFolder(
  fetchFile: (file: string) => Promise<string | undefined> = (file) => fetchBeside(`${folder}/${file}`),
): Promise<ServedFolder> {
  const none: ServedFolder = { files: [], notTaken: [] };
  const text = await fetchFile(indexName);
  if (text === undefined || isEmptyIndex(text)) return none;
  const { readIndex } = await import("../../src/office/index.ts");
  const files: Served[] = [];
  const notTaken: NotTaken[] = [];
  for (const entry of readIndex(text).templates) {
    const { file } = entry;
    try {
      const served = await fetchFile(file);
      if (served === undefined) throw new Error(`the index names it, and the folder ${folder} does not have it`);
      files.push({ entry, text: served });
    } catch (error) {
      notTaken.push({ file, reasons: [error instanceof Error ? error.message : String(error)] });
    }
  }
  return { files, notTaken };
}
