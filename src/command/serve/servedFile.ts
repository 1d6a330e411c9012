import { setTimeout as wait } from "node:timers/promises";
import { folderFile, type FolderFile } from "./folderFile.ts";
import { buildIn } from "./rebuilt.ts";

/** A new build takes the place of the old one in two steps; this long a request waits for the second. */
const swapMilliseconds = 2000;
const swapPause = 25;

/**
 * A file of the build that is in the folder; undefined where that build has none. What is missing because a new build
 * took the old one's place meanwhile is looked for again.
 */
export async function servedFile(folder: string, address: string, read = folderFile): Promise<FolderFile | undefined> {
  const until = Date.now() + swapMilliseconds;
  for (;;) {
    const build = buildIn(folder);
    const file = build === undefined ? undefined : await read(folder, address);
    const isSame = build !== undefined && build === buildIn(folder);
    if (file !== undefined || isSame || Date.now() > until) return file;
    await wait(swapPause);
  }
}
