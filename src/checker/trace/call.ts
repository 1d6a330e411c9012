import type { Call, WrittenArgument } from "../../cells/index.ts";
import {
  formulas,
  InputError,
  isOptional,
  NoResult,
  parametersFor,
  runSpill,
  spills,
  trace,
  warnings,
  type Argument,
  type Formula,
  type Parameter,
  type Spill,
  type Trace,
} from "../../core/index.ts";
import { namespace, worksheetFunctions } from "../../../functions/index.ts";
import type { CellContent, Host } from "../../hosts/index.ts";
import type { Place } from "../../hosts/index.ts";
import { evaluateApart } from "./apart.ts";
import { flagsOf, type Flag } from "./flags.ts";
import type { Origin, OriginOf } from "./origin.ts";
import type { Reading } from "./reading.ts";
import { nearestFunctions } from "./spelling.ts";

/** An argument with its origin and the value that was handed over. */
export interface TracedOrigin {
  readonly written: WrittenArgument;
  /** Its cells, where it is a reference alone. */
  readonly origin?: Origin;
  /** What an expression refers to. */
  readonly origins: readonly Origin[];
  readonly value: Argument;
  /** The argument's own error, before our function sees it. */
  readonly error?: string;
}

/** The rows of a result that fills several cells. */
export interface SpilledResult {
  readonly of: Spill;
  readonly rows: readonly (readonly number[])[];
  readonly warnings: readonly string[];
}

export interface TracedCall {
  readonly call: Call;
  readonly formula?: Formula;
  readonly spill?: Spill;
  readonly arguments: readonly TracedOrigin[];
  readonly trace?: Trace;
  readonly spilled?: SpilledResult;
  /** Why there is no result; `parameter` names the argument at fault, where one is. */
  readonly refused?: { readonly message: string; readonly parameter?: string };
  /** A name that is no function of ours: what is wrong, and the functions nearest to it. */
  readonly unknown?: { readonly message: string; readonly nearest: readonly string[] };
  /** What the cell holds, where it is this call and nothing else. */
  readonly hosts?: CellContent;
  readonly flags: readonly Flag[];
}

/** What a call is traced from. */
interface Surroundings {
  readonly host: Host;
  readonly place: Place;
  readonly content: CellContent;
  readonly reading: Reading;
  readonly originOf: OriginOf;
  /** Calls traced before, by number: those inside come first. */
  readonly traced: ReadonlyMap<number, TracedCall>;
}

const errorText = ({ error }: CellContent): string | undefined =>
  error && (error.message ? `${error.code}: ${error.message}` : error.code);

function handedOver(contents: readonly (readonly CellContent[])[]): Argument {
  if (contents.length === 1 && contents[0]!.length === 1) return contents[0]![0]!.value;
  return contents.map((row) => row.map((cell) => cell.value));
}

async function traceArgument(
  written: WrittenArgument,
  { host, place, reading, originOf, traced }: Surroundings,
  references: readonly string[],
): Promise<TracedOrigin> {
  if (written.kind === "missing") return { written, value: null, origins: [] };
  if (written.kind === "literal") return { written, value: written.value, origins: [] };
  if (written.kind === "call") {
    const inner = traced.get(written.call);
    if (inner?.trace) return { written, value: inner.trace.result, origins: [] };
    if (inner?.spilled) return { written, value: inner.spilled.rows, origins: [] };
    if (inner?.refused)
      return {
        written,
        value: null,
        origins: [],
        error: `KERN.${inner.call.id} inside it gives no result: ${inner.refused.message}`,
      };
  }
  if (written.kind === "reference") {
    const origin = originOf(written.reference.text);
    if (origin?.place && origin.contents.length > 0) {
      const error = origin.contents.flat().map(errorText).find(Boolean);
      return {
        written,
        origin,
        origins: [origin],
        value: handedOver(origin.contents),
        ...(error !== undefined && { error }),
      };
    }
  }
  const origins = references.flatMap((text) => originOf(text) ?? []);
  const text = written.kind === "expression" ? written.evaluate : written.text;
  const own = written.kind === "reference" ? originOf(written.reference.text) : undefined;
  const base = { written, origins, ...(own && { origin: own }) };
  const apart = evaluateApart(text, place, reading, originOf);
  if (apart) return { ...base, ...apart };
  const contents = await host.evaluate(`=${text}`, place.sheet);
  const error = contents.flat().map(errorText).find(Boolean);
  return { ...base, value: handedOver(contents), ...(error !== undefined && { error }) };
}

function unknownFunction({ id, misspelt }: Call): NonNullable<TracedCall["unknown"]> | undefined {
  const known = worksheetFunctions.some((f) => f.id === id);
  if (misspelt !== undefined)
    return {
      message: known
        ? `${misspelt} is written without the dot: the function is ${namespace}.${id}`
        : `${misspelt} is no function of Kernbook`,
      nearest: known ? [id] : nearestFunctions(id),
    };
  if (known) return undefined;
  const nearest = nearestFunctions(id);
  return {
    message:
      "This Kernbook has no function " +
      `${namespace}.${id}${nearest.length > 0 ? ". The name may be misspelt" : ""}. Or the sheet comes ` +
      "from a newer version",
    nearest,
  };
}

function refusalOf(problem: unknown): NonNullable<TracedCall["refused"]> {
  if (problem instanceof InputError)
    return { message: problem.message, ...(problem.parameter && { parameter: problem.parameter }) };
  if (problem instanceof NoResult) return { message: problem.message };
  throw problem;
}

/** Follows one call of ours: its arguments to their cells, and the calculation step by step. */
export async function traceCall(
  call: Call,
  references: (written: WrittenArgument) => readonly string[],
  around: Surroundings,
): Promise<TracedCall> {
  const formula = formulas.find((f) => f.id === call.id);
  const spill = spills.find((f) => f.id === call.id);
  const given = await Promise.all(call.arguments.map((a) => traceArgument(a, around, references(a))));
  const unknown = unknownFunction(call);
  const base = {
    call,
    arguments: given,
    flags: [],
    ...(call.whole && { hosts: around.content }),
    ...(unknown && { unknown }),
  };
  const of = unknown ? undefined : (formula ?? spill);
  if (!of) return base;
  const inForce = parametersFor(
    of,
    given.map((a) => a.value),
  );
  const params = Object.keys(of.params).map((name, i) => [name, inForce[i]!] as const);
  const flags = flagsOf(
    params.flatMap(([name, parameter], i) =>
      given[i] ? [{ name, parameter, written: given[i].written, value: given[i].value }] : [],
    ),
    around.originOf,
  );
  const with_ = { ...base, flags, ...(formula && { formula }), ...(spill && { spill }) };
  const failed = given.findIndex((a) => a.error !== undefined);
  if (failed >= 0)
    return {
      ...with_,
      refused: {
        message: `The argument itself shows an error: ${given[failed]!.error}`,
        ...(params[failed] && { parameter: params[failed][0] }),
      },
    };
  const values = given.map((a) => a.value);
  try {
    if (formula) return { ...with_, trace: trace(formula, values) };
    return { ...with_, spilled: { of: spill!, rows: runSpill(spill!, values), warnings: warnings(spill!, values) } };
  } catch (problem) {
    return { ...with_, refused: refusalOf(problem) };
  }
}

/** Whether an argument takes its default: it may be left out, and nothing is there. */
export function takesDefault(parameter: Parameter, value: Argument): boolean {
  return isOptional(parameter) && (value === null || value === undefined || value === "");
}
