import { readdirSync } from "node:fs";
import { join } from "node:path";
import { defineConfig } from "vitest/config";

/** What `npm run check` runs of the quick tests. */
export const innerLoop = ["tests/unit/", "tests/contract/", "tests/published/"];

const quickFolders = ["unit", "property", "contract", "published", "equation", "lint", "manifest"];
/** Of those folders, what builds sheets or starts programs. */
const slow = [
  "unit/command/",
  "unit/functions/bundle",
  "unit/panel/insertBlock",
  "unit/panel/traceOfSheet",
  "unit/reference/pages",
].map((name) => `tests/${name}`);

/** Tests that leave nothing behind share one loaded program: loading it takes longer than most of them. */
const quick = readdirSync(join(import.meta.dirname, "tests"), { recursive: true, encoding: "utf8" })
  .map((file) => `tests/${file.replaceAll("\\", "/")}`)
  .filter(
    (file) =>
      file.endsWith(".test.ts") &&
      quickFolders.some((folder) => file.startsWith(`tests/${folder}/`)) &&
      !slow.some((name) => file.startsWith(name)),
  );

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
    projects: [
      {
        test: { ...shared, name: "sheets", include: ["tests/**/*.test.ts"], exclude: ["tests/browser/**", ...quick] },
      },
      { test: { ...shared, name: "quick", include: quick, isolate: false } },
    ],
  },
});
