import { readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { dist } from "../../src/command/build.ts";

/** At most so much loads before the add-in's panel can be used: the page with functions and panel, gzipped, in kB. */
export const mostFirst = 150;

/** A built file as a server sends it, in kB. */
export const zipped = (name: string): number => gzipSync(readFileSync(join(dist, name)), { level: 9 }).length / 1000;

/** A page with the scripts and styles of ours that it names. */
export function namedBy(page: string): readonly string[] {
  const text = readFileSync(join(dist, page), "utf8");
  const named = [...text.matchAll(/(?:src|href)="([^"]+\.(?:js|css))"/g)].map((found) => found[1]!);
  return [page, ...named.filter((name) => !name.includes("://"))];
}

export const sum = (names: readonly string[]): number => names.reduce((total, name) => total + zipped(name), 0);
