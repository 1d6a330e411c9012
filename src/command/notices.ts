import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

interface Locked {
  readonly version?: string;
  readonly license?: string;
  readonly dev?: boolean;
}
interface Manifest {
  readonly author?: string | { readonly name?: string };
  readonly license?: string;
  readonly repository?: string | { readonly url?: string };
}

const read = <T>(path: string): T => JSON.parse(readFileSync(path, "utf8")) as T;

/** The texts of licence and notices, as files of the package; empty where it has none. */
function licenceFiles(folder: string): string {
  const names = readdirSync(folder)
    .sort()
    .filter((name) => /^(licen[cs]e|copying|notice)([.-].*)?$/i.test(name));
  return names.map((name) => readFileSync(join(folder, name), "utf8").trim()).join("\n\n");
}

/** What the package's README says of its licence; empty where it says nothing. */
function licenceSection(folder: string): string {
  const readme = readdirSync(folder).find((name) => /^readme(\.|$)/i.test(name));
  if (readme === undefined) return "";
  return (
    /^#+ *licen[cs]e.*\n([\s\S]*?)(?=^#|(?![\s\S]))/im.exec(readFileSync(join(folder, readme), "utf8"))?.[1]?.trim() ??
    ""
  );
}

/** The text of a licence by its SPDX id, as its authors publish it, without a copyright line. */
function standardText(licence: string, name: string): string {
  const file = join(import.meta.dirname, "licences", `${licence}.txt`);
  if (!existsSync(file)) throw new Error(`${name} has no text of its licence, ${licence}: add it as ${file}`);
  return readFileSync(file, "utf8").trimEnd();
}

/** Where a package has no file with its licence: who made it, what its README says, and the standard text where that is not it. */
function substitute(name: string, licence: string, manifest: Manifest, section: string): string {
  const { author, repository } = manifest;
  const by = typeof author === "string" ? author : author?.name;
  const at = typeof repository === "string" ? repository : repository?.url;
  return [
    "The package carries no file with the text of its licence.",
    ...(by ? [`Author: ${by}`] : []),
    ...(at ? [`Source: ${at}`] : []),
    ...(section ? ["", section] : []),
    ...(section.includes('"AS IS"') ? [] : ["", `The standard text of ${licence}:`, "", standardText(licence, name)]),
  ].join("\n");
}

function notice(name: string, folder: string, locked: Locked): string {
  const manifest = read<Manifest>(join(folder, "package.json"));
  const files = licenceFiles(folder);
  const licence = locked.license ?? manifest.license ?? "";
  return [
    `${name} ${locked.version ?? ""}`,
    `Licence: ${licence || (files ? "see its text" : "not stated")}`,
    "",
    files || substitute(name, licence, manifest, licenceSection(folder)),
  ].join("\n");
}

/** Name, version, licence and licence text of every installed package that the product, not its making alone, depends on. */
export function notices(root: string): string {
  const { packages } = read<{ readonly packages: Readonly<Record<string, Locked>> }>(join(root, "package-lock.json"));
  const all = new Map<string, string>();
  for (const [path, locked] of Object.entries(packages)) {
    const folder = join(root, path);
    if (path === "" || locked.dev || !existsSync(join(folder, "package.json"))) continue;
    const name = path.slice(path.lastIndexOf("node_modules/") + "node_modules/".length);
    // The same version installed in two places counts once.
    all.set(`${name} ${locked.version ?? ""}`, notice(name, folder, locked));
  }
  const line = "\n\n" + "-".repeat(80) + "\n\n";
  return (
    [
      "Packages by others that come with this product, and their licences.",
      ...[...all].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, text]) => text),
    ].join(line) + "\n"
  );
}
