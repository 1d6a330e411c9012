import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { metadata, namespace, worksheetFunctions } from "../../../functions/index.ts";
import { version } from "../../core/index.ts";
import { indexOf, largestDefaults, NotATable, readDefaults, Refused, textOfBytes } from "../../office/index.ts";
import { allTemplates } from "../../templates/index.ts";
import { addOfficeTemplate, officeLinked, officeTemplates } from "../../templates/offices.ts";
import { buildIfStale, dist, root } from "../build.ts";
import { identity, manifestFor, pinnedIdentity } from "../manifest.ts";
import { headersFor } from "../serve/builtPages.ts";
import { bytesOf } from "../sheet/members.ts";
import { readTemplates, type ReadFile } from "../sheet/templateFiles.ts";
import { templatePart } from "../templateParts.ts";
import type { Voice } from "../voice.ts";
import { endOf } from "../words.ts";
import { NotWritten } from "../writeSafely.ts";
import { notOfCommand, presentAt, sha256, writeFolder, type NewFile } from "./folder.ts";
import { installedPage, pageNames } from "./installedPage.ts";
import { itPage, policyOf } from "./itPage.ts";
import {
  changesSince,
  functionsGone,
  listed,
  recordIn,
  recordName,
  type Installed,
  type InstalledDefaults,
} from "./record.ts";
import { deployRequestOf, type DeployRequest } from "./request.ts";

/** What a run takes from outside. */
export interface Around {
  /** The folder of built pages; they are built first where it is not named. */
  readonly built?: string;
  /** Today, YYYY-MM-DD. */
  readonly date: string;
}

export const help = `Makes the folder that an office puts at its address: the add-in for everybody.

  npm run -s deploy -- --address https://sheets.example.com/kernbook --out folder

  --address <address>   where the files will be served: https, no slash at the end
  --out <folder>        the folder to make; the folder above it must be there
  --defaults <file>     the defaults of the office (JSON); the panel starts with them
  --templates <folder>  the templates of the office (JSON files); all are checked first, which takes minutes for large
                        ones
  --since <folder>      an earlier folder: the page then says what has changed
  --pin                 this version stays at its address while newer ones follow elsewhere: the address ends in the
                        version, and the add-in has an id and a name of its own
  --force               replace a folder that this command made; what has changed since is told. Refused where files
                        stand in it that this command did not write, or that were changed
  --accept-gone         make the folder although worksheet functions of the earlier one are gone: workbooks that call
                        them show errors

In the folder, ${pageNames.installed} says what is installed and how to update, ${pageNames.forIt} what IT asks.

Exit status: 0 the folder is made; 1 the call or a file is refused; 2 the folder could not be written or
already exists.
`;

const functions = worksheetFunctions.map(({ id }) => id);

const json = (value: unknown): string => `${JSON.stringify(value, null, 1)}\n`;

interface ReadDefaults {
  readonly bytes: Uint8Array;
  readonly of: InstalledDefaults;
}

function readDefaultsFile(path: string): ReadDefaults {
  try {
    const bytes = bytesOf(path, "a file of defaults", largestDefaults);
    const { file } = readDefaults(textOfBytes(bytes), [...allTemplates, ...officeTemplates(), ...officeLinked()]);
    const { office, version: own, date } = file;
    return { bytes, of: { office, version: own, date, sha256: sha256(bytes) } };
  } catch (error) {
    if (error instanceof NotATable) throw new Refused([`${path}: ${error.message}`]);
    if (error instanceof Refused) throw new Refused(error.messages.map((message) => `${path}: ${message}`));
    throw error;
  }
}

/** Files that the manifest and the pages name and that only a build makes. */
const fromBuild = [
  "taskpane.html",
  "index.html",
  "functions.js",
  "addin.js",
  "reference/index.html",
  "THIRD-PARTY.txt",
];

function refuseUnbuilt(built: string): void {
  const missing = fromBuild.filter((name) => !existsSync(join(built, name)));
  if (missing.length > 0)
    throw new Refused([`the built pages in ${built} lack ${missing.join(", ")}: build them again`]);
}

interface Parts {
  readonly request: DeployRequest;
  readonly templates: readonly ReadFile[];
  readonly defaults: ReadDefaults | undefined;
  readonly before: Installed | undefined;
  readonly built: string;
  readonly date: string;
}

/** What the folder will hold. */
function installedOf({ request, templates, defaults, date }: Parts): Installed {
  const { address, pinned } = request;
  return {
    kind: "kernbook installation",
    version,
    date,
    address,
    pinned,
    addIn: pinned ? pinnedIdentity(address, version) : identity,
    namespace,
    functions,
    shippedTemplates: allTemplates.map(({ id, version: own, title }) => ({
      id,
      version: own,
      title,
      sha256: sha256(templatePart(`?${id}`)),
    })),
    officeTemplates: indexOf(templates).templates,
    defaults: defaults?.of ?? null,
  };
}

/** The files that are this office's own; all others come from the build. */
function ownFiles(parts: Parts, installed: Installed): readonly NewFile[] {
  const { templates, defaults, before, built } = parts;
  const { address } = installed;
  const manifest = manifestFor(
    readFileSync(join(root, "manifest", "manifest.xml"), "utf8"),
    address,
    version,
    installed.addIn,
  );
  const policyIn = (page: string): string => policyOf(readFileSync(join(built, page), "utf8"));
  const policies = {
    panel: policyIn("taskpane.html"),
    workbench: policyIn("index.html"),
    headers: headersFor.addin,
  };
  return [
    ["manifest.xml", manifest],
    ["functions.json", json(metadata(address))],
    ["LICENSE.txt", readFileSync(join(root, "LICENSE"))],
    ["templates/index.json", json(indexOf(templates))],
    ...templates.map(({ file, bytes }): NewFile => [`templates/${file}`, bytes]),
    // The panel asks for it at every start: where the office has none the file says so.
    ["defaults.json", defaults?.bytes ?? "null\n"],
    [recordName, json(installed)],
    [pageNames.installed, installedPage(installed, before)],
    [pageNames.forIt, itPage(installed, policies)],
  ];
}

/** What is at the folder's place and may be replaced; undefined where nothing is. Throws where it must stay. */
function replaced({ out, force }: DeployRequest): Installed | undefined {
  if (presentAt(out) !== "folder") return undefined;
  if (!force) throw new NotWritten(`${out} is there already; --force replaces a folder that this command made`);
  const record = recordIn(out);
  const others = notOfCommand(out, recordName);
  if (others.length > 0)
    throw new NotWritten(
      `${out} holds what this command did not write, and would lose it: ${listed(others)}. Move that away first; or make ` +
        `the new folder under another name, with --since ${out}, and copy its files over`,
    );
  return record;
}

/** Refuses to take worksheet functions away from workbooks without being told to. */
function refuseGone({ acceptGone }: DeployRequest, earlier: readonly (Installed | undefined)[]): void {
  const gone = new Set(earlier.flatMap((before) => (before ? functionsGone(before, { functions }) : [])));
  if (gone.size === 0 || acceptGone) return;
  throw new Refused([
    `Worksheet functions of the earlier folder that ${version} does not have: ${[...gone].join(", ")}. Workbooks that ` +
      "call them would show errors. --accept-gone makes the folder all the same",
  ]);
}

/** Refuses to replace what came to the folder's place, or was changed there, while the new files were being made. */
function refuseChanged(request: DeployRequest, seen: Installed | undefined): void {
  if (JSON.stringify(replaced(request)) !== JSON.stringify(seen))
    throw new NotWritten(`${request.out} has changed in the meantime and was left as it is; run the command again`);
}

async function deploy(request: DeployRequest, { say }: Voice, around: Around): Promise<void> {
  const { out, since, defaults: file, templates: folder, address } = request;
  const present = replaced(request);
  const before = since === undefined ? present : recordIn(since);
  refuseGone(request, [before, present]);
  const templates = folder === undefined ? [] : await readTemplates(folder);
  for (const { of } of templates) await addOfficeTemplate(of.template);
  const defaults = file === undefined ? undefined : readDefaultsFile(file);
  if (around.built === undefined) await buildIfStale(say);
  const built = around.built ?? dist;
  refuseUnbuilt(built);
  const parts: Parts = { request, templates, defaults, before, built, date: around.date };
  const installed = installedOf(parts);
  writeFolder(out, built, ownFiles(parts, installed), () => refuseChanged(request, present));
  say(`Kernbook ${version} for ${address}, add-in “${installed.addIn.name}” (${installed.addIn.id})`);
  say(
    `${installed.functions.length} worksheet functions, ${installed.shippedTemplates.length} shipped templates, ` +
      `${installed.officeTemplates.length} of the office; office defaults: ` +
      (installed.defaults ? `${installed.defaults.office} ${installed.defaults.version}` : "none"),
  );
  if (before) {
    say(`Since ${before.version} of ${before.date}:`);
    for (const line of changesSince(before, installed)) say(`  ${line}`);
  }
  say(`Written: ${out}. Put its files at the address; ${pageNames.installed} and ${pageNames.forIt} say what is next.`);
}

/** Does what a call asks for and gives the exit status. */
export async function runDeploy(words: readonly string[], voice: Voice, around: Around): Promise<0 | 1 | 2> {
  try {
    const request = deployRequestOf(words);
    if (request.kind === "help") voice.say(help.trimEnd());
    else await deploy(request, voice, around);
    return 0;
  } catch (error) {
    return endOf(error, (line) => voice.complain(line));
  }
}
