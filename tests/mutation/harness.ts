/** What the tests import as vitest when mutants are tried: it gathers them, to be run one by one, often, and only those that matter. */
import {
  ASYMMETRIC_MATCHERS_OBJECT,
  chai,
  getState,
  GLOBAL_EXPECT,
  JestAsymmetricMatchers,
  JestChaiExpect,
  JestExtend,
  setState,
} from "@vitest/expect";

export interface GatheredTest {
  readonly name: string;
  readonly run: () => unknown;
}
export const gathered: GatheredTest[] = [];

type Run = (...args: never[]) => unknown;
const groups: string[] = [];

function named(name: string, args: readonly unknown[]): string {
  let used = 0;
  const filled = name.replace(/%[sdijo]/g, () => String(args[used++]));
  return args.length > 0 && used === 0 ? `${name} ${JSON.stringify(args)?.slice(0, 80)}` : filled;
}

const rowOf = (row: unknown): readonly unknown[] => (Array.isArray(row) ? (row as readonly unknown[]) : [row]);

export function it(name: string, ...rest: readonly unknown[]): void {
  const run = rest.find((part) => typeof part === "function") as () => unknown;
  gathered.push({ name: [...groups, name].join(" › "), run });
}
it.each =
  (rows: readonly unknown[]) =>
  (name: string, ...rest: readonly unknown[]): void => {
    const run = rest.find((part) => typeof part === "function") as Run;
    for (const row of rows) it(named(name, rowOf(row)), () => run(...(rowOf(row) as never[])));
  };
export const test = it;

export function describe(name: string, gather: () => void): void {
  groups.push(name);
  gather();
  groups.pop();
}
describe.each =
  (rows: readonly unknown[]) =>
  (name: string, gather: Run): void => {
    for (const row of rows) describe(named(name, rowOf(row)), () => void gather(...(rowOf(row) as never[])));
  };

for (const plugin of [JestExtend, JestChaiExpect, JestAsymmetricMatchers]) chai.use(plugin);

export const expect = Object.assign(
  (value: unknown, message?: string) => chai.expect(value, message),
  chai.expect,
  (globalThis as unknown as Record<symbol, object>)[ASYMMETRIC_MATCHERS_OBJECT],
);
setState(
  {
    ...getState((globalThis as unknown as Record<symbol, never>)[GLOBAL_EXPECT]!),
    assertionCalls: 0,
    isExpectingAssertions: false,
    isExpectingAssertionsError: null,
    expectedAssertionsNumber: null,
    expectedAssertionsNumberErrorGen: null,
  },
  expect as never,
);
