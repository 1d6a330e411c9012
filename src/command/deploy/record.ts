import { readFileSync } from "node:fs";
import { join } from "node:path";
import { reasonOf } from "../../core/index.ts";
import { Refused, type Indexed } from "../../office/index.ts";

/** The file that says what a folder holds. */
export const recordName = "installed.json";

/** A template that comes with this version; the hash is of its text with shared parts in place. */
export interface ShippedTemplate {
  readonly id: string;
  readonly version: string;
  readonly title: string;
  readonly sha256: string;
}

/** The office's defaults as they are served. */
export interface InstalledDefaults {
  readonly office: string;
  readonly version: string;
  readonly date: string;
  readonly sha256: string;
}

/** What a folder for an office's address holds. */
export interface Installed {
  readonly kind: "kernbook installation";
  readonly version: string;
  /** The day on which the folder was made, YYYY-MM-DD. */
  readonly date: string;
  readonly address: string;
  readonly pinned: boolean;
  readonly addIn: { readonly id: string; readonly name: string };
  readonly namespace: string;
  /** Ids of the worksheet functions. */
  readonly functions: readonly string[];
  readonly shippedTemplates: readonly ShippedTemplate[];
  readonly officeTemplates: readonly Indexed[];
  readonly defaults: InstalledDefaults | null;
}

/** Whether a value has texts under all these names. */
function hasTexts(value: unknown, names: readonly string[]): boolean {
  if (typeof value !== "object" || value === null) return false;
  const fields = value as Readonly<Record<string, unknown>>;
  return names.every((name) => typeof fields[name] === "string");
}

const isListOf = (value: unknown, fits: (one: unknown) => boolean): boolean =>
  Array.isArray(value) && value.every(fits);
const isKept = (one: unknown): boolean => hasTexts(one, ["id", "version", "sha256"]);

/** Whether it has what a comparison with it reads. */
function isInstalled(value: unknown): value is Installed {
  if (!hasTexts(value, ["kind", "version", "date", "address"])) return false;
  const { kind, functions, shippedTemplates, officeTemplates, defaults } = value as Installed;
  return (
    kind === "kernbook installation" &&
    isListOf(functions, (id) => typeof id === "string") &&
    isListOf(shippedTemplates, isKept) &&
    isListOf(officeTemplates, isKept) &&
    (defaults === null || hasTexts(defaults, ["office", "version", "date", "sha256"]))
  );
}

/** What a folder says that it holds. Throws Refused where this command did not write it. */
export function recordIn(folder: string): Installed {
  const path = join(folder, recordName);
  let value: unknown;
  try {
    value = JSON.parse(readFileSync(path, "utf8"));
  } catch (error) {
    throw new Refused([`${folder} is no folder that this command made: ${reasonOf(error)}`]);
  }
  if (!isInstalled(value))
    throw new Refused([`${folder} is no folder that this command made: ${path} does not say what is installed`]);
  return value;
}

/** Names in a sentence, the first of many. */
export const listed = (names: readonly string[], most = 8): string =>
  names.length <= most ? names.join(", ") : `${names.slice(0, most).join(", ")} and ${names.length - most} more`;

interface Kept {
  readonly id: string;
  readonly version: string;
  readonly sha256: string;
}

/** Templates added, gone and changed, a line each kind. */
function templateChanges(what: string, before: readonly Kept[], now: readonly Kept[]): readonly string[] {
  const was = new Map(before.map((one) => [one.id, one]));
  const added = now.filter(({ id }) => !was.has(id)).map(({ id, version }) => `${id} ${version}`);
  const gone = before.filter(({ id }) => !now.some((one) => one.id === id)).map(({ id }) => id);
  const newer = now.flatMap(({ id, version }) => {
    const old = was.get(id);
    return old && old.version !== version ? [`${id} ${old.version} → ${version}`] : [];
  });
  const silent = now.flatMap(({ id, version, sha256 }) => {
    const old = was.get(id);
    return old?.version === version && old.sha256 !== sha256 ? [`${id} ${version}`] : [];
  });
  return [
    ...(added.length > 0 ? [`${what}, new: ${listed(added)}.`] : []),
    ...(newer.length > 0 ? [`${what}, new version: ${listed(newer)}.`] : []),
    ...(silent.length > 0
      ? [`${what}, same version but not the same file: ${listed(silent)}. Give a changed template a new version.`]
      : []),
    ...(gone.length > 0
      ? [`${what}, no longer here: ${listed(gone)}. Sheets of them go on computing; the panel does not know them.`]
      : []),
  ];
}

/** Worksheet functions that an earlier version had and this one has not: workbooks that call them break. */
export const functionsGone = (before: Installed, now: Pick<Installed, "functions">): readonly string[] =>
  before.functions.filter((id) => !now.functions.includes(id));

const defaultsChange = (before: string, now: string): string =>
  before === now
    ? `Office defaults, same version but not the same file: ${now}. Give changed defaults a new version.`
    : `Office defaults: ${before} → ${now}.`;

/** What has changed since an earlier version of the folder, in sentences. */
export function changesSince(before: Installed, now: Installed): readonly string[] {
  const added = now.functions.filter((id) => !before.functions.includes(id));
  const gone = functionsGone(before, now);
  const defaultsOf = ({ defaults }: Installed): string =>
    defaults ? `${defaults.office} ${defaults.version} (${defaults.date})` : "none";
  const sameDefaults = before.defaults?.sha256 === now.defaults?.sha256;
  return [
    before.version === now.version
      ? `Version ${now.version} as before.`
      : `Version ${before.version} → ${now.version}. Sheets built before say CHANGED in their head: check them again.`,
    ...(before.address === now.address
      ? []
      : [`Address ${before.address} → ${now.address}: give out the new manifest.xml.`]),
    ...(added.length > 0 ? [`Worksheet functions, new: ${listed(added)}.`] : []),
    gone.length > 0
      ? `Worksheet functions GONE: ${gone.join(", ")}. Workbooks that call them show errors. Do not roll this out ` +
        "while there are such workbooks."
      : "No worksheet function is gone.",
    ...templateChanges("Shipped templates", before.shippedTemplates, now.shippedTemplates),
    ...templateChanges("Templates of the office", before.officeTemplates, now.officeTemplates),
    ...(sameDefaults ? [] : [defaultsChange(defaultsOf(before), defaultsOf(now))]),
  ];
}
