import { randomBytes } from "node:crypto";
import { chmodSync, lstatSync, readlinkSync, renameSync, rmSync, writeFileSync, type Stats } from "node:fs";
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

/**
 * Writes a file whole or not at all: to a file of another, short name beside it, which then takes its name. A replaced
 * file passes on its permissions. Throws NotWritten; then nothing is left behind.
 */
export function writeSafely(path: string, bytes: Uint8Array, force: boolean): void {
  const beside = join(dirname(path), `.kernbook-${randomBytes(6).toString("hex")}.part`);
  uninterrupted(() => {
    try {
      writeFileSync(beside, bytes, { flag: "wx" });
      const replaced = checkFree(path, force);
      if (replaced) chmodSync(beside, replaced.mode & 0o7777);
      renameSync(beside, path);
    } catch (error) {
      rmSync(beside, { force: true });
      if (error instanceof NotWritten) throw error;
      throw new NotWritten(`${path} could not be written: ${reasonOf(error)}`, { cause: error });
    }
  });
}
