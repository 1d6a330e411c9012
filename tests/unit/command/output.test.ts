import { spawn } from "node:child_process";
import { closeSync, existsSync, openSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { root } from "../../../src/command/build.ts";

interface Ended {
  readonly status: number | null;
  readonly complaints: string;
}

/** Runs a command with its output going to a file, or to somebody who reads none of it. */
function ran(command: string, words: readonly string[], output: number | "nobody"): Promise<Ended> {
  const tsx = join(root, "node_modules/tsx/dist/loader.mjs");
  const child = spawn(process.execPath, ["--import", tsx, join(root, "src/command", command), ...words], {
    stdio: ["ignore", output === "nobody" ? "pipe" : output, "pipe"],
  });
  child.stdout?.destroy();
  let complaints = "";
  child.stderr?.on("data", (part: Buffer) => (complaints += part.toString()));
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (status) => resolve({ status, complaints }));
  });
}

const calls = [
  ["functions.ts", []],
  ["sheet.ts", ["--list"]],
  ["eval.ts", ["SUM(1,2)"]],
] as const;

describe("output that cannot be written", () => {
  it.skipIf(!existsSync("/dev/full")).each(calls)(
    "%s says so in a line and ends with 2",
    { timeout: 300_000 },
    async (command, words) => {
      const full = openSync("/dev/full", "w");
      try {
        const { status, complaints } = await ran(command, words, full);
        expect(complaints).toMatch(/^The output could not be written: [^\n]*\.\n$/);
        expect(status).toBe(2);
      } finally {
        closeSync(full);
      }
    },
  );

  it.each([
    ["functions.ts", [], 0],
    ["eval.ts", ["KERN.NO_SUCH(1)"], 1],
  ] as const)(
    "%s that nobody reads ends quietly, with the status of its work",
    { timeout: 300_000 },
    async (command, words, expected) => {
      expect(await ran(command, words, "nobody")).toEqual({ status: expected, complaints: "" });
    },
  );
});
