import { readdirSync } from "node:fs";
import { join } from "node:path";
import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/** What `npm run check` runs of the quick tests. */
export const innerLoop = ["tests/unit/", "tests/contract/", "tests/published/"];

/** Take about twenty seconds and more each on a machine at rest, the longest first. */
const longest = [
  "hosts/conformance",
  "unit/sheet/lint",
  "checker/whatIf",
  "checker/keepTemplate",
  "plan/conflicts",
  "draws/draws",
  "checker/linked",
  "cells/calculateSheets",
  "hosts/xlsx",
  "hosts/eval",
  "hosts/circle",
  "hosts/givenNames",
  "checker/noFalseAlarm",
  "fuzz/bounds",
  "checker/compareExcel",
  "plan/linked",
  "checker/handOut",
  "checker/traceTemplates",
  "hosts/openWorkbook",
  "unit/panel/traceOfSheet",
  "equation/equation",
  "fuzz/longRanges",
  "hosts/excelFaults",
  "hosts/selfContained",
  "checker/quickStart",
];

const within = (folders: readonly string[]) => (file: string) =>
  folders.some((folder) => file.startsWith(`tests/${folder}`));

/**
 * Ends or kills programs, changes what all tests of a process see, or loads every template at once: each such file has a
 * process of its own.
 */
const apart = within([
  "unit/command/build",
  "unit/command/pages",
  "unit/command/sheet",
  "unit/command/writeSafely",
  "unit/functions/bundle",
  "unit/reference/pages",
  "hosts/blanks",
  "hosts/excel.test",
  "hosts/grid.test",
]);
/** Build whole sheets; they and the other tests of those folders begin first, so that none is left alone at the end. */
const sheets = within(["checker/", "cells/", "plan/", "hosts/", "draws/", "unit/sheet/lint"]);
const files = readdirSync(join(import.meta.dirname, "tests"), { recursive: true, encoding: "utf8" })
  .map((file) => `tests/${file.replaceAll("\\", "/")}`)
  .filter((file) => file.endsWith(".test.ts") && !file.startsWith("tests/browser/"));

/**
 * The longest first, so that two workers end together. Files of one kind follow one another: a process that shares its
 * loaded program lives on only if the next file is of its kind.
 */
class LongestFirst extends BaseSequencer {
  override async sort(specs: TestSpecification[]): Promise<TestSpecification[]> {
    const order = (file: string): number => {
      const own = file.slice(import.meta.dirname.length + 1).replaceAll("\\", "/");
      if (apart(own)) return 0;
      const at = longest.findIndex((one) => own === `tests/${one}.test.ts`);
      if (at >= 0) return 1 + at;
      return longest.length + (sheets(own) ? 1 : 2);
    };
    // By size where nothing else is known.
    const bySize = await super.sort(specs);
    return bySize
      .map((spec) => ({ spec, order: order(spec.moduleId) }))
      .sort((a, b) => a.order - b.order)
      .map(({ spec }) => spec);
  }
}

const shared = {
  setupFiles: ["tests/property/draws.ts", "tests/kept.ts"],
  // More files at once than this only crowd a machine of two cores.
  maxWorkers: 2,
  // A sheet takes tens of megabytes while it is worked out, and nearly all of that is forgotten with the next one. Two
  // workers leave no processor to helpers of the garbage collector, which only get into one another's way.
  // What tests of a process keep comes near the usual limit of its memory, and slows it down there.
  execArgv: ["--max-semi-space-size=192", "--single-threaded-gc", "--max-old-space-size=6144"],
  // Whole sheets are built; on a busy machine that takes its time.
  testTimeout: 300_000,
  hookTimeout: 300_000,
};

/** Everything that needs no browser. The browser's own tests stand in tests/browser. */
export default defineConfig({
  test: {
    maxWorkers: shared.maxWorkers,
    // What a file became when it was last read, by its content: the second project need not read it again, nor the next run.
    experimental: { fsModuleCache: true, fsModuleCachePath: join(import.meta.dirname, ".cache", "vitest") },
    sequence: { sequencer: LongestFirst },
    // Tests that leave nothing behind share one loaded program: loading it takes longer than most of them.
    projects: [
      { test: { ...shared, name: "apart", include: files.filter(apart) } },
      { test: { ...shared, name: "together", include: files.filter((file) => !apart(file)), isolate: false } },
    ],
  },
});
