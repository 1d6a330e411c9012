import { defineConfig } from "vitest/config";

/** Two files at once, each with a browser of its own on the built pages. */
export default defineConfig({
  test: {
    root: import.meta.dirname,
    include: ["**/*.test.ts"],
    maxWorkers: 2,
    testTimeout: 300_000,
    hookTimeout: 300_000,
    // What the page tells follows the grid by moments, and by many of them on a busy machine.
    expect: { poll: { timeout: 45_000 } },
  },
});
