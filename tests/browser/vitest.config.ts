import { defineConfig } from "vitest/config";

/** One browser, one file after the other: each file starts its own browser on the built pages. */
export default defineConfig({
  test: {
    root: import.meta.dirname,
    include: ["**/*.test.ts"],
    maxWorkers: 1,
    fileParallelism: false,
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
