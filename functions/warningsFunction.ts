import {
  InputError,
  NoResult,
  runAndWarn,
  spillAndWarn,
  text,
  type Argument,
  type Cell,
  type Formula,
  type Parameter,
  type Spill,
} from "../src/core/index.ts";
import { gathered } from "./gathered.ts";

const params = {
  function: text({
    key: "functionId",
    symbol: "function",
    text: 'id of the function, as text: "FRICTION_STRESS"',
    example: '"FRICTION_STRESS"',
  }),
  arguments: text({
    key: "functionArguments",
    symbol: "arguments",
    text: "the arguments as that function gets them, one after another",
  }),
} as const;

/** The one cell of an argument; undefined for a larger range. */
function only(argument: Argument): Cell {
  if (!Array.isArray(argument)) return argument as Cell;
  const rows = argument as readonly (readonly Cell[])[];
  return rows.length === 1 && rows[0]!.length === 1 ? rows[0]![0] : undefined;
}

type Columns = readonly (readonly Cell[])[];

/** A column of cells where the function takes a single cell: one call a row. */
function isColumn(argument: Argument, parameter: Parameter | undefined): argument is Columns {
  if (!Array.isArray(argument) || parameter === undefined || parameter.kind === "table") return false;
  const rows = argument as Columns;
  return rows.length > 1 && rows.every((row) => row.length === 1);
}

/** The arguments of each call, where columns of one length stand for one call a row. */
function callsIn({ params: taken }: Formula | Spill, args: readonly Argument[]): readonly (readonly Argument[])[] {
  const parameters = Object.values(taken);
  const lengths = new Set(args.flatMap((arg, i) => (isColumn(arg, parameters[i]) ? [arg.length] : [])));
  if (lengths.size !== 1) return [args];
  const [length] = lengths;
  return Array.from({ length: length! }, (_, row) =>
    args.map((arg, i) => (isColumn(arg, parameters[i]) ? arg[row]![0] : arg)),
  );
}

interface Asked {
  readonly of: Formula | Spill;
  readonly told: (args: readonly Argument[]) => readonly string[];
}

/** Rows of a column at most: a call for each. The longest tables of the check sheets stay below it. */
const mostCalls = 1000;
/** Rows of ranges that all these calls read together. */
const mostRead = 20_000;

/** Refuses columns that ask for more than can be answered at once. */
function refuseTooMany(calls: readonly (readonly Argument[])[]): void {
  const ranges = calls[0]!.filter((argument) => Array.isArray(argument)) as readonly Columns[];
  const rows = ranges.reduce((sum, range) => sum + range.length, 0);
  const most = Math.max(1, Math.min(mostCalls, Math.floor(mostRead / Math.max(1, rows))));
  if (calls.length <= most) return;
  const beside = rows === 0 ? "" : ` beside ranges of ${rows} rows`;
  throw new InputError(
    "arguments",
    `arguments has columns of ${calls.length} rows, a call for each; allowed${beside}: at most ${most} rows. ` +
      "Ask for fewer rows at a time",
  );
}

/**
 * The function that tells what should be known about a call although it is computed: input outside the everyday range
 * or the source's validity. Empty where there is nothing to tell; a refused call gives the refusal's own text, so that
 * a list of warnings misses nothing. A column of cells for an argument of one cell asks for each row, and what several
 * rows have in common is told once.
 */
export function warningsFunction(formulas: readonly Formula[], spills: readonly Spill[], namespace: string) {
  const byId = new Map<string, Asked>([
    ...formulas.map((f) => [f.id, { of: f, told: (args: readonly Argument[]) => runAndWarn(f, args) }] as const),
    ...spills.map((f) => [f.id, { of: f, told: (args: readonly Argument[]) => spillAndWarn(f, args) }] as const),
  ]);
  const compute = ([wanted, ...args]: readonly Argument[]): string => {
    const id = String(only(wanted) ?? "")
      .trim()
      .toUpperCase()
      .replace(`${namespace}.`, "");
    const wantedFunction = byId.get(id);
    if (!wantedFunction)
      throw new InputError(
        "function",
        id === ""
          ? "function (the id of a worksheet function) is missing; a text is needed, such as “FRICTION_STRESS”"
          : `function = “${id.length > 60 ? `${id.slice(0, 59)}…` : id}” is no function of ${namespace}; give ` +
              "its id as text, such as “FRICTION_STRESS”",
      );
    const told = (given: readonly Argument[]): readonly string[] => {
      try {
        return wantedFunction.told(given);
      } catch (error) {
        if (error instanceof InputError || error instanceof NoResult) return [error.message];
        throw error;
      }
    };
    const calls = callsIn(wantedFunction.of, args);
    refuseTooMany(calls);
    return (calls.length === 1 ? told(calls[0]!) : gathered(calls.map(told))).join("; ");
  };
  return {
    id: "WARNINGS",
    summary:
      "What should be known about a call of another function: input outside its everyday range or its " +
      "source's validity; empty where there is nothing",
    params,
    repeating: "arguments",
    compute,
  } as const;
}
