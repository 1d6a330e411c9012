import { reasonOf } from "../../core/index.ts";
import {
  compose,
  faultOfLogo,
  lintWithPauses,
  schemaProblems,
  withSource,
  type Block,
  type Parts,
  type Template,
} from "../../sheet/index.ts";
import { catalogue, loadTemplate } from "../../templates/catalogue.ts";
import { isKnownTemplate, loadKnownTemplate, officeTemplates } from "../../templates/offices.ts";
import type { Pause } from "../keep/keepTemplate.ts";
import { textOfBytes } from "../csv.ts";
import { Refused } from "../refused.ts";
import { unsafeIn } from "./unsafe.ts";

/** A file larger than this holds something else. */
export const largestTemplate = 3_000_000;

interface HowToRead {
  readonly checked?: boolean;
  readonly pause?: Pause;
  readonly parts?: Parts;
}

/** A template of an office as it was read from a file. */
export interface OfficeTemplate {
  readonly template: Template;
  /** The file's text, and what it is known by: SHA-256 in hexadecimal digits. */
  readonly text: string;
  readonly sha256: string;
}

/** SHA-256 of a text in UTF-8. */
export async function sha256Of(text: string): Promise<string> {
  const digest = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

/**
 * Blocks of other templates that a text names, by `template#block`, for `{ "use": "template#block" }`: of shipped ones, and
 * of an office's that are loaded.
 */
async function blockParts(text: string): Promise<Parts> {
  const isNamed = ({ id }: { readonly id: string }): boolean => text.includes(`"${id}#`);
  const shipped = await Promise.all(catalogue.filter(isNamed).map(({ id }) => loadTemplate(id)));
  const templates = [...shipped, ...officeTemplates().filter(isNamed)];
  return Object.fromEntries(
    templates.flatMap(({ id, blocks }) =>
      blocks.map((block): readonly [string, readonly Block[]] => [`${id}#${block.id}`, [block]]),
    ),
  );
}

/** The file of a template, as text. Of a linked one the source is named by its id, and its configuration stays there. */
export function templateText(template: Template): string {
  const { source, shape, ...rest } = template;
  const own = source ? shape.filter((input) => !source.template.shape.includes(input)) : shape;
  const file = source ? { ...rest, source: { name: source.name, template: source.template.id }, shape: own } : template;
  return `${JSON.stringify(file, null, 2)}\n`;
}

/**
 * Reads a template's file: its shape by the published schema, what it may hold, and lint in every kind of configuration.
 * Throws Refused with every reason. `checked`: the file was read before on this machine, so that lint is left to the
 * building of a sheet. `parts`: the shared parts that the file may use beside blocks of shipped templates.
 */
export async function readTemplate(
  bytes: Uint8Array | string,
  { checked = false, pause = () => Promise.resolve(), parts = {} }: HowToRead = {},
): Promise<OfficeTemplate> {
  const size = bytes.length;
  if (size > largestTemplate) throw new Refused([`the file has ${size} bytes; at most ${largestTemplate} are read`]);
  if (typeof bytes !== "string" && bytes[0] === 0x50 && bytes[1] === 0x4b)
    throw new Refused(["it is a workbook or an archive, which may hold macros; a template is a text file (.json)"]);
  const text = typeof bytes === "string" ? bytes : textOfBytes(bytes);
  const template = await templateOf(text, parts);
  if (!checked) {
    const problems = await lintWithPauses(template, pause);
    if (problems.length > 0) throw new Refused(problems);
  }
  return { template, text, sha256: await sha256Of(text) };
}

async function templateOf(text: string, parts: Parts): Promise<Template> {
  let file: unknown;
  try {
    file = JSON.parse(text) as unknown;
  } catch (error) {
    throw new Refused([`it is no JSON: ${reasonOf(error)}`]);
  }
  if (typeof file !== "object" || file === null || Array.isArray(file))
    throw new Refused(["it holds no template: a file begins with { and its “id”"]);
  const unsafe = unsafeIn(file);
  if (unsafe.length > 0) throw new Refused(unsafe);
  const composed = await wholeOf(file, { ...(await blockParts(text)), ...parts });
  const problems = schemaProblems(composed);
  if (problems.length > 0) throw new Refused(problems);
  const template = composed as Template;
  const logo = template.logo && faultOfLogo(template.logo);
  const ofLogo = logo === undefined ? [] : [`logo, ${logo}`];
  const after = [...unsafeIn(withoutSource(template)), ...ofLogo, ...clashes(template)];
  if (after.length > 0) throw new Refused(after);
  return template;
}

/** With shared parts and the source in place. */
async function wholeOf(file: object, parts: Parts): Promise<unknown> {
  let whole: unknown;
  try {
    whole = compose(file, parts);
  } catch (error) {
    throw new Refused([reasonOf(error)]);
  }
  const { source } = whole as { readonly source?: { readonly template?: unknown } };
  if (source === undefined) return whole;
  const id = String(source.template);
  const of = isKnownTemplate(id) ? await loadKnownTemplate(id) : undefined;
  if (!of || of.source) throw new Refused([`source: the template ${id}, to take values from, is not known here`]);
  return withSource(whole as object, of);
}

function withoutSource({ source: _source, ...rest }: Template): object {
  return rest;
}

function clashes({ id, office }: Template): readonly string[] {
  return [
    ...(catalogue.some((one) => one.id === id)
      ? [`the id ${id} is that of a shipped template: give the template an id of its own`]
      : []),
    ...(office === undefined ? ["it does not say the office that answers for it (“office”)"] : []),
  ];
}
