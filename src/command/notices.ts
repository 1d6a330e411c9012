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

function notice(name: string, folder: string, locked: Locked): string {
  const { author, license, repository } = read<Manifest>(join(folder, "package.json"));
  const by = typeof author === "string" ? author : author?.name;
  const at = typeof repository === "string" ? repository : repository?.url;
  const files = licenceFiles(folder);
  const section = licenceSection(folder);
  const text =
    files ||
    [
      "The package carries no file with the text of its licence.",
      ...(by ? [`Author: ${by}`] : []),
      ...(at ? [`Source: ${at}`] : []),
      ...(section ? ["", section] : []),
    ].join("\n");
  return [
    `${name} ${locked.version ?? ""}`,
    `Licence: ${locked.license ?? license ?? (files ? "see its text" : "not stated")}`,
    "",
    text,
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
