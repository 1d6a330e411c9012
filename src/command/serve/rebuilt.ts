import { statSync } from "node:fs";

/**
 * Which build a folder holds: another number once another folder has taken its place. Undefined while there is none, or
 * none that can be looked at.
 */
export function buildIn(folder: string): number | undefined {
  try {
    const entry = statSync(folder);
    return entry.isDirectory() ? entry.ino : undefined;
  } catch {
    // Whatever keeps the folder from being looked at, the next look comes in a moment.
    return undefined;
  }
}

/** Says when a new build has taken the place of the old one, as long as the program runs; holds up its end in no other way. */
export function sayWhenRebuilt(folder: string, say: (text: string) => void, every = 1000): NodeJS.Timeout {
  let now = buildIn(folder);
  const timer = setInterval(() => {
    const next = buildIn(folder);
    if (next === undefined || next === now) return;
    now = next;
    say("The pages were built anew and are served from now on. Reload open pages to see them.");
  }, every);
  return timer.unref();
}
