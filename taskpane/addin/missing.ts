import type { RequiredSet } from "../../src/hosts/index.ts";

/** What of the spreadsheet program's API is needed and not there, each set once. */
export function missingSets(
  needed: readonly RequiredSet[],
  supports: (set: string, version: string) => boolean,
): readonly RequiredSet[] {
  return needed.filter(({ set, version }) => !supports(set, version));
}

/** Why Kernbook cannot run here, and what helps. */
export function missingText(missing: readonly RequiredSet[]): readonly string[] {
  return [
    "This version of the spreadsheet program cannot run Kernbook.",
    ...missing.map(
      ({ set, version, since, purpose }) =>
        `It lacks ${set} ${version}, needed for ${purpose}. It came with version ${since.windows} of the ` +
        `subscription on Windows and ${since.mac} on a Mac.`,
    ),
    "Update the program. The program on the web and the perpetual edition of 2021 or later on Windows " +
      "have all that is needed; an iPad has not. Workbooks stay as they are; check sheets keep the values " +
      "they were saved with.",
  ];
}
