import type { ApiSet } from "../../src/hosts/index.ts";

/** What of the spreadsheet program's API is needed and not there, each set once. */
export function missingSets(needed: readonly ApiSet[], supports: (set: string, version: string) => boolean): readonly ApiSet[] {
  return needed.filter(({ set, version }) => !supports(set, version));
}

/** Why Kernbook cannot run here, and what helps. */
export function missingText(missing: readonly ApiSet[]): readonly string[] {
  return [
    "This version of the spreadsheet program cannot run Kernbook.",
    ...missing.map(({ set, version, purpose }) => `It lacks ${set} ${version}, needed for ${purpose}.`),
    "Update the program: a current subscription version on Windows or Mac, or the program on the web, has all of them. Workbooks stay as they are; check sheets keep the values they were saved with.",
  ];
}
