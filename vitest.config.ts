import { readdirSync } from "node:fs";
import { join } from "node:path";
import { defineConfig } from "vitest/config";

/** What `npm run check` runs of the quick tests. */
export const innerLoop = ["tests/unit/", "tests/contract/", "tests/published/"];

const within = (folders: readonly string[]) => (file: string) =>
  folders.some((folder) => file.startsWith(`tests/${folder}`));

/** Starts programs, or changes what all tests of a process see: each such file has a process of its own. */
const apart = within([
  "unit/command/",
  "unit/functions/bundle",
  "unit/reference/pages",
  "hosts/blanks",
  "hosts/excel.test",
  "hosts/grid.test",
]);
/** Builds whole sheets. */
const sheets = within([
  "cells/",
  "checker/",
  "confusion/",
  "draws/",
  "fuzz/",
  "hosts/",
  "mutation/",
  "plan/",
  "unit/panel/insertBlock",
  "unit/panel/traceOfSheet",
]);
const files = readdirSync(join(import.meta.dirname, "tests"), { recursive: true, encoding: "utf8" })
  .map((file) => `tests/${file.replaceAll("\\", "/")}`)
  .filter((file) => file.endsWith(".test.ts") && !file.startsWith("tests/browser/"));

const shared = {
  setupFiles: ["tests/property/draws.ts"],
  // More files at once than this only crowd a machine of two cores.
  maxWorkers: 2,
  // Whole sheets are built; on a busy machine that takes its time.
  testTimeout: 120_000,
  hookTimeout: 180_000,
};

/** Everything that needs no browser. The browser's own tests stand in tests/browser. */
export default defineConfig({
  test: {
    maxWorkers: shared.maxWorkers,
    // Tests that leave nothing behind share one loaded program: loading it takes longer than most of them.
    projects: [
      { test: { ...shared, name: "apart", include: files.filter(apart) } },
      {
        test: {
          ...shared,
          name: "sheets",
          include: files.filter((file) => sheets(file) && !apart(file)),
          isolate: false,
        },
      },
      {
        test: {
          ...shared,
          name: "quick",
          include: files.filter((file) => !sheets(file) && !apart(file)),
          isolate: false,
        },
      },
    ],
  },
});
