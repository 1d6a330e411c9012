import { constants } from "node:fs";
import { open, realpath } from "node:fs/promises";
import { join, normalize, sep } from "node:path";

/** A file as it was at one moment: size and content belong together, whatever happens to the file afterwards. */
export interface FolderFile {
  readonly content: Buffer;
  readonly path: string;
}

/** Errors that say that there is no such file, and no more. */
const absent: ReadonlySet<string | undefined> = new Set(["ENOENT", "ENOTDIR", "EISDIR", "ENAMETOOLONG", "ELOOP"]);
const codeOf = (error: unknown): string | undefined =>
  error instanceof Error ? (error as NodeJS.ErrnoException).code : undefined;

/** A pipe would keep whoever opens it waiting for somebody to write; Windows has neither. */
const withoutWaiting = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0);

/** Part of an address as a path below a folder; undefined where it leads out of it or to a hidden file. */
function pathBelow(folder: string, address: string): string | undefined {
  const path = normalize(join(folder, address.endsWith("/") ? `${address}index.html` : address));
  if (address.includes("\0") || !path.startsWith(folder + sep)) return undefined;
  const hidden = path
    .slice(folder.length)
    .split(sep)
    .some((part) => part.startsWith("."));
  return hidden ? undefined : path;
}

/** Whether a path, links followed, is still in the folder, and not hidden there. */
async function isWithin(folder: string, path: string): Promise<boolean> {
  const [real, there] = await Promise.all([realpath(folder), realpath(path)]);
  return there.startsWith(real + sep) && pathBelow(real, there.slice(real.length)) === there;
}

/**
 * Reads a file of a folder whole; undefined where there is none, or a link that leads out of the folder. Rejects where
 * it is there and can't be read.
 */
export async function folderFile(folder: string, address: string): Promise<FolderFile | undefined> {
  const path = pathBelow(folder, address);
  if (path === undefined) return undefined;
  try {
    if (!(await isWithin(folder, path))) return undefined;
    const file = await open(path, withoutWaiting);
    try {
      if (!(await file.stat()).isFile()) return undefined;
      return { content: await file.readFile(), path };
    } finally {
      await file.close();
    }
  } catch (error) {
    if (absent.has(codeOf(error))) return undefined;
    throw error;
  }
}
