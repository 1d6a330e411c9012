import fc from "fast-check";
import { worksheetFunctions, type WorksheetFunction } from "../../functions/index.ts";
import { q, trace, type Argument, type Cell, type Formula } from "../../src/core/index.ts";
import { argumentsOf } from "../equation/arguments.ts";
import { faultOf, speaksOfTheInside } from "./check.ts";
import { anyArgument, argumentFor } from "./draws.ts";
import { mostRows, takesRange, withLongRanges } from "./longRanges.ts";
import { integer, pick, randomFrom, type Random } from "./random.ts";

interface Fault {
  readonly what: string;
  readonly args: readonly Argument[];
}

/** What came of the calls of one function. */
interface Tally {
  readonly id: string;
  calls: number;
  values: number;
  refusals: number;
  without: number;
  readonly faults: Fault[];
}

/** Faults kept for one function; more of them say nothing new. */
const faultsKept = 5;
/** Whole sets of arguments that a function accepts; all other calls are made from them. */
const basesDrawn = 24;

/** Of the calls of a function with ranges, those in which the ranges are long. */
const shareOfLong = 0.02;

type Bases = readonly (readonly Argument[])[];

/** The declaration, seen as what draws arguments for it: a function that fills several cells computes rows where another has steps. */
function drawable(f: WorksheetFunction): Formula | undefined {
  return (
    f.formula ??
    (f.spill && ({ ...f.spill, stepwise: (values: never) => f.spill!.compute(values) } as unknown as Formula))
  );
}

/** Nobody may write into what cells hand over. */
function frozen(argument: Argument): Argument {
  if (!Array.isArray(argument)) return argument;
  for (const row of argument as readonly object[]) Object.freeze(row);
  return Object.freeze(argument as readonly (readonly Cell[])[]);
}

function drawBases(f: WorksheetFunction, seed: number): Bases {
  const declaration = drawable(f);
  return declaration
    ? fc.sample(argumentsOf(declaration), { numRuns: basesDrawn, seed }).map((args) => args.map(frozen))
    : [];
}

/** Sets of arguments that the function accepts; none for the functions about the workbook itself. */
export function basesOf(f: WorksheetFunction, seed: number): Bases {
  const key = `${seed} ${f.id}`;
  const bases = known.get(key) ?? drawBases(f, seed);
  known.set(key, bases);
  return bases;
}
const known = new Map<string, Bases>();

/** Arguments between two sets that are accepted; ranges and words of the first. */
function between(random: Random, f: WorksheetFunction, bases: Bases): Argument[] {
  const [a, b] = [pick(random, bases), pick(random, bases)];
  const u = pick(random, [0, random()]);
  return f.parameters.map(({ parameter }, i) => {
    if (parameter.kind !== "number" || parameter.whole) return a[i];
    // A blank cell has nothing between it and a number.
    if (typeof a[i] !== "number" || typeof b[i] !== "number") return a[i];
    return a[i] + u * (b[i] - a[i]);
  });
}

export function drawArguments(random: Random, f: WorksheetFunction, bases: Bases): readonly Argument[] {
  const u = random();
  if (bases.length === 0 || u < 0.05)
    return Array.from({ length: integer(random, 0, f.parameters.length + 2) }, () => anyArgument(random));
  const args = between(random, f, bases);
  if (takesRange(f) && random() < shareOfLong) {
    // From a few rows to somewhat more than are allowed, short ones more often.
    const rows = Math.round(4 * ((1.1 * mostRows(f)) / 4) ** random());
    return withLongRanges(f, args, rows) ?? args;
  }
  if (u < 0.3) return args;
  if (u < 0.35) return args.slice(0, integer(random, 0, args.length));
  if (u < 0.4) return [...args, anyArgument(random)];
  const wild = u < 0.55;
  for (let n = integer(random, 1, 2); n > 0 && args.length > 0; n--) {
    const i = integer(random, 0, args.length - 1);
    args[i] = wild ? anyArgument(random) : argumentFor(random, f.parameters[i]!.parameter, args[i]);
  }
  return args;
}

const others = worksheetFunctions.filter(drawable);

/** For the function that speaks about other calls: another function's id and arguments for it. */
function drawAbout(random: Random, seed: number): readonly Argument[] {
  const other = pick(random, others);
  const bases = basesOf(other, seed);
  return [
    pick(random, [other.id, other.id, other.name, other.id.toLowerCase(), anyArgument(random)]),
    ...drawArguments(random, other, bases),
  ];
}

/** Marks as the panel writes them, with arguments of all kinds among theirs. */
function drawMark(random: Random): readonly Argument[] {
  const mark = [
    pick(random, ["AB", "rev 1", anyArgument(random)]),
    pick(random, ["2026-11-26", 46352, anyArgument(random)]),
    pick(random, ["30bf864eb27915a7", "30bf864eb27915a7.0123456789abcdef", anyArgument(random)]),
  ];
  return [...mark, ...Array.from({ length: integer(random, 0, 3) }, () => anyArgument(random))].slice(
    0,
    integer(random, 2, 6),
  );
}

/** Quantities as sheets name them, with cells of all kinds. */
function drawInputs(random: Random): readonly Argument[] {
  const key = pick(random, [...Object.keys(q), anyArgument(random)]);
  const cell = (): Argument => pick(random, [0, 0.02, 0.7, 57, 1400, 2e5, anyArgument(random)]);
  return [key, ...Array.from({ length: integer(random, 0, 3) }, cell)];
}

/** Lists of warnings, with cells of all kinds. */
function drawList(random: Random): readonly Argument[] {
  const row = (): string[] => ["input 1.2: RH", pick(random, ["", " ", " RH is 0.75 %"])];
  const list = Array.from({ length: integer(random, 1, 4) }, row);
  return [
    pick(random, [list, anyArgument(random)]),
    ...Array.from({ length: integer(random, 0, 2) }, () => anyArgument(random)),
  ];
}

/** Functions whose arguments no range describes. */
const ofItsOwn: Readonly<Record<string, (random: Random, seed: number) => readonly Argument[]>> = {
  WARNINGS: drawAbout,
  CHECKED: drawMark,
  INPUT_WARNINGS: drawInputs,
  WARNINGS_CODE: drawList,
};

/** What the panel shows of a call must agree with the cell. */
function faultOfTrace(f: WorksheetFunction, args: readonly Argument[], value: unknown): string | undefined {
  if (!f.formula) return undefined;
  const traced = trace(f.formula, args);
  if (traced.result !== value) return `Trace gives ${traced.result}, the cell ${JSON.stringify(value)}`;
  const odd = traced.warnings.find(speaksOfTheInside);
  return odd === undefined ? undefined : `a warning that speaks of the program's inside: ${odd}`;
}

/** Calls one function many times, as cells do, and looks at every answer. */
export function fuzz(f: WorksheetFunction, calls: number, seed: number): Tally {
  const random = randomFrom(seed);
  const tally: Tally = { id: f.id, calls, values: 0, refusals: 0, without: 0, faults: [] };
  const note = (what: string, args: readonly Argument[]): void =>
    void (tally.faults.length < faultsKept && tally.faults.push({ what, args }));
  for (let n = 0; n < calls; n++) {
    const args = ofItsOwn[f.id]?.(random, seed) ?? drawArguments(random, f, basesOf(f, seed));
    try {
      const result = f.call(args);
      if ("value" in result) tally.values++;
      else if (result.error.code === "#NUM!") tally.without++;
      else tally.refusals++;
      const what =
        faultOf(f, args, result) ??
        ("value" in result && n % 16 === 0 ? faultOfTrace(f, args, result.value) : undefined);
      if (what !== undefined) note(what, args);
    } catch (error) {
      note(`thrown: ${String(error)}`, args);
    }
  }
  return tally;
}
