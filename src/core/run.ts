import { InputError, NoResult } from "./errors.ts";
import { formulaFor, type Declaration, type Formula, type Spill } from "./formula.ts";
import { neighbourHint } from "./neighbours.ts";
import {
  allowedText,
  everydayText,
  format,
  inForce,
  isOptional,
  unusual,
  type AnyValues,
  type Parameter,
  type Quantity,
} from "./parameters.ts";
import { checkLimits, nameOf, readArgument, readFactor, readers, type Argument, type Reader } from "./read.ts";
import { coherentUnit } from "./units.ts";

interface Prepared {
  readonly f: Formula;
  readonly readers: readonly Reader[];
  readonly fromResult: number;
}
type ToRead = { readonly f: Declaration; readonly readers: readonly Reader[] };

const prepared = new WeakMap<object, Prepared>();

function prepare(f: Formula): Prepared {
  let p = prepared.get(f);
  if (!p) prepared.set(f, (p = { f, readers: readersOf(f), fromResult: 1 / readFactor(f.result) }));
  return p;
}

const made = new WeakMap<object, readonly Reader[]>();

function readersOf(f: Declaration): readonly Reader[] {
  let r = made.get(f);
  if (!r) made.set(f, (r = readers(f)));
  return r;
}

/** Arguments checked and converted to the units the equation reads, by name. */
export function read(f: Declaration, args: readonly Argument[]): AnyValues {
  return readPrepared({ f, readers: readersOf(f) }, args);
}

function readPrepared({ f, readers }: ToRead, args: readonly Argument[]): AnyValues {
  if (args.length > readers.length)
    throw new InputError("", `${f.id} takes ${readers.length} arguments; ${args.length} were given`);
  const values: Record<string, unknown> = {};
  let waiting = false;
  for (let i = 0; i < readers.length; i++) {
    const reader = readers[i]!;
    const argument = args[i];
    if (reader.waits) waiting = true;
    else
      values[reader.name] =
        typeof argument === "number" && argument > reader.low && argument < reader.high
          ? argument * reader.factor
          : readArgument(argument, reader, values);
  }
  // What follows from another argument is read once that is known.
  if (waiting)
    readers.forEach((reader, i) => {
      if (reader.waits) values[reader.name] = readArgument(args[i], reader, values);
    });
  // Each reader gives what its parameter asks for: the one place where that is not seen by the compiler.
  const all = values as AnyValues;
  if (f.limits) checkLimits(f, all);
  return all;
}

/** A message as words, to look for a name among them. */
const wordsOf = (message: string): readonly string[] => message.split(/[^\p{L}\p{N}_'′]+/u);

/** Lets a refusal of the formula's own say which argument it is about, where its words do not. */
function named<T>({ params }: Pick<Formula, "params">, work: () => T): T {
  try {
    return work();
  } catch (error) {
    const parameter = error instanceof InputError ? params[error.parameter] : undefined;
    if (!(error instanceof InputError) || !parameter) throw error;
    const { message } = error;
    const symbol = parameter.symbol.replace(/_/g, "");
    if (wordsOf(message).includes(symbol) || message.includes(parameter.text)) throw error;
    throw new InputError(error.parameter, `${nameOf(parameter)}: ${message}`);
  }
}

/**
 * Runs a formula on the cells' own values and gives the result in the cell's unit.
 * Throws InputError for input it must refuse and NoResult where there is no answer; never gives NaN or an infinity.
 */
export function run(f: Formula, args: readonly Argument[]): number {
  const p = prepare(f);
  return runRead(p, readPrepared(p, args));
}

function runRead(p: Prepared, values: AnyValues): number {
  const own = formulaFor(p.f, values);
  return resultOf(
    own === p.f ? p : prepare(own),
    named(own, () => own.compute(values)),
  );
}

/** Runs a spill on the cells' own values and gives its rows in the cells' units. Throws like `run`. */
export function runSpill(f: Spill, args: readonly Argument[]): readonly (readonly number[])[] {
  return spillRead(f, read(f, args));
}

function spillRead(f: Spill, values: AnyValues): readonly (readonly number[])[] {
  const rows = named(f, () => f.compute(values));
  const columns = Object.entries(f.columns).map(([name, column]) => ({ name, factor: 1 / readFactor(column) }));
  return rows.map((row, r) =>
    columns.map(({ name, factor }) => {
      const value = row[name]! * factor;
      if (!Number.isFinite(value)) throw new NoResult(`${f.id} has no finite result for ${name} in row ${r + 1}`);
      return value;
    }),
  );
}

/** The result in the cell's unit, from the unit the equation works in. */
function resultOf({ f, fromResult }: Prepared, computed: number): number {
  const value = computed * fromResult;
  if (!Number.isFinite(value)) throw new NoResult(`${f.id} has no finite result for these arguments`);
  return value;
}

interface TracedArgument {
  readonly name: string;
  /** As it is in this call, where a choice or the range's own shape decides. */
  readonly parameter: Parameter;
  /** The cell's own value, or the default. */
  readonly given: Argument;
  readonly isDefault: boolean;
  /** The value in the unit the equation reads, as `compute` sees it. */
  readonly value: unknown;
  /** "1 kN = 1000 N": the conversion in words, where there is one. */
  readonly conversion?: string;
}

interface TracedStep {
  readonly name: string;
  readonly step: Formula["steps"][string];
  /** In the unit the equation works in. */
  readonly value: number;
  /** In the step's printed unit. */
  readonly shown: number;
}

/** Everything that led to a value. */
export interface Trace {
  readonly formula: Formula;
  readonly arguments: readonly TracedArgument[];
  readonly values: AnyValues;
  readonly steps: readonly TracedStep[];
  readonly result: number;
  readonly warnings: readonly string[];
  /** The residual of a search or the relative difference to a second way; absent where equations say it all. */
  readonly proof?: number;
}

/** A parameter as it is in one call: the table its range was told to be, the quantity a choice decides. */
function told(parameter: Parameter, value: unknown, values: Readonly<Record<string, unknown>>): Parameter {
  if (parameter.kind !== "table" || !parameter.kinds) return inForce(parameter, values);
  const is = isTold(value) ? value.is : undefined;
  return inForce(is === undefined ? parameter : parameter.kinds.tables[is]!, values);
}

const isTold = (value: unknown): value is { readonly is: string; readonly rows: Rows } =>
  typeof value === "object" && value !== null && "is" in value;

type Rows = readonly Readonly<Record<string, number>>[];
const rowsIn = (value: unknown): Rows => (isTold(value) ? value.rows : (value as Rows));

/** Runs a formula and keeps every intermediate value. Throws like `run`. */
export function trace(of: Formula, args: readonly Argument[]): Trace {
  const values = read(of, args);
  const f = formulaFor(of, values);
  const p = prepare(f);
  const steps = named(f, () => f.stepwise(values));
  const names = Object.keys(f.steps);
  const traced = names.map((name) => {
    const step = f.steps[name]!;
    const value = steps[name]!;
    return { name, step, value, shown: value / readFactor(step) };
  });
  const result = resultOf(p, traced.at(-1)!.value);
  return {
    formula: f,
    arguments: p.readers.map(({ name, parameter: declared }, i) => {
      const parameter = told(declared, values[name], values);
      const factor = parameter.kind === "number" ? readFactor(parameter) : 1;
      const isDefault = isOptional(parameter) && (args[i] === null || args[i] === undefined || args[i] === "");
      const given = isDefault && parameter.kind !== "table" && parameter.kind !== "text" ? parameter.default : args[i];
      const reads = parameter.kind === "number" ? (parameter.reads ?? coherentUnit(parameter.unit)) : undefined;
      return {
        name,
        parameter,
        given,
        isDefault,
        value: values[name],
        ...(parameter.kind === "number" &&
          values[name] !== undefined &&
          factor !== 1 && {
            conversion: `${format((values[name] as number) / factor)} ${parameter.unit} = ${format(values[name] as number)} ${reads}`,
          }),
      };
    }),
    values,
    steps: traced,
    result,
    warnings: warningsOf(f, values),
    ...(f.proof && { proof: f.proof(values, steps) }),
  };
}

/** What a user should know about this input although it is computed: outside the everyday range or the source's validity. */
export function warnings(f: Declaration, args: readonly Argument[]): readonly string[] {
  return warningsOf(f, read(f, args));
}

/** The same of a call that is computed too, its arguments read once. Throws like `run`. */
export function runAndWarn(f: Formula, args: readonly Argument[]): readonly string[] {
  const p = prepare(f);
  const values = readPrepared(p, args);
  runRead(p, values);
  return warningsOf(f, values);
}

/** The same of a spill. */
export function spillAndWarn(f: Spill, args: readonly Argument[]): readonly string[] {
  const values = read(f, args);
  spillRead(f, values);
  return warningsOf(f, values);
}

/**
 * What should be known about an allowed value of a quantity, in its own unit: a sentence for each range it leaves.
 * `where` names the row of a range.
 */
export function valueWarnings(q: Quantity, value: number, where = ""): readonly string[] {
  const shown = `${nameOf(q)}${where} = ${format(value)}${q.unit === "–" ? "" : ` ${q.unit}`}`;
  const out: string[] = [];
  if (q.valid && (value < q.valid.range[0] || value > q.valid.range[1])) {
    const range = allowedText({ unit: q.unit, min: q.valid.range[0], max: q.valid.range[1] });
    out.push(`${shown} is outside the range of ${q.valid.where}, ${range}`);
  }
  if (unusual(q, value)) {
    const hint = neighbourHint(q, value);
    out.push(`${shown} is outside the everyday range ${everydayText(q)}${hint && `. ${hint}`}`);
  }
  return out;
}

/** A default is the standard's own value or stands for nothing given: never unusual. */
const isDefault = (q: Quantity, value: number): boolean =>
  q.default !== undefined && value === q.default * readFactor(q);

/** What should be known about the values of a column: each sentence once, with the rows it is true of. */
function columnWarnings(column: Quantity, values: readonly number[]): readonly string[] {
  const found = new Map<string, { readonly sentence: string; readonly rows: number[] }>();
  values.forEach((value, r) => {
    for (const sentence of valueWarnings(column, value / readFactor(column), ` in row ${r + 1}`)) {
      const what = sentence.slice(sentence.indexOf(" is outside"));
      const known = found.get(what) ?? { sentence, rows: [] };
      known.rows.push(r + 1);
      found.set(what, known);
    }
  });
  return [...found.values()].map(({ sentence, rows }) => {
    const more = rows.length - 1;
    return more === 0
      ? sentence
      : `${sentence} (and ${more} more ${more === 1 ? "row" : "rows"}, up to row ${rows.at(-1)!})`;
  });
}

function warningsOf(f: Declaration, values: AnyValues): readonly string[] {
  const out: string[] = [];
  const look = (q: Quantity, value: number, where = ""): void => {
    out.push(...valueWarnings(q, value / readFactor(q), where));
  };
  for (const [name, declared] of Object.entries(f.params)) {
    const value = values[name];
    const parameter = told(declared, value, values);
    if (parameter.kind === "number" && value !== undefined && !isDefault(parameter, value as number))
      look(parameter, value as number);
    if (parameter.kind === "table")
      for (const [c, column] of Object.entries(parameter.columns))
        if (column.kind === "number")
          out.push(
            ...columnWarnings(
              column,
              rowsIn(value).map((row) => row[c]!),
            ),
          );
  }
  if (f.cautions) out.push(...f.cautions(values));
  return out;
}
