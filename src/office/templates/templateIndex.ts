import { reasonOf } from "../../core/index.ts";
import { Refused } from "../refused.ts";
import { readTemplate, sha256Of, type OfficeTemplate } from "./templateFile.ts";

/** A template in the index of a folder. */
export interface Indexed {
  /** Its file, in the same folder as the index. */
  readonly file: string;
  readonly id: string;
  readonly version: string;
  readonly title: string;
  readonly office: string;
  /** Of the file as it is served, in hexadecimal digits. */
  readonly sha256: string;
}

/** The index of a folder of templates, served beside the add-in. */
export interface TemplateIndex {
  readonly kind: "kernbook templates";
  readonly templates: readonly Indexed[];
}

export const indexName = "index.json";

/** A file's name and nothing else: no folder, no address. */
const plainName = /^[A-Za-z0-9][A-Za-z0-9._-]*\.json$/;

/** The index of files that were read. Throws Refused where two have one id, or a name does not fit an address. */
export function indexOf(files: readonly { readonly file: string; readonly of: OfficeTemplate }[]): TemplateIndex {
  const faults = [
    ...files.flatMap(({ file }) =>
      plainName.test(file) && file !== indexName
        ? []
        : [`${file}: name it with letters, digits, “-”, “_” and “.” alone, ending in .json, and not ${indexName}`],
    ),
    ...files.flatMap(({ file, of }, i) => {
      const other = files.slice(0, i).find((one) => one.of.template.id === of.template.id);
      return other ? [`${file} and ${other.file} have the same id ${of.template.id}`] : [];
    }),
  ];
  if (faults.length > 0) throw new Refused(faults);
  return {
    kind: "kernbook templates",
    templates: files.map(({ file, of: { template, sha256 } }) => ({
      file,
      id: template.id,
      version: template.version,
      title: template.title,
      office: template.office!,
      sha256,
    })),
  };
}

/** Reads an index. Throws Refused with every reason. */
export function readIndex(text: string): TemplateIndex {
  let index: unknown;
  try {
    index = JSON.parse(text);
  } catch (error) {
    throw new Refused([`${indexName} is no JSON: ${reasonOf(error)}`]);
  }
  const { kind, templates } = (typeof index === "object" && index !== null ? index : {}) as Partial<TemplateIndex>;
  if (kind !== "kernbook templates" || !Array.isArray(templates))
    throw new Refused([`${indexName} is no index of templates: write it with “npm run -s sheet -- --index-templates”`]);
  const faults = (templates as readonly (Partial<Indexed> | null)[]).flatMap((entry, i) => {
    const { file, id, version, title, office, sha256 } = entry ?? {};
    const fits =
      [id, version, title, office].every((text_) => typeof text_ === "string") &&
      typeof sha256 === "string" &&
      /^[0-9a-f]{64}$/.test(sha256);
    if (typeof file !== "string" || !plainName.test(file)) return [`${indexName}: entry ${i + 1} names no file`];
    return fits ? [] : [`${indexName}: the entry of ${file} needs id, version, title, office and sha256`];
  });
  if (faults.length > 0) throw new Refused(faults);
  return index as TemplateIndex;
}

/** Reads a file that an index lists, where it is the one that was listed. Throws Refused. */
export async function readIndexed(
  { file, id, version, sha256 }: Indexed,
  text: string,
  how: Parameters<typeof readTemplate>[1] = {},
): Promise<OfficeTemplate> {
  const found = await sha256Of(text);
  if (found !== sha256)
    throw new Refused([
      `${file} is not the file of the index: its SHA-256 is ${found.slice(0, 12)}…, not ${sha256.slice(0, 12)}…. Write the index anew`,
    ]);
  const read = await readTemplate(text, how);
  if (read.template.id !== id || read.template.version !== version)
    throw new Refused([
      `${file} holds ${read.template.id} ${read.template.version}; the index says ${id} ${version}: write the index anew`,
    ]);
  return read;
}
