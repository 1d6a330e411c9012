import { randomBytes } from "node:crypto";
import {
  chmodSync,
  closeSync,
  fsyncSync,
  linkSync,
  lstatSync,
  openSync,
  readlinkSync,
  renameSync,
  rmSync,
  writeFileSync,
  type Stats,
} from "node:fs";
import { dirname, join } from "node:path";
import { reasonOf } from "../core/index.ts";
import { uninterrupted } from "./uninterrupted.ts";

/** A file that could not be written; what was there before is as it was. */
export class NotWritten extends Error {
  override readonly name = "NotWritten";
}

/** What has the name now, if anything; a link is looked at itself, not what it leads to. */
function present(path: string): Stats | undefined {
  try {
    return lstatSync(path, { throwIfNoEntry: false });
  } catch (error) {
    throw new NotWritten(`${path} could not be written: ${reasonOf(error)}`, { cause: error });
  }
}

/** Refuses a name that a file has already, unless it may be replaced; a link or a folder never is. */
export function checkFree(path: string, force: boolean): Stats | undefined {
  const there = present(path);
  if (there === undefined) return undefined;
  if (there.isSymbolicLink())
    throw new NotWritten(`${path} is a link to ${readlinkSync(path)}; give the name of the file itself`);
  if (!there.isFile()) throw new NotWritten(`${path} is there already and is no file; give another name`);
  if (!force) throw new NotWritten(`${path} is there already; --force replaces it`);
  return there;
}

/** Writes a new file and waits until the disk has it: a name must not point to what a power cut could take. */
function writeThrough(path: string, bytes: Uint8Array): void {
  const file = openSync(path, "wx");
  try {
    writeFileSync(file, bytes);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** Disks that know no second name for a file. */
const noLinks: ReadonlySet<string | undefined> = new Set(["EPERM", "ENOTSUP", "EOPNOTSUPP", "ENOSYS", "EMLINK"]);

/**
 * Gives a file its name where no other has it; one that came there in the meantime stays. The file is written then: a
 * first name that cannot be removed is given back in words, to be told.
 */
export function takeFreeName(
  beside: string,
  path: string,
  remove = (name: string) => rmSync(name),
): string | undefined {
  try {
    linkSync(beside, path);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === "EEXIST") throw new NotWritten(`${path} is there already; --force replaces it`, { cause: error });
    if (!noLinks.has(code)) throw error;
    renameSync(beside, path);
    return undefined;
  }
  try {
    remove(beside);
    return undefined;
  } catch (error) {
    return `${path} is written; ${beside} is left over and could not be removed: ${reasonOf(error)}`;
  }
}

/** Told beside what the command says. */
function onErrors(text: string): void {
  process.stderr.write(`${text}\n`);
}

/**
 * Writes a file whole or not at all: to a file of another, short name beside it, which then takes its name. A replaced
 * file passes on its permissions. Throws NotWritten; then nothing is left behind. What is left over of a file that was
 * written is told by `note`.
 */
export function writeSafely(path: string, bytes: Uint8Array, force: boolean, note = onErrors): void {
  const beside = join(dirname(path), `.kernbook-${randomBytes(6).toString("hex")}.part`);
  uninterrupted(() => {
    try {
      writeThrough(beside, bytes);
      const replaced = checkFree(path, force);
      if (replaced) {
        chmodSync(beside, replaced.mode & 0o7777);
        renameSync(beside, path);
        return;
      }
      const left = takeFreeName(beside, path);
      if (left !== undefined) note(left);
    } catch (error) {
      rmSync(beside, { force: true });
      if (error instanceof NotWritten) throw error;
      throw new NotWritten(`${path} could not be written: ${reasonOf(error)}`, { cause: error });
    }
  });
}
