/** Runs every check of the project, reports each, and ends with `N passed, N failed`. */
import { spawn } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { buildIfStale, root } from "../src/command/build.ts";

interface Count {
  readonly passed: number;
  readonly failed: number;
}
const onePassed: Count = { passed: 1, failed: 0 };
const oneFailed: Count = { passed: 0, failed: 1 };

function tool(path: string, ...args: readonly string[]): Promise<boolean> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [join(root, "node_modules", path), ...args], {
      cwd: root,
      stdio: ["ignore", "inherit", "inherit"],
    });
    child.on("error", reject);
    child.on("exit", (code) => resolve(code === 0));
  });
}

async function types(): Promise<Count> {
  // The core first, with its own narrower library: what compiles with the DOM may not compile without it.
  const core = await tool("typescript/bin/tsc", "-p", "src/core");
  const all = await tool("typescript/bin/tsc", "-p", ".");
  return core && all ? onePassed : oneFailed;
}

async function lint(): Promise<Count> {
  return (await tool("eslint/bin/eslint.js", ".")) ? onePassed : oneFailed;
}

async function build(): Promise<Count> {
  await buildIfStale((text) => console.log(text));
  return onePassed;
}

interface VitestReport {
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly testResults: readonly { readonly status: string; readonly assertionResults: readonly unknown[] }[];
}

/** Runs vitest and counts its tests; a file that could not be loaded counts as one failure, and so does an error outside the tests. */
async function tests(name: string, ...args: readonly string[]): Promise<Count> {
  const report = join(root, ".cache", `${name}.json`);
  mkdirSync(join(root, ".cache"), { recursive: true });
  rmSync(report, { force: true });
  const ok = await tool(
    "vitest/vitest.mjs",
    "run",
    ...args,
    "--reporter=default",
    "--reporter=json",
    `--outputFile.json=${report}`,
  );
  if (!existsSync(report)) return oneFailed;
  const { numPassedTests, numFailedTests, testResults } = JSON.parse(readFileSync(report, "utf8")) as VitestReport;
  const unread = testResults.filter(
    ({ status, assertionResults }) => status === "failed" && assertionResults.length === 0,
  ).length;
  const failed = numFailedTests + unread;
  return { passed: numPassedTests, failed: ok ? failed : Math.max(failed, 1) };
}

const parts: readonly (readonly [string, () => Promise<Count>])[] = [
  ["types", types],
  ["lint", lint],
  ["calculations, contract, plan", () => tests("node")],
  ["build", build],
  ["browser", () => tests("browser", "--config", "tests/browser/vitest.config.ts")],
];

const results: { readonly name: string; readonly count: Count; readonly seconds: number }[] = [];
for (const [name, run] of parts) {
  console.log(`\n━━ ${name} ━━`);
  const began = Date.now();
  const count = await run().catch((error: unknown) => {
    console.error(error instanceof Error ? error.message : error);
    return oneFailed;
  });
  results.push({ name, count, seconds: (Date.now() - began) / 1000 });
}

console.log("\n━━ summary ━━");
for (const { name, count, seconds } of results)
  console.log(
    `${count.failed === 0 ? "✓" : "✗"} ${name}: ${count.passed} passed, ${count.failed} failed (${seconds.toFixed(0)} s)`,
  );
const passed = results.reduce((sum, { count }) => sum + count.passed, 0);
const failed = results.reduce((sum, { count }) => sum + count.failed, 0);
process.exitCode = failed === 0 ? 0 : 1;
console.log(`${passed} passed, ${failed} failed`);
