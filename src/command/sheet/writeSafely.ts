import { reasonOf } from "../../core/index.ts";
import { existsSync, renameSync, rmSync, writeFileSync } from "node:fs";

/** A file that could not be written; what was there before is as it was. */
export class NotWritten extends Error {
  override readonly name = "NotWritten";
}

/** Refuses a file that is there already, unless it may be replaced. */
export function checkFree(path: string, force: boolean): void {
  if (!force && existsSync(path)) throw new NotWritten(`${path} is there already; --force replaces it`);
}

/** Writes a file whole or not at all: to another file beside it, which then takes its name. */
export function writeSafely(path: string, bytes: Uint8Array, force: boolean): void {
  const beside = `${path}.${process.pid}.part`;
  try {
    writeFileSync(beside, bytes, { flag: "wx" });
    checkFree(path, force);
    renameSync(beside, path);
  } catch (error) {
    rmSync(beside, { force: true });
    if (error instanceof NotWritten) throw error;
    throw new NotWritten(`${path} could not be written: ${reasonOf(error)}`, { cause: error });
  }
}
