/**
 * Runs every check of the project, reports each, and ends with `N passed, N failed`. With `--quick` only what the
 * inner loop needs: types, lint, units,
 * contract and published checks, with what earlier runs have found out about files that have not changed.
 */
import { spawn } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { constants, setPriority } from "node:os";
import { join } from "node:path";
import { buildIfStale, root } from "../src/command/build.ts";
import { innerLoop } from "../vitest.config.ts";

interface Count {
  readonly passed: number;
  readonly failed: number;
}
const onePassed: Count = { passed: 1, failed: 0 };
const oneFailed: Count = { passed: 0, failed: 1 };

const quick = process.argv.includes("--quick");
const cache = join(root, ".cache");

const compiler = "typescript/bin/tsc";
const linter = "eslint/bin/eslint.js";
const formatter = "prettier/bin/prettier.cjs";
const loader = join("node_modules", "tsx/dist/cli.mjs");
const readsCode = join("tests", "readCode.ts");
const readers: ReadonlySet<string> = new Set([
  ...[compiler, linter, formatter].map((path) => join("node_modules", path)),
  loader,
]);

/** How a program ended; null where it was stopped. */
function ended(path: string, ...args: readonly string[]): Promise<number | null> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [join(root, path), ...args], {
      cwd: root,
      stdio: ["ignore", "inherit", "inherit"],
    });
    // What only reads the code fills the pauses of the tests, which wait for pages and for one another's end.
    if (!quick && readers.has(path) && child.pid !== undefined)
      setPriority(child.pid, constants.priority.PRIORITY_BELOW_NORMAL);
    child.on("error", reject);
    child.on("exit", (code) => resolve(code));
  });
}

const tool = async (path: string, ...args: readonly string[]): Promise<boolean> =>
  (await ended(join("node_modules", path), ...args)) === 0;

/** What the compiler knows of unchanged files holds for certain: it keeps what each depends on. */
const compile = (project: string, name: string): Promise<boolean> =>
  tool(compiler, "-p", project, "--incremental", "--tsBuildInfoFile", join(cache, `${name}.tsbuildinfo`));

/** The core by itself, with its own narrower library: what compiles with the DOM may not compile without it. */
const coreTypes = async (): Promise<Count> => ((await compile("src/core", "core")) ? onePassed : oneFailed);

const types = async (): Promise<Count> => ((await compile(".", "all")) ? onePassed : oneFailed);

/** What eslint says of a file may depend on the types of others: only the inner loop trusts what it has kept. */
async function lint(): Promise<Count> {
  const kept = ["--cache", "--cache-strategy", "content", "--cache-location", join(cache, "eslint.json")];
  return (await tool(linter, ".", ...kept)) ? onePassed : oneFailed;
}

/** Types and lint, each a check, from one reading of the code. */
async function typesAndLint(): Promise<Count> {
  const code = await ended(loader, readsCode);
  const failed = code === 0 ? 0 : code === 1 || code === 2 ? 1 : 2;
  return { passed: 2 - failed, failed };
}

/** How a file is to be formatted depends on that file alone. */
async function format(): Promise<Count> {
  const kept = ["--cache", "--cache-strategy", "content", "--cache-location", join(cache, "prettier.json")];
  return (await tool(formatter, "--check", "--log-level", "warn", ".", ...kept)) ? onePassed : oneFailed;
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
  const report = join(cache, `${name}.json`);
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

type Part = readonly [name: string, run: () => Promise<Count>];

const core: Part = ["types of the core", coreTypes];
const typed: Part = ["types", types];
const linted: Part = ["lint", lint];
const formatted: Part = ["format", format];
const read: Part = ["types and lint", typesAndLint];
const pages: Part = ["build", build];
const node: Part = ["calculations, contract, plan", () => tests("node")];
const browser: Part = ["browser", () => tests("browser", "--config", "tests/browser/vitest.config.ts")];
const inner: Part = ["units, contract, published", () => tests("quick", "--project", "together", ...innerLoop)];

const results: { readonly name: string; readonly count: Count; readonly seconds: number }[] = [];

async function run([name, part]: Part): Promise<void> {
  console.log(`\n━━ ${name} ━━`);
  const began = Date.now();
  const count = await part().catch((error: unknown) => {
    console.error(error instanceof Error ? error.message : error);
    return oneFailed;
  });
  results.push({ name, count, seconds: (Date.now() - began) / 1000 });
}

mkdirSync(cache, { recursive: true });
// What vitest keeps of files as they once were never goes: at many times what a run needs it begins anew.
const transformed = join(cache, "vitest");
if (existsSync(transformed) && readdirSync(transformed).length > 20_000) rmSync(transformed, { recursive: true });
async function inTurn(parts: readonly Part[]): Promise<void> {
  for (const part of parts) await run(part);
}
if (quick) {
  // Each of these takes one processor, and both about the same time; the tests take what there is.
  await Promise.all([inTurn([core, typed]), inTurn([linted, formatted])]);
  await run(inner);
} else {
  // Only the browser needs the pages. What reads the code gives way to the tests and takes what they leave.
  const built = run(pages);
  await Promise.all([
    built.then(() => inTurn([core, read, formatted])),
    Promise.all([built, run(node)]).then(() => run(browser)),
  ]);
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
