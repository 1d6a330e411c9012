/**
 * Puts small mistakes into the core, one at a time, and looks whether a test notices: `npm run mutate`, or `npm run
 * mutate -- formulas/friction read.ts`
 * for files whose path holds one of the words. `--ranges` takes bounds and everyday ranges of declarations too,
 * `--fresh` forgets earlier runs.
 * `--every 4` takes one mutant in four, for a first look; `--minutes 20` ends the look after so long, whatever is left:
 * mutants are tried in an order that soon has some of every file. What was killed stays so until its file changes (kept
 * in .cache/mutation.json). Ends with 1 below `--least` per cent (90).
 */
import { parseArgs } from "node:util";
import { bundle, coreFiles, type MutantInFile } from "./bundle.ts";
import { Worker } from "./pool.ts";
import { Records } from "./records.ts";
import type { Seen } from "./worker.ts";

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    ranges: { type: "boolean", default: false },
    fresh: { type: "boolean", default: false },
    workers: { type: "string", default: "2" },
    every: { type: "string", default: "1" },
    least: { type: "string", default: "90" },
    minutes: { type: "string", default: "Infinity" },
  },
});
const files = coreFiles(positionals);
if (files.length === 0) {
  console.error(`mutate: no file of src/core has ${positionals.join(" or ")} in its path`);
  process.exit(2);
}

/** For one mutant, milliseconds of computing by tests that go on passing: beyond it counts as survived. */
const most = 20_000;

const { code, mutants } = await bundle(files, { every: Number(values.every), ranges: values.ranges });
console.log(`${mutants.length} mutants in ${files.length} files; running every test once without any`);
const workers = Array.from({ length: Number(values.workers) }, () => new Worker(code));
const watched = await workers[0]!.ask({ watch: true }, 1_800_000);
if (!watched || !("seen" in watched)) throw new Error("the tests could not be run without a mutant");
const { seen, atLoading } = watched;
if (seen.length === 0) throw new Error("there are no tests in the bundle");
const failing = seen.filter(({ failed }) => failed);
for (const { name } of failing) console.log(`  left out, since it fails without a mutant: ${name}`);

const loading = new Set(atLoading);
const fileOf = new Map(mutants.map(({ id, file }) => [id, file]));
const usable = seen.map((test, at) => ({ ...test, at })).filter(({ failed }) => !failed);
const byTime = (list: readonly (Seen & { readonly at: number })[]): readonly number[] =>
  [...list].sort((a, b) => a.ms - b.ms).map(({ at }) => at);
const meetsFile = new Map<string, readonly number[]>();
for (const file of new Set(mutants.map((m) => m.file)))
  meetsFile.set(file, byTime(usable.filter(({ met }) => met.some((id) => fileOf.get(id) === file))));
const meets = new Map<number, (Seen & { readonly at: number })[]>();
for (const test of usable) for (const id of test.met) meets.set(id, [...(meets.get(id) ?? []), test]);
const everyTest = byTime(usable);

/** The tests that can notice: those that meet the mutant; for what is read once, those that meet its file, then all others. */
function testsFor({ id, file }: MutantInFile): readonly number[] {
  const own = byTime(meets.get(id) ?? []);
  const isShared = !file.includes("/formulas/");
  if (!loading.has(id) && !isShared) return own;
  const near = meetsFile.get(file) ?? [];
  return [...new Set([...own, ...near, ...everyTest])];
}

/** How long a mutant's tests may take until they count as never ending: ten times what they took without it. */
function patience(tests: readonly number[]): number {
  const times = tests.map((at) => seen[at]!.ms);
  const sum = times.reduce((all, ms) => all + ms, 0);
  return 20_000 + 10 * Math.min(sum, most + Math.max(...times));
}

const records = new Records(values.fresh);
/** In an order of which every beginning is spread over the whole list, by the golden section. */
const waiting = mutants
  .map((mutant, i) => ({ mutant, at: (i * (Math.sqrt(5) - 1)) % 2 }))
  .sort((a, b) => a.at - b.at)
  .flatMap(({ mutant }) => (records.isKilled(mutant) ? [] : mutant));
const until = performance.now() + Number(values.minutes) * 60_000;
console.log(`${seen.length} tests; ${mutants.length - waiting.length} mutants were killed in an earlier run`);
let done = 0;
await Promise.all(
  workers.map(async (worker) => {
    for (let mutant = waiting.shift(); mutant && performance.now() < until; mutant = waiting.shift()) {
      const tests = testsFor(mutant);
      if (tests.length === 0) records.note(mutant, "not met");
      else {
        const answer = await worker.ask({ mutant: mutant.id, tests, most }, patience(tests));
        if (!answer) records.note(mutant, "never ends");
        else if ("killedBy" in answer) records.note(mutant, answer.killedBy === null ? "survived" : "killed");
      }
      if (++done % 25 === 0) {
        records.save();
        console.log(`  ${done} tried, ${waiting.length} to go`);
      }
    }
    worker.end();
  }),
);
records.save();

const score = records.report(mutants);
process.exitCode = score >= Number(values.least) ? 0 : 1;
