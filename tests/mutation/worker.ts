/**
 * Tries mutants one after another for `command.ts`. Every mutant gets an evaluation of core and tests of its own, so
 * that tables and what is kept
 * from call to call are made under it too. A mutant that never ends is ended by the command.
 */
import { createRequire } from "node:module";
import fc from "fast-check";
import type { GatheredTest } from "./harness.ts";
import { Switches } from "./switches.ts";

/** One test, what it met and how long it took without a mutant. */
export interface Seen {
  readonly name: string;
  readonly failed: boolean;
  readonly ms: number;
  readonly met: readonly number[];
}
export type Order =
  | { readonly code: string }
  | { readonly watch: true }
  | { readonly mutant: number; readonly tests: readonly number[]; readonly most: number };
export type Answer =
  | { readonly ready: true }
  | { readonly seen: readonly Seen[]; readonly atLoading: readonly number[] }
  | { readonly killedBy: string | null; readonly tried: number };

// The same draws with and without a mutant, so that a failure is the mutant's doing. The first counterexample is
// enough: no time for a smaller one.
fc.configureGlobal({ endOnFailure: true, seed: 1992 });
const require = createRequire(import.meta.url);

let code = "";

function evaluate(mutants: Switches): readonly GatheredTest[] {
  const module = { exports: {} as { gathered: readonly GatheredTest[] } };
  // eslint-disable-next-line @typescript-eslint/no-implied-eval
  (new Function("require", "module", "exports", "mutants", code) as (...parts: readonly unknown[]) => void)(
    require,
    module,
    module.exports,
    mutants,
  );
  return module.exports.gathered;
}

async function passes({ run }: GatheredTest): Promise<boolean> {
  try {
    await run();
    return true;
  } catch {
    return false;
  }
}

/** Every test without a mutant. */
async function watch(): Promise<Answer> {
  const mutants = new Switches();
  const atLoading = (mutants.met = new Set());
  const tests = evaluate(mutants);
  const seen: Seen[] = [];
  for (const test of tests) {
    const met = (mutants.met = new Set<number>());
    const from = performance.now();
    const failed = !(await passes(test));
    seen.push({ name: test.name, failed, ms: performance.now() - from, met: [...met] });
  }
  return { seen, atLoading: [...atLoading] };
}

/** Milliseconds that this process has computed; what else the machine does is not in it. */
function computed(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/** The tests in their order until one fails, for no longer than `most` milliseconds of computing. */
async function attempt(mutant: number, wanted: readonly number[], most: number): Promise<Answer> {
  const mutants = new Switches();
  mutants.awake = mutant;
  const until = computed() + most;
  let tests: readonly GatheredTest[];
  try {
    tests = evaluate(mutants);
  } catch (error) {
    return { killedBy: `loading: ${String(error)}`, tried: 0 };
  }
  let tried = 0;
  for (const at of wanted) {
    const test = tests[at];
    tried++;
    if (!test) return { killedBy: "a test that is no longer there", tried };
    if (!(await passes(test))) return { killedBy: test.name, tried };
    if (computed() > until) break;
  }
  return { killedBy: null, tried };
}

process.on("message", (order: Order) => {
  const answer = async (): Promise<Answer> => {
    if ("code" in order) {
      code = order.code;
      return { ready: true };
    }
    return "watch" in order ? watch() : attempt(order.mutant, order.tests, order.most);
  };
  void answer().then((text) => process.send!(text));
});
