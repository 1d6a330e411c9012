import { formulas, InputError, NoResult, trace, type Argument, type Formula, type Trace } from "../../src/core/index.ts";
import type { CellContent, Host, Place } from "../../src/hosts/index.ts";
import type { Meaning } from "../../src/sheet/index.ts";
import { builtOn } from "../built.ts";
import { readFormula, type Call, type ReadFormula, type WrittenArgument } from "./calls.ts";
import { holds, placeOf, placeText, type PlacedArea } from "../../src/checker/index.ts";

/** Cells a formula refers to, with what they mean and hold. */
export interface Origin {
  /** As written in the formula. */
  readonly text: string;
  readonly place?: PlacedArea;
  /** "D12": where it is, seen from the formula's sheet. */
  readonly address?: string;
  readonly meaning?: Meaning;
  readonly contents: readonly (readonly CellContent[])[];
}

/** What the selected cell holds. */
export interface Inspection {
  readonly place: Place;
  readonly address: string;
  readonly content: CellContent;
  readonly meaning?: Meaning;
  readonly read?: ReadFormula;
  /** Why the formula cannot be read. */
  readonly unreadable?: string;
  readonly precedents: readonly Origin[];
}

/** Ranges larger than this are not read for a list of precedents. */
const mostCells = 5000;

/** What a cell of a sheet built in this session means. */
export function meaningOf(place: Place): Meaning | undefined {
  return builtOn(place.sheet)?.plan.meanings.find((m) => holds(m.at, place));
}

async function find(host: Host, reference: { readonly text: string; readonly named: boolean }, sheet: string): Promise<PlacedArea | undefined> {
  const address = reference.named ? await host.resolveName(reference.text, sheet) : reference.text;
  return address === undefined ? undefined : placeOf(address, sheet);
}

async function originOf(host: Host, reference: { readonly text: string; readonly named: boolean }, sheet: string): Promise<Origin> {
  const place = await find(host, reference, sheet);
  if (!place || place.rows * place.columns > mostCells) return { text: reference.text, contents: [], ...(place && { place, address: placeText(place, sheet) }) };
  const meaning = meaningOf(place);
  return { text: reference.text, place, address: placeText(place, sheet), ...(meaning && { meaning }), contents: await host.read(place.sheet, place) };
}

/** Reads the cell and everything its formula refers to. */
export async function inspect(host: Host, place: Place): Promise<Inspection> {
  const [[content]] = await host.read(place.sheet, { row: place.row, column: place.column, rows: 1, columns: 1 }) as [[CellContent]];
  const meaning = meaningOf(place);
  const address = placeText({ ...place, rows: 1, columns: 1 }, place.sheet);
  const base = { place, address, content, ...(meaning && { meaning }) };
  if (content.formula === undefined) return { ...base, precedents: [] };
  let read: ReadFormula;
  try {
    read = readFormula(content.formula);
  } catch (problem) {
    return { ...base, precedents: [], unreadable: problem instanceof Error ? problem.message : String(problem) };
  }
  return { ...base, read, precedents: await Promise.all(read.references.map((r) => originOf(host, r, place.sheet))) };
}

/** An argument with its origin and the value that was handed over. */
export interface TracedOrigin {
  readonly written: WrittenArgument;
  readonly origin?: Origin;
  readonly value: Argument;
  /** The argument's own error, before our function sees it. */
  readonly error?: string;
}

export interface TracedCall {
  readonly call: Call;
  readonly formula?: Formula;
  readonly arguments: readonly TracedOrigin[];
  readonly trace?: Trace;
  /** Why there is no result; `parameter` names the argument at fault, where one is. */
  readonly refused?: { readonly message: string; readonly parameter?: string };
  /** What the host itself makes of the call. */
  readonly hosts?: CellContent;
}

const errorText = (cell: CellContent): string | undefined => cell.error && (cell.error.message ? `${cell.error.code}: ${cell.error.message}` : cell.error.code);

function handedOver(contents: readonly (readonly CellContent[])[]): Argument {
  if (contents.length === 1 && contents[0]!.length === 1) return contents[0]![0]!.value;
  return contents.map((row) => row.map((cell) => cell.value));
}

async function traceArgument(host: Host, written: WrittenArgument, sheet: string): Promise<TracedOrigin> {
  if (written.kind === "missing") return { written, value: null };
  if (written.kind === "literal") return { written, value: written.value };
  if (written.kind === "reference") {
    const origin = await originOf(host, written, sheet);
    if (origin.place) {
      const error = origin.contents.flat().map(errorText).find(Boolean);
      return { written, origin, value: handedOver(origin.contents), ...(error && { error }) };
    }
  }
  const contents = await host.evaluate(`=${written.text}`, sheet);
  const error = contents.flat().map(errorText).find(Boolean);
  return { written, value: handedOver(contents), ...(error && { error }) };
}

/** Follows one call of ours: its arguments to their cells, and the calculation step by step. */
export async function traceCall(host: Host, call: Call, at: Inspection): Promise<TracedCall> {
  const sheet = at.place.sheet;
  const formula = formulas.find((f) => f.id === call.id);
  const given = await Promise.all(call.arguments.map((a) => traceArgument(host, a, sheet)));
  const hosts = call.whole ? at.content : (await host.evaluate(`=${call.text}`, sheet))[0]?.[0];
  const base = { call, arguments: given, ...(formula && { formula }), ...(hosts && { hosts }) };
  if (!formula) return base;
  const failed = given.findIndex((a) => a.error !== undefined);
  const names = Object.keys(formula.params);
  if (failed >= 0) return { ...base, refused: { message: `The argument itself shows an error: ${given[failed]!.error}`, ...(names[failed] && { parameter: names[failed] }) } };
  try {
    return { ...base, trace: trace(formula, given.map((a) => a.value)) };
  } catch (problem) {
    if (problem instanceof InputError) return { ...base, refused: { message: problem.message, ...(problem.parameter && { parameter: problem.parameter }) } };
    if (problem instanceof NoResult) return { ...base, refused: { message: problem.message } };
    throw problem;
  }
}
