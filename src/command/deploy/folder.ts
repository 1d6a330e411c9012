import { createHash, randomBytes } from "node:crypto";
import { cpSync, existsSync, lstatSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { reasonOf } from "../../core/index.ts";
import { Refused } from "../../office/index.ts";
import { filesUnder, putInPlace, templatesFolder } from "../build.ts";
import { uninterrupted } from "../uninterrupted.ts";
import { NotWritten } from "../writeSafely.ts";

/** A file to be written, by its path within the folder. */
export type NewFile = readonly [path: string, content: string | Uint8Array];

const sumsName = "SHA256SUMS.txt";
export const sha256 = (content: string | Uint8Array): string => createHash("sha256").update(content).digest("hex");

/** What has the name of a folder that is to be made. */
type Present = "nothing" | "empty" | "folder";

/** Throws NotWritten where a folder cannot stand there. */
export function presentAt(out: string): Present {
  try {
    const above = lstatSync(dirname(resolve(out)), { throwIfNoEntry: false });
    if (!above?.isDirectory()) throw new Error(above ? "that is no folder" : "it is not there; make it first");
  } catch (error) {
    throw new NotWritten(`--out is “${out}”, but the folder above it cannot be used: ${reasonOf(error)}`, {
      cause: error,
    });
  }
  const there = lstatSync(out, { throwIfNoEntry: false });
  if (there === undefined) return "nothing";
  if (!there.isDirectory()) throw new NotWritten(`--out is “${out}”, which is there already and is no folder`);
  return readdirSync(out).length === 0 ? "empty" : "folder";
}

const nameIn = (folder: string, path: string): string => path.slice(folder.length + 1).replaceAll("\\", "/");

/** A line for each file of a folder, as sha256sum writes and reads them. */
function sumsOf(folder: string): string {
  const lines = [...filesUnder(folder)].map((path) => `${sha256(readFileSync(path))}  ${nameIn(folder, path)}\n`);
  return lines.sort((a, b) => (a.slice(66) < b.slice(66) ? -1 : 1)).join("");
}

/** Files that desktops leave in every folder which they show. */
const ofDesktops: ReadonlySet<string> = new Set([".DS_Store", "Thumbs.db", "desktop.ini"]);

/**
 * What stands in a folder that this command made and is not as it made it: files that were put there, such as a pinned
 * version below it or the server's settings, and files that were changed. A folder of which all is new is named once.
 */
export function notOfCommand(folder: string, record: string): readonly string[] {
  const list = join(folder, sumsName);
  const made = new Map(
    (existsSync(list) ? readFileSync(list, "utf8") : "")
      .split("\n")
      .filter((line) => line !== "")
      .map((line) => [line.slice(66), line.slice(0, 64)] as const),
  );
  const folders = new Set([...made.keys()].flatMap((name) => name.split("/").slice(0, -1)[0] ?? []));
  const found = [...filesUnder(folder)].flatMap((path): readonly string[] => {
    const name = nameIn(folder, path);
    if (name === sumsName || name === record || ofDesktops.has(name.split("/").at(-1)!)) return [];
    const hash = made.get(name);
    if (hash !== undefined) return hash === sha256(readFileSync(path)) ? [] : [`${name} (changed)`];
    const [top = name, ...below] = name.split("/");
    return [below.length > 0 && !folders.has(top) ? `${top}/` : name];
  });
  return [...new Set(found)];
}

/**
 * Makes a folder of the built pages and new files, which go before those; and a list of hashes. Templates that stand
 * beside the built pages are left out: they belong to a trial or to another office. The folder is made beside its place
 * and put there whole. `mayReplace` looks at the place just before that and throws where it must stay. Throws
 * NotWritten, or what `mayReplace` throws; then the place is as it was.
 */
export function writeFolder(out: string, built: string, files: readonly NewFile[], mayReplace: () => void): void {
  const place = resolve(out);
  const next = join(dirname(place), `.kernbook-${randomBytes(6).toString("hex")}.part`);
  uninterrupted(() => {
    try {
      const others = join(built, templatesFolder);
      cpSync(built, next, { recursive: true, filter: (from) => from !== others });
      for (const [path, content] of files) {
        mkdirSync(dirname(join(next, path)), { recursive: true });
        writeFileSync(join(next, path), content);
      }
      writeFileSync(join(next, sumsName), sumsOf(next));
      mayReplace();
      putInPlace(next, place);
    } catch (error) {
      if (error instanceof NotWritten || error instanceof Refused) throw error;
      throw new NotWritten(`${out} could not be written: ${reasonOf(error)}`, { cause: error });
    } finally {
      rmSync(next, { recursive: true, force: true });
    }
  });
}
