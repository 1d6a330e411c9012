import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { compileFunction } from "node:vm";
import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import {
  register,
  worksheetFunctions,
  type CustomFunctionsHost,
  type WorksheetFunction,
} from "../../../functions/index.ts";
import { root } from "../../../src/command/build.ts";
import { publishedCases } from "../../../src/command/cases.ts";
import type { Argument, Cell, Formula, Parameter } from "../../../src/core/index.ts";
import { argumentsOf as argumentsOfRow } from "../../../src/published/index.ts";
import { argumentsOf } from "../../equation/arguments.ts";

const folder = mkdtempSync(join(tmpdir(), "functions-"));
afterAll(() => rmSync(folder, { recursive: true }));

/** The functions as the spreadsheet program loads them, built here so that nothing stale is tested. */
function built(): string {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [
      join(root, "node_modules", "webpack", "bin", "webpack.js"),
      "--mode",
      "production",
      "--env",
      "functions",
      "--output-path",
      folder,
    ],
    { cwd: root, encoding: "utf8" },
  );
  if (status !== 0) throw new Error(`the bundle could not be built: ${stdout}${stderr}`);
  return readFileSync(join(folder, "functions.js"), "utf8");
}

class HostError extends Error {
  constructor(
    readonly code: string,
    readonly given?: string,
  ) {
    super(given);
  }
}

/** A stand-in for the program: what is registered with it, by id. */
function program(load: (host: CustomFunctionsHost) => void) {
  const kept = new Map<string, (...args: unknown[]) => unknown>();
  load({
    associate: (id: string, run: (...args: unknown[]) => unknown) => kept.set(id, run),
    Error: HostError,
    ErrorCode: { invalidValue: "#VALUE!", invalidNumber: "#NUM!" },
  } as unknown as CustomFunctionsHost);
  /** The value, or the error that a cell shows with its text. */
  const call = (id: string, args: readonly unknown[]): unknown => {
    try {
      return { value: kept.get(id)!(...args, { address: "Sheet1!A1" }) };
    } catch (error) {
      if (error instanceof HostError) return { code: error.code, message: error.given };
      throw error;
    }
  };
  return { kept, call };
}

const code = built();
const bundle = program(
  (host) => void (compileFunction(code, ["CustomFunctions"]) as (host: CustomFunctionsHost) => void)(host),
);
const source = program((host) => register(host));

/** The same from both: value or error, and what KERN.WARNINGS says of it, which includes the reason for a number error. */
function agree(id: string, args: readonly Argument[]): void {
  const said = JSON.stringify(args);
  expect(bundle.call(id, args), `${id} of ${said}`).toEqual(source.call(id, args));
  // Repeating arguments come as one array, each of them a range.
  const asked = [id, args.map((arg): unknown => (Array.isArray(arg) ? arg : [[arg]]))];
  expect(bundle.call("WARNINGS", asked), `WARNINGS of ${id} of ${said}`).toEqual(source.call("WARNINGS", asked));
}

const strange: readonly Cell[] = [null, "strange", true, -1e300, 1e300, 0];
/** The ends of what a number may be: beyond them it is refused, before them it is warned of. */
const ends = (p: Parameter): readonly Cell[] =>
  p.kind === "number"
    ? [p.min, p.max, p.above, p.below, ...(p.typical ?? []), ...(p.valid?.range ?? [])]
        .filter((end) => end !== undefined)
        .flatMap((end) => [end, end - 1e-3 * Math.abs(end), end + 1e-3 * Math.abs(end)])
    : [];

/** An argument made strange in every way: as a cell, as a range, in each column of a table. */
function spoilt(p: Parameter, argument: Argument): readonly Argument[] {
  const whole: readonly Argument[] = [
    ...strange,
    ...ends(p),
    [],
    [
      [1, 2],
      [3, 4],
    ],
  ];
  if (p.kind !== "table" || !Array.isArray(argument)) return whole;
  const [first = [], ...rest] = argument as readonly (readonly Cell[])[];
  return [
    ...whole,
    ...Object.values(p.columns).flatMap((column, i) =>
      [...strange, ...ends(column)].map((cell) => [first.map((own, j) => (j === i ? cell : own)), ...rest]),
    ),
  ];
}

/** A declaration from which arguments can be drawn; rows count as accepted when they can be computed. */
const drawable = ({ formula, spill }: WorksheetFunction): Formula | undefined =>
  formula ?? (spill && ({ ...spill, stepwise: (values: never) => spill.compute(values) } as unknown as Formula));
const declared = worksheetFunctions.flatMap((f) => (drawable(f) ? [[f.id, f, drawable(f)!] as const] : []));

describe("the bundle of the functions", () => {
  it("registers every function", () => {
    expect([...bundle.kept.keys()]).toEqual(worksheetFunctions.map(({ id }) => id));
  });

  it.each(declared)("%s gives the same values, refusals and warnings as its declaration", (id, { parameters }, f) => {
    const samples = fc.sample(argumentsOf(f), { numRuns: 6, seed: 11 });
    for (const args of samples) agree(id, args);
    const [good] = samples;
    agree(id, [...good!, 1]);
    parameters.forEach(({ parameter }, i) => {
      for (const wrong of spoilt(parameter, good![i]))
        agree(
          id,
          good!.map((own, j) => (i === j ? wrong : own)),
        );
    });
  });

  it("gives the same for the arguments of every published check", () => {
    for (const { function: id, rows } of publishedCases()) {
      const f = drawable(worksheetFunctions.find((each) => each.id === id)!)!;
      for (const row of rows) agree(id, argumentsOfRow(row, f));
    }
  });

  it("gives the version", () => {
    expect(bundle.call("VERSION", [])).toEqual(source.call("VERSION", []));
  });

  it("leaves out what is only read", () => {
    const read = declared
      .flatMap(([, , { summary, notes = [], unpublished = "", empirical = "" }]) => [
        summary,
        ...notes,
        unpublished,
        empirical,
      ])
      .filter((text) => text.length > 30);
    expect(read.length).toBeGreaterThan(100);
    expect([...new Set(read.filter((text) => code.includes(text)))]).toEqual([]);
  });
});
