import { defineConfig } from "vitest/config";

/** Everything that needs no browser. The browser's own tests stand in tests/browser. */
export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    setupFiles: ["tests/property/draws.ts"],
    exclude: ["tests/browser/**"],
    // More files at once than this only crowd a machine of two cores.
    maxWorkers: 2,
    // Whole sheets are built many times over; on a busy machine that takes its time.
    testTimeout: 120_000,
    hookTimeout: 180_000,
  },
});
